"""The open picture made ready for the screen, so that a change of the job costs as little as it may."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from pycore.colour.icc.tone_curves import decode_table
from pycore.colour.link.display import display_map
from pycore.contract.job import Enlarging, Job
from pycore.contract.notes import Note
from pycore.fill.checks import check_fills, picture_area
from pycore.fill.colour import PlainColour, srgb_values
from pycore.layout.grid import PixelGrid
from pycore.picture.source import SourcePicture
from pycore.picture.tones import U8, Tones, tones
from pycore.render.area import job_area
from pycore.render.canvas import Rendering, bare_canvas, fill_canvas
from pycore.render.continued_plans import KeptPlans
from pycore.render.notes import tone_notes
from pycore.render.plain_colour import plain_values
from pycore.render.reduced_copy import ReducedCopy, copied, on_copy, reduced_copy, unturned, whole_copy
from pycore.render.resample import Area, resample
from pycore.render.screen import to_screen

#: A copy is fine enough when it has at least this share of the pixels wanted along a side.
_FINE_ENOUGH = 0.9

#: A copy that has less than this many times the pixels wanted along a side needs only a slight reduction.
_SLIGHT = 2.0

#: How much wider than the window a copy of a part of the picture is, each way, so that it can be moved.
_ROOM = 0.25

_THUMBNAIL_PX = 480

#: Faces that are kept: those of one group's panels.
_MOST_FACES = 5

#: Share of the time that planning continued sides takes, for the progress only.
_PLANNING = 0.7


@dataclass(frozen=True, kw_only=True)
class _Face:
    """The picture as last resampled, and what for."""

    area: Area
    turn: int
    enlarging: Enlarging
    pixels: U8

    def holds(self, area: Area, turn: int, enlarging: Enlarging, size: tuple[int, int]) -> bool:
        """Whether this is what would be resampled again."""
        mine = self.area, self.turn, self.enlarging, self.pixels.shape[:2]
        return mine == (area, turn, enlarging, size)


class PreviewSource:
    """A picture for the screen: reduced in linear light, the last resampled faces kept.

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
        self.is_srgb = not keeps_own or display_map(source.profile) is None
        self._copies = [whole_copy(source)]
        self._faces: list[_Face] = []
        self._plans = KeptPlans(source, self._copies[0])
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
        return self.on_screen(small)

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
        left, top, right, bottom = picture_area(grid, job)
        face = self._resampled(job, width=right - left, height=bottom - top)
        canvas = bare_canvas(grid, channels=4, is_cmyk=False)
        canvas[top:bottom, left:right] = face
        continued = yield from self._plans.plans(job, share=_PLANNING)
        yield from fill_canvas(
            canvas,
            grid,
            job,
            tables=self._tones,
            plain_colour=self._plain_colour,
            continued=continued,
            begin=_PLANNING if continued else 0.0,
        )
        return canvas

    @property
    def plans(self) -> KeptPlans:
        """The plans of continued sides."""
        return self._plans

    def reduced(self, job: Job, width: int, height: int) -> U8:
        """The window on the picture as few pixels, for judging it; what is kept for the canvas stays.

        Parameters
        ----------
        job : Job
            A checked job.
        width, height : int
            Pixels, for all of the job's window.

        Returns
        -------
        (height, width, 3) uint8
            Encoded values as `canvas` has them.

        Raises
        ------
        FieldError
            The crop holds less than a pixel.
        """
        source, turn = self._source, job.picture.turn
        area = job_area(source, job)
        wanted = min(1.0, _FINE_ENOUGH * width / (area.right - area.left))
        copy = self._copy_for(unturned(area, turn, source), wanted)
        return copied(copy, area, turn, source, width=width, height=height)

    @property
    def tones(self) -> Tones:
        """Tables of the canvas's channels."""
        return self._tones

    @property
    def plain_colour(self) -> PlainColour:
        """Turns '#rrggbb' (sRGB) into the canvas's own values."""
        return self._plain_colour

    def part(self, area: Area, turn: int, *, width: int, height: int) -> U8:
        """Any part of the picture from the finest copy that is there; no copy is made for it.

        Parameters
        ----------
        area : Area
            Pixels of the turned picture, inside it.
        turn : int
            0, 90, 180 or 270 degrees.
        width, height : int
            Pixels.

        Returns
        -------
        (height, width, 3) uint8
            Encoded values as `canvas` has them.
        """
        upright = unturned(area, turn, self._source)
        copies = [copy for copy in self._copies[1:] if copy.covers(upright)]
        copy = max([self._copies[0], *copies], key=lambda one: one.scale)
        return copied(copy, area, turn, self._source, width=width, height=height)

    def on_screen(self, pixels: U8) -> U8:
        """The canvas's values as the screen's.

        Parameters
        ----------
        pixels : (rows, columns, 3 or more) uint8
            As `canvas` gives them.

        Returns
        -------
        (rows, columns, 3 or more) uint8
            srgb_encoded; further channels as they were.
        """
        if self.is_srgb:
            return pixels
        shown = pixels.copy()
        shown[..., :3] = np.asarray(to_screen(np.ascontiguousarray(pixels[..., :3]), self._source))
        return shown

    def _resampled(self, job: Job, *, width: int, height: int) -> U8:
        source, turn = self._source, job.picture.turn
        area = job_area(source, job)
        for kept in self._faces:
            if kept.holds(area, turn, job.picture.enlarging, (height, width)):
                return kept.pixels
        wanted = min(1.0, _FINE_ENOUGH * width / (area.right - area.left))
        copy = self._copy_for(unturned(area, turn, source), wanted)
        pixels = np.full((height, width, 4), 255, np.uint8)
        here = on_copy(area, turn, source, copy)
        if copy.scale < 1 and here.right - here.left < _SLIGHT * width:
            # The copy was reduced in linear light; what is left to do is slight, and for the screen only, so
            # the encoded values serve, in whole numbers and in half the time.
            pixels[..., :3] = copied(copy, area, turn, source, width=width, height=height)
        else:
            for _ in resample(
                copy.image, here, pixels, turn=turn, tones=self._tones, enlarging=job.picture.enlarging
            ):
                pass
        face = _Face(area=area, turn=turn, enlarging=job.picture.enlarging, pixels=pixels)
        self._faces = [*self._faces[1 - _MOST_FACES :], face]
        return pixels

    def _copy_for(self, area: Area, wanted: float) -> ReducedCopy:
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
        self._copies = [
            self._copies[0],
            reduced_copy(self._source, wider, longest_scale=min(1.0, wanted / _FINE_ENOUGH)),
        ]
        return self._copies[1]
