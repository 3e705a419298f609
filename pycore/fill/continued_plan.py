"""The plan of a continued side: which way its lines run and how deep each looks, in a few short vectors.

A mirror shows at a distance from the edge what lies as far inside it. A continued side looks along the line
that runs into the edge there, and only as deep as nothing new begins. So no pixel is invented and no colour
can be wrong. The plan is made once, on a small copy, in whole numbers, and is laid at any resolution.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.fill.continued_change import better_a_mirror, changed_by
from pycore.fill.continued_ground import colour_steps
from pycore.fill.continued_harm import change_of
from pycore.fill.continued_mirrored import bends_what_it_draws_out, draws_out_detail
from pycore.fill.continued_reach import reach_along
from pycore.fill.continued_slope import calm_along, line_gains, slopes_along
from pycore.fill.continued_stumps import draws_out_stumps
from pycore.fill.continued_vectors import ContinuedPlan, mirror_plan
from pycore.fill.facing import U8

#: Pixels of the plan to one depth of a side.
PLAN_DEPTH: Final = 40

#: Columns of the face along the edge from which a plan is held against a mirror.
_LEAST_WIDE: Final = 4


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
    second = columns if second is None else second
    past = np.ones(columns, bool)
    past[first:second] = False
    gains[:, past] = np.where(gains[:, past] > 0, gains[:, past] // 3, gains[:, past])
    change = change_of(steps, depth)
    slope = slopes_along(gains, calm_along(change))
    # What is smaller is too little to be judged by.
    judged = len(steps) >= depth and second - first >= _LEAST_WIDE
    reach = reach_along(steps, slope, depth)
    plan = ContinuedPlan(depth=depth, slope=slope, deepest=reach.deepest, way=reach.way, pace=reach.pace)
    if judged:
        doubts = draws_out_detail(slope, reach) + bends_what_it_draws_out(
            reach, depth=depth, first=first, second=second
        )
        changed = changed_by(change, plan, first=first, second=second)
        if better_a_mirror(changed, doubts=doubts) or draws_out_stumps(
            steps, plan, bent=changed.bent, first=first, second=second
        ):
            return mirror_plan(columns=columns, depth=depth)
    return plan
