"""Filling the sides of a canvas in place, from the face that it already holds."""

from __future__ import annotations

from collections.abc import Collection, Iterator

import numpy as np

from pycore.contract.job import Fill, Job, ResolvedFill, side_fill
from pycore.conventions import Side
from pycore.fill.checks import band_px, check_fills, picture_area
from pycore.fill.colour import PlainColour, plain_light, srgb_values
from pycore.fill.continued_sides import IN_TURN, NOTHING_CONTINUED, ContinuedPlans, held_rows, span_of
from pycore.fill.continued_strip import lay_continued
from pycore.fill.continued_vectors import ContinuedPlan
from pycore.fill.corners import blend_square, over_weights, square_of
from pycore.fill.extend import draw_out, reflect
from pycore.fill.facing import Facing, facing
from pycore.fill.overlay import Overlay, fade_weights, shown_light
from pycore.fill.softness import ONE, U32
from pycore.fold.spec import is_over
from pycore.layout.grid import PixelGrid
from pycore.picture.tones import AnyTones, Light, Values

Squares = dict[tuple[Side, Side], list[Light]]


def fill_sides(
    canvas: Values,
    grid: PixelGrid,
    job: Job,
    *,
    tones: AnyTones,
    plain_colour: PlainColour = srgb_values,
    continued: ContinuedPlans = NOTHING_CONTINUED,
    only: Collection[Side] = tuple(Side),
) -> Iterator[float]:
    """Fill the four sides, the corner squares and the ink-over.

    First the picture runs on past its edges, left and right before top and bottom: reflected, drawn out where
    a side is drawn out, along its lines where it is continued. In each corner square the two ways are applied
    one after the other. Then blur, plain colours and fades are laid over it.

    Parameters
    ----------
    canvas : (rows, columns, channels or more) uint8 or uint16
        Holds the picture in `picture_area`; written in place. The turn-over past the ink is left as it is.
    grid : PixelGrid
    job : Job
    tones : Tones or DeepTones
        Tables of the picture's channels.
    plain_colour : callable
        Turns '#rrggbb' into the picture's own values.
    continued : mapping from Side to ContinuedPlan
        A plan for each side that is to be continued.
    only : collection of Side
        Which sides the canvas has: of a part of a canvas not all four.

    Yields
    ------
    float
        The share that is done.

    Raises
    ------
    GeometryError
        A mirror or fade needs more pixels than the face has; a band is wider than the face.
    """
    sides = {side: facing(canvas, grid, side) for side in Side}
    fills = {side: side_fill(job.sides, side) for side in Side}
    check_fills(grid, job, only=only)
    area = picture_area(grid, job)
    for number, side in enumerate(IN_TURN, start=1):
        if side not in only:
            continue
        steps = _run_on(
            sides[side],
            fills[side],
            continued.get(side),
            held=held_rows(sides[side], area),
            # What is there by now belongs to top and bottom as well.
            span=span_of(side, grid, area),
            grid=grid,
            tones=tones,
        )
        for share in steps:
            yield 0.15 * (number - 1 + share)
        yield 0.15 * number
    here = [side for side in Side if side in only]
    looks = {side: _look(sides[side], fills[side], grid, tones, plain_colour) for side in here}
    squares: Squares = {}
    for number, side in enumerate(here, start=1):
        overlay = looks[side]
        if overlay is not None:
            _show_side(sides[side], overlay, squares, tones)
            yield 0.6 + 0.1 * number
    _show_corners(sides, squares, job, tones)
    yield 1.0


def _run_on(
    side: Facing,
    fill: ResolvedFill,
    plan: ContinuedPlan | None,
    *,
    held: tuple[int, int],
    span: tuple[int, int],
    grid: PixelGrid,
    tones: AnyTones,
) -> Iterator[float]:
    view = side.view[:, span[0] : span[1]]
    start, edge = held
    if plan is not None:
        yield from lay_continued(view[start:edge], plan, view[edge : side.end])
    elif fill.fill is Fill.DRAWN_OUT:
        draw_out(view, edge=edge, end=side.end, band=band_px(fill, grid), tones=tones)
    else:
        reflect(view, start=start, edge=edge, end=side.end)


def _look(
    side: Facing, fill: ResolvedFill, grid: PixelGrid, tones: AnyTones, plain_colour: PlainColour
) -> Overlay | None:
    """What is laid over a side's reflected picture; None where nothing is."""
    if fill.fill in (Fill.RUN_ON, Fill.DRAWN_OUT, Fill.CONTINUED):
        return None
    radius = 0.0 if fill.fill is Fill.PLAIN else fill.blur_mm * grid.px_per_mm
    weights: U32 = np.zeros(side.reach, np.uint32)
    colour: list[np.uint16 | np.float32] = []
    if fill.fill in (Fill.PLAIN, Fill.FADE):
        band = side.face[-band_px(fill, grid) :]
        colour = plain_light(fill.colour, band=band, tones=tones, plain_colour=plain_colour)
        weights = np.full(side.reach, ONE, np.uint32) if fill.fill is Fill.PLAIN else fade_weights(side)
    return Overlay(radius=radius, colour=colour, weights=weights) if radius > 0 or colour else None


def _show_side(side: Facing, overlay: Overlay, squares: Squares, tones: AnyTones) -> None:
    """Write a side between its corner squares; keep what it would show in these."""
    start, first, second, _ = side.along
    ends = _ends(side)
    kept: Squares = {(side.side, neighbour): [] for neighbour in ends}
    for channel in range(tones.channels):
        light = shown_light(side, overlay, channel=channel, tones=tones)
        # One colour is looked up once.
        shown = light[:1, :1] if overlay.is_plain else light[:, first - start : second - start]
        side.view[side.front_edge : side.end, first:second, channel] = tones.from_light(shown, channel)
        for neighbour in ends:
            # A copy, so that the band itself can be freed.
            kept[side.side, neighbour].append(square_of(light, side, neighbour).copy())
    squares.update(kept)


def _ends(side: Facing) -> tuple[Side, Side]:
    """The two neighbours of a side."""
    upright = side.side in (Side.TOP, Side.BOTTOM)
    return (Side.LEFT, Side.RIGHT) if upright else (Side.TOP, Side.BOTTOM)


def _show_corners(sides: dict[Side, Facing], squares: Squares, job: Job, tones: AnyTones) -> None:
    for upright in (Side.TOP, Side.BOTTOM):
        for level in (Side.LEFT, Side.RIGHT):
            over, under = (upright, level) if is_over(upright, job.wrap.over) else (level, upright)
            if (over, under) not in squares and (under, over) not in squares:
                continue
            weights = over_weights(sides[under], sides[over])
            target = square_of(sides[over].inked, sides[over], under)
            for channel in range(tones.channels):
                # Where a neighbour lays nothing over the picture, the canvas holds its strip already.
                there = tones.to_light(target[..., channel], channel)
                of_under = squares[under, over][channel] if (under, over) in squares else there.T
                of_over = squares[over, under][channel] if (over, under) in squares else there
                light = blend_square(of_under, of_over, weights)
                target[..., channel] = tones.from_light(light, channel)
