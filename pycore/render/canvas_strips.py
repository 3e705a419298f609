"""The flat canvas as strips of whole rows from top to bottom, without the whole of it in memory where it can.

A side that is reflected, drawn out, run on or of one given colour needs, beside each row, that row alone; top
and bottom need the rows next to them. So the canvas is made from the top: its upper part with as many rows of
the picture as the top side reflects, strip by strip what follows, and the lower part. A side that is blurred,
fades, or takes its colour from a whole edge needs all of that edge first; then the canvas is made whole.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Generator, Iterator
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from pycore.contract.job import Fill, Job, side_fill
from pycore.conventions import Side
from pycore.fill.checks import check_fills, needed_rows, picture_area
from pycore.fill.sides import fill_sides
from pycore.layout.grid import PixelGrid
from pycore.picture.source import SourcePicture
from pycore.picture.tones import Values
from pycore.progress import Progress
from pycore.render.canvas import CanvasParts, bare_canvas, canvas_parts, render_whole
from pycore.render.resample import BLOCK_ROWS, Resampler, piece_rows
from pycore.speech import say
from pycore.workers import in_order

#: Rows of a strip that is cut from what is held already.
STRIP_ROWS = 256

#: What becomes of each strip, with its first row on the canvas.
Finish = Callable[[Values, int], Values]


@dataclass(frozen=True, kw_only=True, slots=True)
class Strip:
    """Some rows of the canvas.

    Attributes
    ----------
    first : int
        The row of the canvas at which they begin.
    pixels : (rows, columns, channels) uint8 or uint16
    """

    first: int
    pixels: Values


def canvas_strips(
    source: SourcePicture,
    job: Job,
    grid: PixelGrid,
    *,
    channels: int,
    bits: int,
    finish: Finish,
) -> Iterator[Progress | Strip]:
    """Render the flat canvas in the picture's own colours, from top to bottom.

    Parameters
    ----------
    source : SourcePicture
    job : Job
        A checked job.
    grid : PixelGrid
        The canvas's lines at the wanted resolution.
    channels : int
        The picture's own, or one more, which is the highest value everywhere.
    bits : int
        8 or 16.
    finish : callable
        What is done with each strip before it is handed on, from several threads at once.

    Yields
    ------
    Progress or Strip
        The strips follow one another and cover the canvas; progress only while no strip is ready. A strip's
        pixels are used again once the next one is asked for.

    Raises
    ------
    GeometryError
        A side asks for more pixels than the face has.
    FieldError
        The crop holds less than a pixel.
    ProfileError
        A side has a colour of its own and the picture's profile has no way in.
    """
    check_fills(grid, job)
    parts = canvas_parts(source, job, grid, bits=bits)
    top, bottom = _ends(job, grid, parts.resampler)
    if top < bottom:
        yield from _streamed(parts, job, grid, channels=channels, finish=finish, middle=(top, bottom))
        return
    canvas = yield from render_whole(source, job, grid, parts, channels=channels)
    yield from _cut(canvas, 0, finish)


def is_made_whole(job: Job) -> bool:
    """Whether a job's canvas is made whole, since a side needs all of an edge first.

    Parameters
    ----------
    job : Job

    Returns
    -------
    bool

    Examples
    --------
    >>> is_made_whole(Job())
    False
    """
    return not all(_needs_its_row_only(job, side) for side in Side)


def _ends(job: Job, grid: PixelGrid, resampler: Resampler) -> tuple[int, int]:
    """Where the upper part ends and the lower one begins, in rows of the picture; both 0 to make it whole."""
    if is_made_whole(job):
        return 0, 0
    top = -(-needed_rows(grid, job, Side.TOP) // BLOCK_ROWS) * BLOCK_ROWS
    bottom = (resampler.height - needed_rows(grid, job, Side.BOTTOM)) // BLOCK_ROWS * BLOCK_ROWS
    return (top, bottom) if top < bottom else (0, 0)


def _needs_its_row_only(job: Job, side: Side) -> bool:
    fill = side_fill(job.sides, side)
    if fill.fill is Fill.MIRROR:
        return fill.blur_mm == 0
    if fill.fill is Fill.PLAIN:
        return fill.colour.startswith("#")
    return fill.fill in (Fill.RUN_ON, Fill.DRAWN_OUT)


def _streamed(
    parts: CanvasParts,
    job: Job,
    grid: PixelGrid,
    *,
    channels: int,
    finish: Finish,
    middle: tuple[int, int],
) -> Iterator[Progress | Strip]:
    left, top, right, _ = picture_area(grid, job)
    first, last = top + middle[0], top + middle[1]
    strip_rows = piece_rows(parts.resampler.width)
    make = partial(_Maker, parts, job, channels=channels, across=(left, right))
    upper = make(grid=_rows_of(grid, 0, first), only=(Side.TOP, Side.LEFT, Side.RIGHT))
    inner = {
        rows: make(grid=_rows_of(grid, first, first + rows), only=(Side.LEFT, Side.RIGHT))
        for rows in {strip_rows, (middle[1] - middle[0]) % strip_rows}
    }
    lower = make(grid=_rows_of(grid, last, grid.height_px), only=(Side.BOTTOM, Side.LEFT, Side.RIGHT))
    canvas = yield from upper.made(range(0, middle[0], strip_rows), top)
    yield from _cut(canvas, 0, finish)
    del canvas

    # To be given new pages of memory costs as much as to resample a third of them.
    free: deque[Values] = deque()

    def strip(begin: int) -> tuple[Values, Strip]:
        rows = min(strip_rows, middle[1] - begin)
        used = _taken(free)
        pixels = inner[rows].bare(None if used is None else used[:rows])
        parts.resampler.piece(begin, pixels[:, left:right])
        inner[rows].fill(pixels)
        return pixels, Strip(first=top + begin, pixels=finish(pixels, top + begin))

    for used, made in in_order(strip, range(*middle, strip_rows)):
        yield made
        free.append(used)
    free.clear()
    canvas = yield from lower.made(range(middle[1], parts.resampler.height, strip_rows), -middle[1])
    yield from _cut(canvas, last, finish)


def _taken(free: deque[Values]) -> Values | None:
    try:
        return free.pop()
    except IndexError:
        return None


@dataclass(frozen=True)
class _Maker:
    """Makes a part of the canvas that has only some of its rows."""

    parts: CanvasParts
    job: Job
    channels: int
    across: tuple[int, int]
    grid: PixelGrid
    only: tuple[Side, ...]

    def bare(self, used: Values | None = None) -> Values:
        """Canvas without ink, in an array that was used before if there is one.

        Where ink will be it may hold anything, as long as that has all of its channels.
        """
        parts, grid = self.parts, self.grid
        if self.channels != parts.tones.channels:
            return bare_canvas(grid, channels=self.channels, is_cmyk=parts.is_cmyk, bits=parts.bits)
        shape = (grid.height_px, grid.width_px, self.channels)
        canvas = np.empty(shape, np.uint8 if parts.bits == 8 else np.uint16) if used is None else used
        without = 0 if parts.is_cmyk else parts.tones.top
        canvas[: grid.rows[1]] = canvas[grid.rows[4] :] = without
        canvas[:, : grid.columns[1]] = canvas[:, grid.columns[4] :] = without
        return canvas

    def fill(self, canvas: Values) -> None:
        for _ in fill_sides(
            canvas,
            self.grid,
            self.job,
            tones=self.parts.tones,
            plain_colour=self.parts.plain_colour,
            only=self.only,
        ):
            pass

    def made(self, pieces: range, offset: int) -> Generator[Progress, None, Values]:
        """Pieces of the picture, whose row 0 lies at row `offset` of this part, and the sides beside them."""
        canvas = self.bare()
        left, right = self.across
        resampler = self.parts.resampler

        def place(first: int) -> int:
            last = min(first + pieces.step, pieces.stop)
            return resampler.piece(first, canvas[first + offset : last + offset, left:right])

        for last in in_order(place, pieces):
            yield Progress(done=last / resampler.height, label=say("Resampling the picture"))
        self.fill(canvas)
        return canvas


def _rows_of(grid: PixelGrid, first: int, last: int) -> PixelGrid:
    """The lines of a part of the canvas, rows `first` to `last`; what lies outside falls on its ends."""
    rows = [min(max(row, first), last) - first for row in grid.rows]
    backs = [min(max(row, first), last) - first for row in grid.back_rows]
    return replace(
        grid,
        rows=(rows[0], rows[1], rows[2], rows[3], rows[4], rows[5]),
        back_rows=(backs[0], backs[1]),
    )


def _cut(canvas: Values, first: int, finish: Finish) -> Iterator[Strip]:
    def strip(row: int) -> Strip:
        return Strip(first=first + row, pixels=finish(canvas[row : row + STRIP_ROWS], first + row))

    yield from in_order(strip, range(0, len(canvas), STRIP_ROWS))
