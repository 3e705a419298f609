"""Reduced copies of a picture, or of a part of it, for the screen and what is decided on few pixels."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from PIL import Image

from pycore.layout.quarter_turns import turned_size, unturned_box
from pycore.picture.orientation import turned
from pycore.picture.source import SourcePicture
from pycore.picture.tones import U8, tones
from pycore.render.resample import Area, resample
from pycore.render.screen import to_screen

#: Pixels of a copy, at most.
_COPY_PX = 2_500_000


@dataclass(frozen=True, kw_only=True)
class ReducedCopy:
    """A reduced part of the picture, and which part it is, in pixels of the upright picture."""

    image: Image.Image
    area: Area

    @property
    def scale(self) -> float:
        """Its pixels for each of the picture's, along a side."""
        return self.image.width / (self.area.right - self.area.left)

    def covers(self, area: Area) -> bool:
        """Whether it has all of an area of the upright picture.

        Parameters
        ----------
        area : Area
            Pixels of the upright picture.

        Returns
        -------
        bool
        """
        mine = self.area
        return (
            mine.left <= area.left
            and mine.top <= area.top
            and area.right <= mine.right
            and area.bottom <= mine.bottom
        )


def whole_copy(source: SourcePicture) -> ReducedCopy:
    """Reduce the whole of a picture, in linear light.

    Parameters
    ----------
    source : SourcePicture

    Returns
    -------
    ReducedCopy
        RGB: of an RGB picture its own values, else sRGB.
    """
    whole = Area(left=0, top=0, right=source.width_px, bottom=source.height_px)
    return reduced_copy(source, whole, longest_scale=1.0)


def reduced_copy(source: SourcePicture, area: Area, *, longest_scale: float) -> ReducedCopy:
    """Reduce an area of a picture, in linear light.

    Parameters
    ----------
    source : SourcePicture
    area : Area
        Of the upright picture.
    longest_scale : float
        The copy has at most so many pixels for each of the picture's, along a side.

    Returns
    -------
    ReducedCopy
        RGB: of an RGB picture its own values, else sRGB.
    """
    across, down = area.right - area.left, area.bottom - area.top
    scale = min(longest_scale, math.sqrt(_COPY_PX / (across * down)))
    width, height = max(1, round(across * scale)), max(1, round(down * scale))
    pixels = np.empty((height, width, source.channels), np.uint8)
    tables = tones(source.linear, channels=source.channels)
    for _ in resample(source.image, area, pixels, turn=0, tones=tables):
        pass
    image = Image.fromarray(pixels) if source.image.mode == "RGB" else to_screen(pixels, source)
    return ReducedCopy(image=image, area=area)


def unturned(area: Area, turn: int, source: SourcePicture) -> Area:
    """Find an area of the turned picture on the upright one.

    Parameters
    ----------
    area : Area
        Pixels of the turned picture.
    turn : int
        0, 90, 180 or 270 degrees.
    source : SourcePicture

    Returns
    -------
    Area
        Pixels of the upright picture.
    """
    box = area.left, area.top, area.right, area.bottom
    left, top, right, bottom = unturned_box(box, turn, size=(source.width_px, source.height_px))
    return Area(left=left, top=top, right=right, bottom=bottom)


def on_copy(area: Area, turn: int, source: SourcePicture, copy: ReducedCopy) -> Area:
    """Find an area of the turned picture on the turned copy.

    Parameters
    ----------
    area : Area
        Pixels of the turned picture.
    turn : int
        0, 90, 180 or 270 degrees.
    source : SourcePicture
    copy : ReducedCopy
        It covers the area.

    Returns
    -------
    Area
        Pixels of the turned copy, fractions kept; inside it.
    """
    upright, part = unturned(area, turn, source), copy.area
    across = copy.image.width / (part.right - part.left)
    down = copy.image.height / (part.bottom - part.top)
    left, right = (upright.left - part.left) * across, (upright.right - part.left) * across
    top, bottom = (upright.top - part.top) * down, (upright.bottom - part.top) * down
    # To turn is to undo the turn that makes the full circle.
    wide, high = size = turned_size(copy.image.size, turn)
    left, top, right, bottom = unturned_box((left, top, right, bottom), -turn % 360, size=size)
    # Products of doubles end next to the copy's edge, and Pillow takes no box that begins just outside.
    return Area(left=max(left, 0.0), top=max(top, 0.0), right=min(right, wide), bottom=min(bottom, high))


def copied(copy: ReducedCopy, area: Area, turn: int, source: SourcePicture, *, width: int, height: int) -> U8:
    """Resample an area of the turned picture from its copy, in encoded values and whole numbers.

    It is quick and gives the same everywhere; it is for the screen and for judging only.

    Parameters
    ----------
    copy : ReducedCopy
        Covers the area.
    area : Area
        Of the turned picture.
    turn : int
        0, 90, 180 or 270.
    source : SourcePicture
    width, height : int
        Pixels.

    Returns
    -------
    (height, width, 3) uint8
    """
    here = on_copy(area, turn, source, copy)
    image = turned(copy.image, turn).resize(
        (width, height),
        Image.Resampling.BICUBIC,
        box=(here.left, here.top, here.right, here.bottom),
        # Where much is left out it is done in two steps; a slight reduction takes one.
        reducing_gap=2.0,
    )
    return np.asarray(image)
