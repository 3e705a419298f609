"""The flat canvas as pixels: the picture resampled on to it, then its sides filled."""

from __future__ import annotations

from collections.abc import Generator, Iterable
from dataclasses import dataclass

import numpy as np

from pycore.colour.icc.tone_curves import decode_table
from pycore.contract.job import Job
from pycore.fill.checks import check_fills, picture_area
from pycore.fill.colour import PlainColour
from pycore.fill.continued_sides import NOTHING_CONTINUED, ContinuedPlans
from pycore.fill.sides import fill_sides
from pycore.layout.grid import PixelGrid
from pycore.picture.deep_tones import deep_tones
from pycore.picture.source import SourcePicture
from pycore.picture.tones import U8, AnyTones, Values, tones
from pycore.progress import Progress
from pycore.render.area import job_area
from pycore.render.continued_plans import KeptPlans, continued_sides
from pycore.render.plain_colour import plain_values
from pycore.render.reduced_copy import whole_copy
from pycore.render.resample import Resampler, Sharpening
from pycore.render.sharpen import passes
from pycore.speech import say

#: Rendering yields its progress and returns the canvas.
Rendering = Generator[Progress, None, U8]

#: Share of the time that resampling takes when a print file is rendered; measured, for the progress only.
_RESAMPLING = 0.8

#: The same of planning continued sides, where there are any.
_PLANNING = 0.1


@dataclass(frozen=True, kw_only=True)
class CanvasParts:
    """What a canvas is rendered from.

    Attributes
    ----------
    resampler : Resampler
        Gives the picture's rows.
    tones : Tones or DeepTones
    plain_colour : callable
        From '#rrggbb' to values of the canvas's depth.
    is_cmyk : bool
    bits : int
        Of the canvas, 8 or 16.
    """

    resampler: Resampler
    tones: AnyTones
    plain_colour: PlainColour
    is_cmyk: bool
    bits: int


def canvas_parts(source: SourcePicture, job: Job, grid: PixelGrid, *, bits: int) -> CanvasParts:
    """Bring together what a canvas is rendered from.

    Parameters
    ----------
    source : SourcePicture
    job : Job
        A checked job.
    grid : PixelGrid
        The canvas's lines at the wanted resolution.
    bits : int
        8, or 16: a picture of 16 bits is then decoded anew with all of them.

    Returns
    -------
    CanvasParts

    Raises
    ------
    FieldError
        The crop holds less than a pixel.
    PictureError
        Memory is short.
    """
    tables = picture_tones(source, bits=bits)
    left, top, right, bottom = picture_area(grid, job)
    sharpening = None
    if job.print.sharpening > 0:
        sharpening = Sharpening(amount=job.print.sharpening, times=passes(grid.px_per_mm))
    resampler = Resampler(
        pixels=source.image if bits == 8 or source.deep is None else source.deep.read(),
        area=job_area(source, job),
        width=right - left,
        height=bottom - top,
        turn=job.picture.turn,
        tones=tables,
        enlarging=job.picture.enlarging,
        sharpening=sharpening,
    )
    return CanvasParts(
        resampler=resampler,
        tones=tables,
        plain_colour=plain_values(source, bits=bits),
        is_cmyk=source.image.mode == "CMYK",
        bits=bits,
    )


def picture_tones(source: SourcePicture, *, bits: int) -> AnyTones:
    """A picture's tables for rendering in 8 or 16 bits.

    Parameters
    ----------
    source : SourcePicture
    bits : int
        8 or 16.

    Returns
    -------
    Tones or DeepTones
    """
    if bits == 8:
        return tones(source.linear, channels=source.channels)
    linear = None if source.linear is None else decode_table(source.profile, entries=65536)
    return deep_tones(None if linear is None else linear[: source.channels], channels=source.channels)


def render_canvas(
    source: SourcePicture,
    job: Job,
    grid: PixelGrid,
    *,
    channels: int,
) -> Generator[Progress, None, Values]:
    """Render the flat canvas in the picture's own colours, 8 bits a channel, as a whole.

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
    parts = canvas_parts(source, job, grid, bits=8)
    return (yield from render_whole(source, job, grid, parts, channels=channels))


def render_whole(
    source: SourcePicture, job: Job, grid: PixelGrid, parts: CanvasParts, *, channels: int
) -> Generator[Progress, None, Values]:
    """Render the flat canvas as a whole from what `canvas_parts` has brought together, in its depth.

    Parameters
    ----------
    source : SourcePicture
    job : Job
        A checked job.
    grid : PixelGrid
        The canvas's lines at the wanted resolution.
    parts : CanvasParts
        Of these three.
    channels : int
        As for `render_canvas`.

    Yields
    ------
    Progress

    Returns
    -------
    (rows, columns, channels) uint8 or uint16

    Raises
    ------
    GeometryError
        A side asks for more pixels than the face has.
    ProfileError
        A side has a colour of its own and the picture's profile has no way in.
    """
    canvas = bare_canvas(grid, channels=channels, is_cmyk=parts.is_cmyk, bits=parts.bits)
    continued = NOTHING_CONTINUED
    if continued_sides(job):
        continued = yield from KeptPlans(source, whole_copy(source)).plans(job, share=_PLANNING)
    left, top, right, bottom = picture_area(grid, job)
    face = canvas[top:bottom, left:right]
    shares = parts.resampler.shares(face)
    yield from _progress(shares, say("Resampling the picture"), _PLANNING if continued else 0.0, _RESAMPLING)
    yield from fill_canvas(
        canvas,
        grid,
        job,
        tables=parts.tones,
        plain_colour=parts.plain_colour,
        continued=continued,
        begin=_RESAMPLING,
    )
    return canvas


def bare_canvas(grid: PixelGrid, *, channels: int, is_cmyk: bool, bits: int = 8) -> Values:
    """Canvas without ink.

    Parameters
    ----------
    grid : PixelGrid
    channels : int
    is_cmyk : bool
        Values are amounts of ink rather than of light.
    bits : int
        8 or 16.

    Returns
    -------
    (rows, columns, channels) uint8 or uint16

    Examples
    --------
    >>> from pycore.layout.grid import pixel_grid
    >>> bare_canvas(pixel_grid(Job(), ppi=25.4), channels=3, is_cmyk=False).shape
    (291, 391, 3)
    """
    dtype = np.uint8 if bits == 8 else np.uint16
    bare = 0 if is_cmyk else np.iinfo(dtype).max
    return np.full((grid.height_px, grid.width_px, channels), bare, dtype)


def fill_canvas(
    canvas: Values,
    grid: PixelGrid,
    job: Job,
    *,
    tables: AnyTones,
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
    yield from _progress(steps, say("Filling the sides"), begin, 1.0)


def _progress(
    steps: Iterable[float], label: str, begin: float, end: float
) -> Generator[Progress, None, None]:
    for share in steps:
        yield Progress(done=begin + (end - begin) * share, label=label)
