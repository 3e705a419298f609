"""Values of 16 bits a channel: without transparency, upright, and rounded to 8 bits for the screen."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt
from PIL import Image

from pycore.picture.tones import U16

_TOP = 65535
_ROWS_AT_ONCE = 256


def to_eight_bits(wide: npt.NDArray[np.uint16]) -> npt.NDArray[np.uint8]:
    """Round 16-bit values to 8 bits: the nearest of v / 257, so that 65535 becomes 255.

    Parameters
    ----------
    wide : uint16 array
        Row first, any number of channels.

    Returns
    -------
    uint8 array
        The same shape.

    Examples
    --------
    >>> to_eight_bits(np.array([[0, 128, 129, 65535]], np.uint16)).tolist()
    [[0, 0, 1, 255]]
    """
    narrow = np.empty(wide.shape, np.uint8)
    for row in range(0, len(wide), _ROWS_AT_ONCE):
        part = wide[row : row + _ROWS_AT_ONCE].astype(np.uint32)
        narrow[row : row + _ROWS_AT_ONCE] = (part + 128) // 257
    return narrow


def over_white(colours: U16, alpha: U16, *, is_associated: bool, is_ink: bool) -> U16:
    """Lay colours over canvas white by their transparency, in encoded values as with 8 bits.

    Parameters
    ----------
    colours : (rows, columns, channels) uint16
    alpha : (rows, columns) uint16
        65535 is opaque.
    is_associated : bool
        The colours have been multiplied by it already, and are not multiplied again.
    is_ink : bool
        White is 0, not 65535.

    Returns
    -------
    (rows, columns, channels) uint16

    Examples
    --------
    >>> colours, alpha = np.array([[[13107]]], np.uint16), np.array([[32768]], np.uint16)
    >>> [int(over_white(colours, alpha, is_associated=way, is_ink=False).item()) for way in (False, True)]
    [39321, 45874]
    """
    out = np.empty(colours.shape, np.uint16)
    for row in range(0, len(colours), _ROWS_AT_ONCE):
        rows = slice(row, row + _ROWS_AT_ONCE)
        opaque = alpha[rows, :, np.newaxis].astype(np.uint32)
        part = colours[rows].astype(np.uint32)
        behind = np.uint32(0) if is_ink else _TOP - opaque
        if is_associated:
            out[rows] = np.minimum(part, opaque) + behind
        else:
            # 65535 squared and a half of it still fits in 32 bits.
            out[rows] = (part * opaque + behind * np.uint32(_TOP) + np.uint32(_TOP // 2)) // np.uint32(_TOP)
    return out


def as_image(values: npt.NDArray[np.uint8], mode: str) -> Image.Image:
    """8-bit values as a picture.

    Parameters
    ----------
    values : (rows, columns, channels) uint8
    mode : str
        L, RGB or CMYK.

    Returns
    -------
    PIL.Image.Image

    Examples
    --------
    >>> as_image(np.zeros((2, 3, 4), np.uint8), "CMYK").size
    (3, 2)
    """
    height, width = values.shape[:2]
    return Image.frombytes(mode, (width, height), values.tobytes())


def set_values_upright(values: U16, orientation: int) -> U16:
    """Set values upright by the EXIF orientation, as `set_upright` does a picture.

    Parameters
    ----------
    values : (rows, columns, channels) uint16
    orientation : int
        1 to 8.

    Returns
    -------
    (rows, columns, channels) uint16
        A view.

    Examples
    --------
    >>> set_values_upright(np.array([[[1], [2]]], np.uint16), 6).tolist()
    [[[1]], [[2]]]
    """
    if orientation in (5, 6, 7, 8):
        values = values.transpose(1, 0, 2)
    if orientation in (2, 3, 6, 7):
        values = values[:, ::-1]
    if orientation in (3, 4, 7, 8):
        values = values[::-1]
    return values
