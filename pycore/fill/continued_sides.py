"""The plans of a canvas's continued sides, made on a small canvas and good for every resolution of it.

Left and right come first. Top and bottom are planned on the picture widened by them, which gives the corner
squares: what runs on past the left edge runs on past the top edge as well.
"""

from __future__ import annotations

import math
from collections.abc import Generator, Mapping
from types import MappingProxyType
from typing import Final

from pycore.contract.job import Job
from pycore.conventions import MM_PER_INCH, Side
from pycore.fill.continued_plan import PLAN_DEPTH, plan_continued
from pycore.fill.continued_strip import lay_continued
from pycore.fill.continued_vectors import ContinuedPlan
from pycore.fill.extend import reflect
from pycore.fill.facing import U8, Facing, facing
from pycore.layout.flat import flat_sizes
from pycore.layout.grid import PixelGrid

#: How each continued side goes on.
ContinuedPlans = Mapping[Side, ContinuedPlan]

NOTHING_CONTINUED: Final[ContinuedPlans] = MappingProxyType({})

#: The order in which the picture runs on past its edges.
IN_TURN: Final = (Side.LEFT, Side.RIGHT, Side.TOP, Side.BOTTOM)

#: The plan's canvas has at most so many pixels, unless a side then had fewer than the least to its reach.
_MOST_PX: Final = 1_500_000
_LEAST_DEEP: Final = 10

Box = tuple[int, int, int, int]


def plan_ppi(job: Job) -> float:
    """The plan's resolution: a side's reach as some 40 pixels, but no very large canvas.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    float
        Pixels per inch.

    Examples
    --------
    >>> round(plan_ppi(Job()), 2)
    39.08
    """
    width, height = flat_sizes(job).canvas_mm
    reach_mm = job.bars.depth_mm + job.wrap.ink_over_mm
    most = max(math.sqrt(_MOST_PX / (width * height)), _LEAST_DEEP / reach_mm)
    return min(PLAN_DEPTH / reach_mm, most) * MM_PER_INCH


def held_rows(side: Facing, area: Box) -> tuple[int, int]:
    """From where to where the picture reaches, along the side's first axis.

    Parameters
    ----------
    side : Facing
    area : tuple of int
        Left, top, right, bottom of the picture on the canvas.

    Returns
    -------
    tuple of int
        The last row is excluded; it lies at the edge past which the side goes on.
    """
    left, top, right, bottom = area
    size = len(side.view)
    ranges = {
        Side.TOP: (size - bottom, size - top),
        Side.RIGHT: (left, right),
        Side.BOTTOM: (top, bottom),
        Side.LEFT: (size - right, size - left),
    }
    return ranges[side.side]


def span_of(side: Side, grid: PixelGrid, area: Box) -> tuple[int, int]:
    """Which part of the canvas a side's run-on covers, along its second axis.

    Parameters
    ----------
    side : Side
    grid : PixelGrid
    area : tuple of int
        Left, top, right, bottom of the picture on the canvas.

    Returns
    -------
    tuple of int
        Left and right: the rows that the picture reaches. Top and bottom: the whole inked width.
    """
    if side in (Side.LEFT, Side.RIGHT):
        return area[1], area[3]
    return grid.columns[1], grid.columns[4]


def plan_sides(
    canvas: U8,
    grid: PixelGrid,
    area: Box,
    continued: frozenset[Side],
    *,
    known: ContinuedPlans = NOTHING_CONTINUED,
) -> Generator[float, None, dict[Side, ContinuedPlan]]:
    """Plan the continued sides of a small canvas and lay all of its sides, those that have no plan mirrored.

    Parameters
    ----------
    canvas : (rows, columns, 3) uint8
        Holds the picture; its inked sides and corner squares are written in place.
    grid : PixelGrid
        At `plan_ppi`.
    area : tuple of int
        Left, top, right, bottom of the picture on the canvas.
    continued : frozenset of Side
        Those to be continued.
    known : mapping from Side to ContinuedPlan
        Plans that still hold.

    Yields
    ------
    float
        The share that is done.

    Returns
    -------
    dict from Side to ContinuedPlan
    """
    plans: dict[Side, ContinuedPlan] = {}
    for number, side in enumerate(IN_TURN, start=1):
        faced = facing(canvas, grid, side)
        start, edge = held_rows(faced, area)
        begin, end = span_of(side, grid, area)
        view = faced.view[:, begin:end]
        if side in continued:
            first, second = (area[0] - begin, area[2] - begin) if side in IN_TURN[2:] else (0, end - begin)
            plan = known.get(side) or plan_continued(
                view[start:edge], depth=faced.end - edge, first=first, second=second
            )
            plans[side] = plan
            for _ in lay_continued(view[start:edge], plan, view[edge : faced.end]):
                pass
        else:
            reflect(view, start=start, edge=edge, end=faced.end)
        yield number / len(IN_TURN)
    return plans
