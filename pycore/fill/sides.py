"""Filling the sides of a canvas in place, from the face that it already holds."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Final

import numpy as np

from pycore.contract.job import Fill, Job, ResolvedFill, side_fill
from pycore.conventions import Side
from pycore.fill.checks import band_px, check_fills, picture_area
from pycore.fill.colour import PlainColour, plain_light, srgb_values
from pycore.fill.corners import blend_square, is_over, over_weights, square_of
from pycore.fill.extend import draw_out, reflect
from pycore.fill.facing import Facing, facing
from pycore.fill.grown_plan import SidePlan
from pycore.fill.grown_strip import grown_strip
from pycore.fill.overlay import Overlay, fade_weights, shown_light
from pycore.fill.softness import ONE, U32
from pycore.layout.grid import PixelGrid
from pycore.picture.deep_tones import widened
from pycore.picture.sixteen_bits import to_eight_bits
from pycore.picture.tones import AnyTones, Light, Values
from pycore.progress import part_of_share

Squares = dict[tuple[Side, Side], list[Light]]

#: How each grown side is grown.
GrownPlans = Mapping[Side, SidePlan]

NOTHING_GROWN: Final[GrownPlans] = MappingProxyType({})

_EIGHT_BITS: Final = 255


def fill_sides(
    canvas: Values,
    grid: PixelGrid,
    job: Job,
    *,
    tones: AnyTones,
    plain_colour: PlainColour = srgb_values,
    grown: GrownPlans = NOTHING_GROWN,
    only: Collection[Side] = tuple(Side),
) -> Iterator[float]:
    """Fill the four sides, the corner squares and the ink-over.

    First the picture is carried on past its edges, left and right before top and bottom: reflected, or drawn
    out where a side is drawn out. In each corner square the two ways are applied one after the other; their
    order makes no difference. Then softness, plain colours and fades are laid over it, or
    what has been grown.

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
    grown : mapping from Side to SidePlan
        A plan for each side that is to be grown.
    only : collection of Side
        Which sides the canvas has: of a part of a canvas not all four.

    Yields
    ------
    float
        The share that is done.

    Raises
    ------
    GeometryError
        A mirror, fade or grown side needs more pixels than the face has; a band is wider than the face.
    """
    sides = {side: facing(canvas, grid, side) for side in Side}
    fills = {side: side_fill(job.sides, side) for side in Side}
    check_fills(grid, job, only=only)
    left, top, right, bottom = picture_area(grid, job)
    for side in (Side.LEFT, Side.RIGHT, Side.TOP, Side.BOTTOM):
        if side not in only:
            continue
        # The rows that the picture reaches, then the whole inked width with what is there by now.
        span = (top, bottom) if side in (Side.LEFT, Side.RIGHT) else (grid.columns[1], grid.columns[4])
        _carry_on(
            sides[side],
            fills[side],
            held=_held(sides[side], (left, top, right, bottom)),
            span=span,
            grid=grid,
            tones=tones,
        )
    yield 0.3
    here = [side for side in Side if side in only]
    looks = {side: _look(sides[side], fills[side], grid, tones, plain_colour) for side in here}
    squares: Squares = {}
    for number, side in enumerate(here):
        overlay, done = looks[side], 0.3 + 0.15 * number
        if fills[side].fill is Fill.CONTINUED:
            own = sides[side]
            # Pieces are chosen, joined and shaded in 8 bits.
            seen = own if tones.top == _EIGHT_BITS else replace(own, view=to_eight_bits(own.view))
            growing = grown_strip(seen, grown[side], ppi=grid.ppi, channels=tones.channels)
            strip: Values = yield from part_of_share(growing, begin=done, share=0.15)
            strip = strip if tones.top == _EIGHT_BITS else widened(strip)
            _show_grown(own, strip, squares, tones)
        elif overlay is not None:
            _show_side(sides[side], overlay, squares, tones)
            yield done + 0.15
    _show_corners(sides, squares, job, tones)
    yield 1.0


def _held(side: Facing, area: tuple[int, int, int, int]) -> tuple[int, int]:
    """From where to where the picture reaches, along the side's first axis."""
    left, top, right, bottom = area
    size = len(side.view)
    ranges = {
        Side.TOP: (size - bottom, size - top),
        Side.RIGHT: (left, right),
        Side.BOTTOM: (top, bottom),
        Side.LEFT: (size - right, size - left),
    }
    return ranges[side.side]


def _carry_on(
    side: Facing,
    fill: ResolvedFill,
    *,
    held: tuple[int, int],
    span: tuple[int, int],
    grid: PixelGrid,
    tones: AnyTones,
) -> None:
    view = side.view[:, span[0] : span[1]]
    start, edge = held
    if fill.fill is Fill.DRAWN_OUT:
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
        side.view[side.arris : side.end, first:second, channel] = tones.from_light(shown, channel)
        for neighbour in ends:
            # A copy, so that the band itself can be freed.
            kept[side.side, neighbour].append(square_of(light, side, neighbour).copy())
    squares.update(kept)


def _show_grown(side: Facing, strip: Values, squares: Squares, tones: AnyTones) -> None:
    """Write a grown side between its corner squares; keep what it shows in these."""
    start, first, second, _ = side.along
    side.view[side.arris : side.end, first:second, : tones.channels] = strip[
        :, first - start : second - start
    ]
    for neighbour in _ends(side):
        square = square_of(strip, side, neighbour)
        squares[side.side, neighbour] = [
            tones.to_light(square[..., channel], channel) for channel in range(tones.channels)
        ]


def _ends(side: Facing) -> tuple[Side, Side]:
    """The two neighbours of a side."""
    upright = side.side in (Side.TOP, Side.BOTTOM)
    return (Side.LEFT, Side.RIGHT) if upright else (Side.TOP, Side.BOTTOM)


def _show_corners(sides: dict[Side, Facing], squares: Squares, job: Job, tones: AnyTones) -> None:
    for upright in (Side.TOP, Side.BOTTOM):
        for level in (Side.LEFT, Side.RIGHT):
            over, under = (upright, level) if is_over(upright, job.wrap) else (level, upright)
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
