"""The plan of a continued side: which way its lines run and how deep each looks, in a few short vectors.

A mirror shows at a distance from the edge what lies as far inside it. A continued side looks along the line
that runs into the edge there, and only as deep as nothing new begins. So no pixel is invented and no colour
can be wrong. The plan is made once, on a small copy, in whole numbers, and is laid at any resolution.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.fill.continued_ground import I32, colour_steps
from pycore.fill.continued_mirrored import bends_what_it_draws_out, better_mirrored
from pycore.fill.continued_reach import reach_along
from pycore.fill.continued_slope import line_gains, slopes_along
from pycore.fill.facing import U8

#: Pixels of the plan to one depth of a side.
PLAN_DEPTH: Final = 40


@dataclass(frozen=True, kw_only=True, eq=False)
class ContinuedPlan:
    """How one side goes on past its edge, column by column of the plan.

    Attributes
    ----------
    depth : int
        Of the side, in pixels of the plan.
    slope : (columns,) int32
        Columns per row outwards, in 1 / 256.
    deepest, way : (columns,) int32
        The greatest depth that is shown and how far the line goes in all, in 1 / 256 of the side's depth.
    pace : (columns,) int32
        Depth per row at the edge, in 1 / 256.
    """

    depth: int
    slope: I32
    deepest: I32
    way: I32
    pace: I32


def plan_continued(strip: U8, *, depth: int, first: int = 0, second: int | None = None) -> ContinuedPlan:
    """Plan one side.

    Parameters
    ----------
    strip : (rows, columns, 3) uint8
        The picture beside the edge, its last row at the edge; at least 4 rows.
    depth : int
        The side's depth in the same pixels, about `PLAN_DEPTH`.
    first, second : int
        The columns that the face itself has. Past them lie sides that are continued already, which say less.

    Returns
    -------
    ContinuedPlan
    """
    steps = colour_steps(strip[::-1][: 2 * depth])
    gains = line_gains(steps, depth)
    columns = strip.shape[1]
    past = np.ones(columns, bool)
    past[first : columns if second is None else second] = False
    gains[:, past] = np.where(gains[:, past] > 0, gains[:, past] // 3, gains[:, past])
    slope = slopes_along(gains)
    reach = reach_along(steps, slope, depth)
    if len(steps) >= depth and (
        better_mirrored(slope, reach)
        or bends_what_it_draws_out(reach, depth=depth, first=first, second=second)
    ):
        return mirror_plan(columns=columns, depth=depth)
    return ContinuedPlan(depth=depth, slope=slope, deepest=reach.deepest, way=reach.way, pace=reach.pace)


def mirror_plan(*, columns: int, depth: int) -> ContinuedPlan:
    """The plan of a plain mirror: upright lines, all of the depth, at full pace.

    Parameters
    ----------
    columns, depth : int
        Of the side, in pixels of the plan.

    Returns
    -------
    ContinuedPlan

    Examples
    --------
    >>> mirror_plan(columns=3, depth=40).way.tolist()
    [256, 256, 256]
    """
    whole = np.full(columns, 256, np.int32)
    return ContinuedPlan(depth=depth, slope=np.zeros(columns, np.int32), deepest=whole, way=whole, pace=whole)
