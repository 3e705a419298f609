"""The colours that a strip has, in small cells: where pixels mix to one of these they are mixed freely.

Cells are 4 levels of 255 wide: of random colours encoded in sRGB in one of them, dark and saturated ones
among them, 1 pair in 100,000 is more than 5 ΔE76 apart.
"""

from __future__ import annotations

import math
from typing import Final

import numpy as np
import numpy.typing as npt

from pycore.fill.continued_ground import I64
from pycore.fill.continued_words import BITS, Number, Words, packed

#: Bits of each of the first three channels that number a cell: cells are 4 levels of 255 wide.
_BITS: Final = 6
_CELLS: Final = 1 << (3 * _BITS)

#: What a fourth channel (opacity, black) moves a cell by for each of its own 64 parts: far off.
_FOURTH: Final = 4099

#: A strip with more pixels is looked at in every second or third row and column.
_MOST_PX: Final = 500_000

Marks = npt.NDArray[np.bool_]


def colour_cells(words: list[Words], *, itemsize: int, channels: int, shift: int = 0) -> I64:
    """Number the cells in which the colours of pixels lie.

    Parameters
    ----------
    words : list of uint64
        From `packed`, or mixed from it.
    itemsize : int
        Bytes of a channel's value.
    channels : int
        Channels of a pixel.
    shift : int
        Bits of the values that are shares.

    Returns
    -------
    int64
        Of the words' shape; from 0 to 2**18 - 1.

    Examples
    --------
    >>> pixels = np.array([[[0, 0, 4], [1, 2, 7]]], np.uint8)
    >>> colour_cells(packed(pixels), itemsize=1, channels=3).tolist()
    [4096, 4096]
    """
    bits = BITS[itemsize]
    to_a_word = 64 // bits
    lane = np.uint64((1 << bits) - 1)
    cells = np.zeros(words[0].shape, np.uint64)
    for channel in range(channels):
        part = words[channel // to_a_word] >> np.uint64(channel % to_a_word * bits)
        part &= lane
        if itemsize > 1:
            # From 65535 to 255: 257 times a value of 8 bits is that value.
            part = (part * np.uint64(255) + (part >> np.uint64(8))) >> np.uint64(16)
        part >>= np.uint64(shift + 8 - _BITS)
        if channel < 3:
            part <<= np.uint64(channel * _BITS)
        else:
            part *= np.uint64(_FOURTH)
        cells ^= part
    return cells.view(np.int64)


def known_colours(strip: npt.NDArray[Number]) -> Marks:
    """Mark the cells that hold a colour of a strip.

    Parameters
    ----------
    strip : (rows, columns, channels) uint8 or uint16

    Returns
    -------
    (2**18,) bool
        By the numbers of `colour_cells`.

    Examples
    --------
    >>> known = known_colours(np.array([[[0, 0, 4], [200, 0, 0]]], np.uint8))
    >>> np.flatnonzero(known).tolist()
    [50, 4096]
    """
    every = math.isqrt(strip.shape[0] * strip.shape[1] // _MOST_PX) + 1
    looked_at = strip[::every, ::every]
    cells = colour_cells(packed(looked_at), itemsize=strip.itemsize, channels=strip.shape[2])
    has: Marks = np.zeros(_CELLS, np.bool_)
    has[cells] = True
    return has
