"""Rounding to 8 bits by a fixed pattern, so that what lies between two levels is kept on average."""

from __future__ import annotations

from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from pycore.colour.spaces.arrays import ByteArray

U16 = NDArray[np.uint16]

#: Steps between two levels of 8 bits, and what is added before they are cut off where nothing is dithered.
STEPS: Final = 256
HALF: Final = STEPS // 2

#: How far the pattern goes on from one column and from one row to the next, in 2^-32 of a level: the reciprocals
#: of the plastic number and of its square, the root of x^3 = x + 1. Multiples of the two fill the unit interval
#: evenly in every neighbourhood and never repeat on any canvas. M. Roberts, The unreasonable effectiveness of
#: quasirandom sequences (2018).
_ACROSS: Final = 3242174889
_DOWN: Final = 2447445414

#: Where each channel begins in the pattern, so that not all channels step up at the same pixels.
_CHANNEL: Final = (0, 1 << 30, 1 << 31, 3 << 30)


def thresholds(shape: tuple[int, int], *, row: int, column: int, channel: int) -> U16:
    """What is added to steps of 1/256 of a level before they are cut down to the level.

    Parameters
    ----------
    shape : tuple of int
        Rows and columns.
    row, column : int
        Where on the canvas the first of them lies: the pattern goes on from strip to strip without a seam.
    channel : int
        0 to 3.

    Returns
    -------
    (rows, columns) uint16
        0 to 255, each as often as the others.

    Examples
    --------
    >>> thresholds((1, 4), row=0, column=0, channel=0).tolist()
    [[0, 193, 130, 67]]
    >>> thresholds((1, 3), row=0, column=1, channel=0).tolist()
    [[193, 130, 67]]
    """
    down = (np.arange(row, row + shape[0], dtype=np.uint64) * np.uint64(_DOWN)).astype(np.uint32)
    across = (np.arange(column, column + shape[1], dtype=np.uint64) * np.uint64(_ACROSS)).astype(np.uint32)
    phase = down[:, None] + (across + np.uint32(_CHANNEL[channel]))[None, :]
    return (phase >> np.uint32(24)).astype(np.uint16)


def words_to_bytes(words: U16, *, row: int, column: int) -> ByteArray:
    """Dither 16 bits to 8.

    Parameters
    ----------
    words : (rows, columns, channels) uint16
    row, column : int
        Where on the canvas the first pixel lies.

    Returns
    -------
    (rows, columns, channels) uint8
        What is a level of 8 bits, a multiple of 257, stays that level.

    Examples
    --------
    >>> words_to_bytes(np.full((1, 4, 1), 257 * 7 + 128, np.uint16), row=0, column=0).ravel().tolist()
    [7, 8, 8, 7]
    """
    levels = np.empty(words.shape, dtype=np.uint8)
    for channel in range(words.shape[2]):
        # A level is 257 of 65535: counted in 1/256 of a level, and cut down with the pattern's step added.
        steps = words[..., channel].astype(np.uint32) * np.uint32(STEPS)
        steps //= np.uint32(257)
        steps += thresholds(words.shape[:2], row=row, column=column, channel=channel)
        levels[..., channel] = steps >> np.uint32(8)
    return levels


def codes_of(pixels: NDArray[Any]) -> NDArray[Any]:
    """Pixels as whole numbers: 8 and 16 bits as they are, fractions of full scale (float32) as 16 bits.

    Parameters
    ----------
    pixels : (rows, columns, channels) uint8, uint16 or float32
        Fractions are held to 0 to 1.

    Returns
    -------
    (rows, columns, channels) uint8 or uint16

    Examples
    --------
    >>> codes_of(np.array([[[0.0, 0.5, 2.0]]], np.float32)).tolist()
    [[[0, 32768, 65535]]]
    """
    if pixels.dtype.kind == "u":
        return pixels
    return (np.clip(pixels, 0.0, 1.0) * np.float32(65535.0) + np.float32(0.5)).astype(np.uint16)
