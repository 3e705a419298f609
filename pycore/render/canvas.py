"""The flat canvas as pixels: the picture resampled on to it, then its sides filled."""

from __future__ import annotations

from collections.abc import Generator, Iterable

import numpy as np

from pycore.contract.job import Job
from pycore.fill.checks import check_fills, picture_area
from pycore.fill.colour import PlainColour
from pycore.fill.continued_sides import NOTHING_CONTINUED, ContinuedPlans
from pycore.fill.sides import fill_sides
from pycore.layout.grid import PixelGrid
from pycore.picture.source import SourcePicture
from pycore.picture.tones import U8, Tones, tones
from pycore.progress import Progress
from pycore.render.area import job_area
from pycore.render.continued_plans import KeptPlans, continued_sides
from pycore.render.plain_colour import plain_values
from pycore.render.reduced_copy import whole_copy
from pycore.render.resample import resample

#: Rendering yields its progress and returns the canvas.
Rendering = Generator[Progress, None, U8]

#: Share of the time that resampling takes when a print file is rendered; measured, for the progress only.
_RESAMPLING = 0.8

#: The same of planning continued sides, where there are any.
_PLANNING = 0.1


def render_canvas(
    source: SourcePicture,
    job: Job,
    grid: PixelGrid,
    *,
    channels: int,
) -> Rendering:
    """Render the flat canvas in the picture's own colours.

    Parameters
    ----------
    source : SourcePicture
    job : Job
        A checked job.
    grid : PixelGrid
        The canvas's lines at the wanted resolution.
    channels : int
        Of the result: the picture's own, or one more, which is 255 everywhere.

    Yields
    ------
    Progress
        Between blocks of rows.

    Returns
    -------
    (rows, columns, channels) uint8
        Bare canvas is 255 for grey and RGB, 0 (no ink) for CMYK.

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
    tables = tones(source.linear, channels=source.channels)
    area = job_area(source, job)
    canvas = bare_canvas(grid, channels=channels, is_cmyk=source.image.mode == "CMYK")
    continued = NOTHING_CONTINUED
    if continued_sides(job):
        continued = yield from KeptPlans(source, whole_copy(source)).plans(job, share=_PLANNING)
    left, top, right, bottom = picture_area(grid, job)
    blocks = resample(source.image, area, canvas[top:bottom, left:right], turn=job.picture.turn, tones=tables)
    yield from _progress(blocks, "Resampling the picture", _PLANNING if continued else 0.0, _RESAMPLING)
    yield from fill_canvas(
        canvas,
        grid,
        job,
        tables=tables,
        plain_colour=plain_values(source),
        continued=continued,
        begin=_RESAMPLING,
    )
    return canvas


def bare_canvas(grid: PixelGrid, *, channels: int, is_cmyk: bool) -> U8:
    """Canvas without ink.

    Parameters
    ----------
    grid : PixelGrid
    channels : int
    is_cmyk : bool
        Values are amounts of ink rather than of light.

    Returns
    -------
    (rows, columns, channels) uint8

    Examples
    --------
    >>> from pycore.layout.grid import pixel_grid
    >>> bare_canvas(pixel_grid(Job(), ppi=25.4), channels=3, is_cmyk=False).shape
    (291, 391, 3)
    """
    return np.full((grid.height_px, grid.width_px, channels), 0 if is_cmyk else 255, np.uint8)


def fill_canvas(
    canvas: U8,
    grid: PixelGrid,
    job: Job,
    *,
    tables: Tones,
    plain_colour: PlainColour,
    continued: ContinuedPlans,
    begin: float = 0.0,
) -> Generator[Progress, None, None]:
    """Fill the sides of a canvas that holds the picture, with progress from `begin` to 1.

    Parameters
    ----------
    canvas : (rows, columns, channels) uint8
        Holds the picture; changed in place.
    grid : PixelGrid
        The canvas's.
    job : Job
        A checked job.
    tables : Tones
        To linear light and back.
    plain_colour : callable
        The plain colour in the canvas's channels.
    continued : mapping
        The plan of each continued side.
    begin : float
        Where progress begins, 0 to 1.

    Yields
    ------
    Progress

    Raises
    ------
    GeometryError
        A side asks for more pixels than the face has.
    """
    steps = fill_sides(canvas, grid, job, tones=tables, plain_colour=plain_colour, continued=continued)
    yield from _progress(steps, "Filling the sides", begin, 1.0)


def _progress(
    steps: Iterable[float], label: str, begin: float, end: float
) -> Generator[Progress, None, None]:
    for share in steps:
        yield Progress(done=begin + (end - begin) * share, label=label)
