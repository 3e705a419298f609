"""The picture resampled once, in linear light, in blocks of rows that do not depend on who asks for them.

The filter is the cubic convolution of Keys with a = -1/2, widened by the scale when the picture shrinks, by
Pillow in mode F: its coefficients and sums are double precision without a library function among them.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from PIL import Image

from pycore.picture.orientation import turned
from pycore.picture.tones import U8, Tones, encode

#: Rows of a block. Blocks begin at multiples of it, so that a row is the same whoever asks for it.
BLOCK_ROWS = 64

#: Pillow's BICUBIC reaches two source pixels, times the scale when shrinking (Keys 1981, equation 15).
_REACH = 2

_FILTER = Image.Resampling.BICUBIC


@dataclass(frozen=True, kw_only=True)
class Area:
    """A rectangle on a picture in its pixels, x to the right and y down; fractions are meant."""

    left: float
    top: float
    right: float
    bottom: float


def turned_size(image: Image.Image, turn: int) -> tuple[int, int]:
    """Width and height of an image after the job's turn.

    Parameters
    ----------
    image : PIL.Image.Image
        Upright.
    turn : int
        0, 90, 180 or 270 degrees.

    Returns
    -------
    tuple of int

    Examples
    --------
    >>> turned_size(Image.new("L", (3, 2)), 90)
    (2, 3)
    """
    return (image.height, image.width) if turn in (90, 270) else (image.width, image.height)


def resample(image: Image.Image, area: Area, out: U8, *, turn: int, tones: Tones) -> Iterator[float]:
    """Resample an area of a picture into an array.

    Parameters
    ----------
    image : PIL.Image.Image
        Mode L, RGB or CMYK, before the job's turn.
    area : Area
        On the turned picture, inside it.
    out : (rows, columns, channels or more) uint8
        Written in place; channels past the picture's own are left as they are.
    turn : int
        Clockwise, 0, 90, 180 or 270 degrees.
    tones : Tones
        The picture's tables.

    Yields
    ------
    float
        The share that is done, after each block of rows.

    References
    ----------
    R. G. Keys, Cubic convolution interpolation for digital image processing, IEEE Trans. ASSP 29 (1981).

    Examples
    --------
    >>> from pycore.picture.tones import tones
    >>> out = np.zeros((2, 2, 1), np.uint8)
    >>> whole = Area(left=0, top=0, right=4, bottom=4)
    >>> grey = Image.new("L", (4, 4), 90)
    >>> _ = list(resample(grey, whole, out, turn=0, tones=tones(None, channels=1)))
    >>> out.tolist()
    [[[90], [90]], [[90], [90]]]
    """
    height, width = out.shape[:2]
    wide, high = turned_size(image, turn)
    exact = _whole_pixels(area, width, height)
    scale = (area.bottom - area.top) / height
    reach = math.ceil(_REACH * max(scale, 1.0)) + 1
    side_reach = math.ceil(_REACH * max((area.right - area.left) / width, 1.0)) + 1
    left, right = _span(area.left, area.right, side_reach, wide)
    for first in range(0, height, BLOCK_ROWS):
        last = min(first + BLOCK_ROWS, height)
        if exact:
            box = (int(area.left), int(area.top) + first, int(area.right), int(area.top) + last)
            out[first:last, :, : tones.channels] = _cut(image, box, turn)
        else:
            start, stop = area.top + first * scale, area.top + last * scale
            top, bottom = _span(start, stop, reach, high)
            source = _cut(image, (left, top, right, bottom), turn)
            # Pillow takes the box as float32: counted from the block's own corner it is exact enough.
            box_here = (area.left - left, start - top, area.right - left, stop - top)
            for channel in range(tones.channels):
                light = Image.fromarray(tones.light[channel][source[..., channel]])
                light = light.resize((width, last - first), _FILTER, box=box_here)
                out[first:last, :, channel] = encode(np.asarray(light), tones.from_root[channel])
        yield last / height


def _whole_pixels(area: Area, width: int, height: int) -> bool:
    """Each pixel asked for is one pixel of the picture, so that its bytes can be handed on as they are."""
    corner = area.left.is_integer() and area.top.is_integer() if isinstance(area.left, float) else True
    return bool(corner and area.right - area.left == width and area.bottom - area.top == height)


def _span(start: float, stop: float, reach: int, size: int) -> tuple[int, int]:
    return max(0, math.floor(start) - reach), min(size, math.ceil(stop) + reach)


def _cut(image: Image.Image, box: tuple[int, int, int, int], turn: int) -> U8:
    """A part of the turned picture, (rows, columns, channels), without turning the whole of it."""
    left, top, right, bottom = box
    width, height = image.size
    if turn == 90:  # Turned clockwise: the picture's left edge is now the top one.
        box = (top, height - right, bottom, height - left)
    elif turn == 180:
        box = (width - right, height - bottom, width - left, height - top)
    elif turn == 270:
        box = (width - bottom, left, width - top, right)
    part = np.asarray(turned(image.crop(box), turn))
    return part if part.ndim == 3 else part[..., np.newaxis]
