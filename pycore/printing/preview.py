"""The open picture made ready for the screen, so that a change of the job costs as little as it may."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from PIL import Image

from pycore.colour.display import display_lut
from pycore.colour.tone_curves import decode_table
from pycore.contract.job import Job
from pycore.contract.notes import Note
from pycore.fill.colour import srgb_values
from pycore.fill.sides import check_fills, held_area
from pycore.layout.grid import PixelGrid
from pycore.layout.window import picture_window
from pycore.picture.orientation import turned
from pycore.picture.source import SourcePicture
from pycore.printing.output_notes import tone_notes
from pycore.printing.plain import plain_values
from pycore.printing.render import Rendering, bare_canvas, fill_canvas, window_area
from pycore.printing.resample import Area, resample
from pycore.printing.screen import to_screen
from pycore.printing.tones import U8, tones

#: Pixels of the reduced copies.
_COPY_PX = 2_500_000

#: A copy is fine enough when it has at least this share of the pixels wanted along a side.
_FINE_ENOUGH = 0.9

#: A copy that has less than this many times the pixels wanted along a side needs only a slight reduction.
_SLIGHT = 2.0

#: How much wider than the window a copy of a part of the picture is, each way, so that it can be moved.
_ROOM = 0.25

_THUMBNAIL_PX = 480


@dataclass(frozen=True, kw_only=True)
class _Copy:
    """A reduced part of the picture, and which part it is, in pixels of the upright picture."""

    image: Image.Image
    area: Area

    @property
    def scale(self) -> float:
        """Its pixels for each of the picture's, along a side."""
        return self.image.width / (self.area.right - self.area.left)

    def covers(self, area: Area) -> bool:
        mine = self.area
        return (
            mine.left <= area.left
            and mine.top <= area.top
            and area.right <= mine.right
            and area.bottom <= mine.bottom
        )


@dataclass(frozen=True, kw_only=True)
class _Face:
    """The picture as last resampled, and what for."""

    area: Area
    turn: int
    pixels: U8


class PreviewSource:
    """A picture for the screen: reduced in linear light, the last resampled face kept.

    An RGB picture keeps its own values, so that a proof starts from all of its colours; what the screen shows
    of them is a table's business. Grey and CMYK become sRGB.

    Parameters
    ----------
    source : SourcePicture

    Attributes
    ----------
    notes : list of Note
        About how it is resampled.
    is_srgb : bool
        The canvas's values are sRGB as they are.
    """

    def __init__(self, source: SourcePicture) -> None:
        self._source = source
        self._own_tones = tones(source.linear, channels=source.channels)
        keeps_own = source.image.mode == "RGB"
        self._tones = self._own_tones if keeps_own else tones(decode_table(None), channels=3)
        self._plain_colour = plain_values(source) if keeps_own else srgb_values
        self._keeps_own = keeps_own
        self.is_srgb = not keeps_own or display_lut(source.profile) is None
        whole = Area(left=0, top=0, right=source.width_px, bottom=source.height_px)
        self._copies = [self._reduced(whole, longest_scale=1.0)]
        self._face: _Face | None = None
        self.notes: list[Note] = tone_notes(source)

    @property
    def source(self) -> SourcePicture:
        """The picture."""
        return self._source

    def thumbnail(self) -> U8:
        """A small copy of the upright picture.

        Returns
        -------
        (rows, columns, 4) uint8
            srgb_encoded, alpha 255, at most 480 pixels along a side.
        """
        image = self._copies[0].image
        scale = min(1.0, _THUMBNAIL_PX / max(image.size))
        width, height = (max(1, round(side * scale)) for side in image.size)
        small = np.full((height, width, 4), 255, np.uint8)
        area = Area(left=0, top=0, right=image.width, bottom=image.height)
        for _ in resample(image, area, small, turn=0, tones=self._tones):
            pass
        if not self.is_srgb:
            small[..., :3] = np.asarray(to_screen(np.ascontiguousarray(small[..., :3]), self._source))
        return small

    def canvas(self, job: Job, grid: PixelGrid) -> Rendering:
        """Render the flat canvas for the screen.

        A change that leaves the window on the picture and the face's pixels as they were costs no resampling.

        Parameters
        ----------
        job : Job
            A checked job.
        grid : PixelGrid
            The canvas's lines at the preview's resolution.

        Yields
        ------
        Progress

        Returns
        -------
        (rows, columns, 4) uint8
            Values of the picture's RGB space (sRGB where `is_srgb`), alpha 255; bare canvas is white.

        Raises
        ------
        GeometryError
            A side asks for more pixels than the face has.
        FieldError
            The crop holds less than a pixel.
        """
        check_fills(grid, job)
        left, top, right, bottom = held_area(grid, job)
        face = self._resampled(job, width=right - left, height=bottom - top)
        canvas = bare_canvas(grid, channels=4, is_cmyk=False)
        canvas[top:bottom, left:right] = face
        yield from fill_canvas(canvas, grid, job, tables=self._tones, plain_colour=self._plain_colour)
        return canvas

    def _resampled(self, job: Job, *, width: int, height: int) -> U8:
        source, turn = self._source, job.picture.turn
        use = picture_window(job, width_px=source.width_px, height_px=source.height_px)
        area = window_area(source, job, use.window)
        kept = self._face
        if kept and (kept.area, kept.turn, kept.pixels.shape[:2]) == (area, turn, (height, width)):
            return kept.pixels
        wanted = min(1.0, _FINE_ENOUGH * width / (area.right - area.left))
        copy = self._copy_for(_unturned(area, turn, source), wanted)
        pixels = np.full((height, width, 4), 255, np.uint8)
        here = _on_copy(area, turn, source, copy)
        if copy.scale < 1 and here.right - here.left < _SLIGHT * width:
            # The copy was reduced in linear light; what is left to do is slight, and for the screen only, so
            # the encoded values serve, in whole numbers and in half the time.
            box = (here.left, here.top, here.right, here.bottom)
            face = turned(copy.image, turn).resize((width, height), Image.Resampling.BICUBIC, box=box)
            pixels[..., :3] = np.asarray(face)
        else:
            for _ in resample(copy.image, here, pixels, turn=turn, tones=self._tones):
                pass
        self._face = _Face(area=area, turn=turn, pixels=pixels)
        return pixels

    def _copy_for(self, area: Area, wanted: float) -> _Copy:
        for copy in self._copies:
            if copy.covers(area) and copy.scale >= wanted:
                return copy
        across, down = (area.right - area.left) * _ROOM, (area.bottom - area.top) * _ROOM
        wider = Area(
            left=max(0, math.floor(area.left - across)),
            top=max(0, math.floor(area.top - down)),
            right=min(self._source.width_px, math.ceil(area.right + across)),
            bottom=min(self._source.height_px, math.ceil(area.bottom + down)),
        )
        # One such part beside the whole: the page moves one window at a time.
        self._copies = [self._copies[0], self._reduced(wider, longest_scale=min(1.0, wanted / _FINE_ENOUGH))]
        return self._copies[1]

    def _reduced(self, area: Area, *, longest_scale: float) -> _Copy:
        across, down = area.right - area.left, area.bottom - area.top
        scale = min(longest_scale, math.sqrt(_COPY_PX / (across * down)))
        width, height = max(1, round(across * scale)), max(1, round(down * scale))
        pixels = np.empty((height, width, self._source.channels), np.uint8)
        for _ in resample(self._source.image, area, pixels, turn=0, tones=self._own_tones):
            pass
        image = Image.fromarray(pixels) if self._keeps_own else to_screen(pixels, self._source)
        return _Copy(image=image, area=area)


def _unturned(area: Area, turn: int, source: SourcePicture) -> Area:
    """An area of the turned picture on the upright one."""
    width, height = source.width_px, source.height_px
    if turn == 90:
        return Area(left=area.top, top=height - area.right, right=area.bottom, bottom=height - area.left)
    if turn == 180:
        return Area(
            left=width - area.right,
            top=height - area.bottom,
            right=width - area.left,
            bottom=height - area.top,
        )
    if turn == 270:
        return Area(left=width - area.bottom, top=area.left, right=width - area.top, bottom=area.right)
    return area


def _on_copy(area: Area, turn: int, source: SourcePicture, copy: _Copy) -> Area:
    """An area of the turned picture in pixels of the turned copy."""
    upright, part = _unturned(area, turn, source), copy.area
    across = copy.image.width / (part.right - part.left)
    down = copy.image.height / (part.bottom - part.top)
    left, right = (upright.left - part.left) * across, (upright.right - part.left) * across
    top, bottom = (upright.top - part.top) * down, (upright.bottom - part.top) * down
    width, height = copy.image.size
    if turn == 90:
        left, top, right, bottom = height - bottom, left, height - top, right
    elif turn == 180:
        left, top, right, bottom = width - right, height - bottom, width - left, height - top
    elif turn == 270:
        left, top, right, bottom = top, width - right, bottom, width - left
    return Area(left=left, top=top, right=right, bottom=bottom)
