"""A continued side's plan: four short vectors along the edge."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pycore.fill.continued_ground import I32


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
