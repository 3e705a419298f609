"""Near which stretches of an enlarged picture hard edges lie, by words of eight bytes; see `cell_words`."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np
import numpy.typing as npt

from pycore.render.byte_lanes import HIGH, Words, compared, exceeding
from pycore.render.cell_bounds import BESIDE, SOFT, STRETCH, Block

#: Bytes of a word, words of a stretch.
BYTES: Final = 8
_WORDS: Final = STRETCH // BYTES

#: Rows of a block that are looked at first.
_FEW: Final = 8

#: The last bytes of the word before a stretch, and the first ones of the word after it, that bear upon it.
_LAST_BYTES: Final = np.frombuffer(bytes(BYTES - BESIDE[0]) + b"\x80" * BESIDE[0], np.int64)
_FIRST_BYTES: Final = np.frombuffer(b"\x80" * BESIDE[1] + bytes(BYTES - BESIDE[1]), np.int64)


def near_by_words(
    beside: Words, pairs: tuple[Words, Words], blocks: Sequence[Block]
) -> npt.NDArray[np.bool_]:
    """Find the stretches near which there is a hard edge.

    Parameters
    ----------
    beside : (rows, words) int64
        Pixels of a channel, each in the place of the one to its left: two rows more than the picture at
        either end, a word before the first stretch and one after the last.
    pairs : two of (rows - 2, words) int64
        The greater and the lesser of every pixel and the one to its left, without the outermost rows.
    blocks : sequence of Block

    Returns
    -------
    (stretches, blocks) bool

    Examples
    --------
    >>> pixels = np.full((7, 80), 40, np.uint8)
    >>> pixels[:, 30:] = 65
    >>> beside = np.full_like(pixels, 65)
    >>> beside[:, :29] = 40
    >>> words, beside = pixels.view(np.int64), beside.view(np.int64)
    >>> block = Block(found=slice(0, 3), source=slice(0, 3), cells=np.arange(3))
    >>> near_by_words(beside, compared(words[1:-1], beside[1:-1]), [block]).tolist()
    [[True]]
    """
    # A difference between columns is found in the one before the one that it leads to.
    most, least = pairs
    along = [slice(block.source.start + 1, block.source.stop + 1) for block in blocks]
    # Hard grain shows in a few rows that no more need be looked at.
    near = _near([most[rows][:_FEW] - least[rows][:_FEW] for rows in along])
    if near.all():
        return near
    upper, lower = compared(beside[2:-3], beside[3:-2])
    down = np.subtract(upper, lower, out=upper)
    near = _near([most[rows] - least[rows] for rows in along])
    return near | _near([down[block.source.start : block.source.stop - 1] for block in blocks])


def _near(differences: Sequence[Words]) -> npt.NDArray[np.bool_]:
    """Stretches on which a hard one of each block's differences bears, (stretches, blocks)."""
    hard = np.stack([np.bitwise_or.reduce(exceeding(rows, SOFT), axis=0) for rows in differences])
    found = np.bitwise_or.reduce(hard[:, 1:-1].reshape(len(hard), -1, _WORDS), axis=2)
    found &= HIGH
    found |= hard[:, :-2:_WORDS] & _LAST_BYTES
    found |= hard[:, _WORDS + 1 :: _WORDS] & _FIRST_BYTES
    near: npt.NDArray[np.bool_] = found.T != 0
    return near
