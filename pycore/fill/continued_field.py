"""Where each place of a continued side looks on the face: a coarse field of whole numbers."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pycore.fill.continued_ground import I64
from pycore.fill.continued_plan import ContinuedPlan

#: Parts of a plan's pixel.
PART = 1024


@dataclass(frozen=True, kw_only=True, eq=False)
class Field:
    """Sources at the plan's grid lines.

    Attributes
    ----------
    along, depth : (plan depth + 1, plan columns + 1) int64
        From the first column's outer border and from the edge, in 1 / `PART` of a plan's pixel. Row a lies a
        pixels past the edge, column x at the left border of the plan's column x.
    """

    along: I64
    depth: I64


def field_of(plan: ContinuedPlan) -> Field:
    """Follow each line of the plan outwards and see what lies where.

    Parameters
    ----------
    plan : ContinuedPlan

    Returns
    -------
    Field
    """
    full = plan.depth
    slope, deepest, way, pace = (_at_borders(v) for v in (plan.slope, plan.deepest, plan.way, plan.pace))
    columns = len(slope)
    lines = np.arange(columns, dtype=np.int64) * PART
    along = np.empty((full + 1, columns), np.int64)
    depth = np.empty((full + 1, columns), np.int64)
    for row in range(full + 1):
        # What the lines reach at this row rises from column to column, since they do not cross.
        place = lines + slope * (row * PART // 256)
        place = np.maximum.accumulate(place)
        at, share = _inverse(place, lines)
        m, deep, long, fast = (_mixed(v, at, share) for v in (slope, deepest, way, pace))
        origin = at * PART + share
        gone = _gone(row, full, fast, long)
        deep = deep * full * PART // 256
        turned = gone % np.maximum(2 * deep, 1)
        turned = np.where(turned > deep, 2 * deep - turned, turned)
        depth[row] = turned
        along[row] = origin - m * turned // 256
    return Field(along=along, depth=depth)


def _gone(row: int, full: int, pace: I64, way: I64) -> I64:
    """The way gone at a row: at the edge's pace at first, and at the side's end all of it.

    `s a / (1 + u (s D / w - 1))` with u = a / D, which is `s a w D / (w D + a (s D - w))`.
    """
    bottom = way * full + row * (pace - way)
    return pace * way * row * full * PART // (np.maximum(bottom, 1) * 256)


def _at_borders(values: np.ndarray) -> I64:
    wide = np.concatenate([values[:1], values, values[-1:]]).astype(np.int64)
    return (wide[1:] + wide[:-1]) // 2


def _inverse(place: I64, lines: I64) -> tuple[I64, I64]:
    """For each grid line the two lines between which it lies, and how far from the first, in `PART`."""
    at = np.clip(np.searchsorted(place, lines, side="right") - 1, 0, len(place) - 2)
    width = np.maximum(place[at + 1] - place[at], 1)
    share = (lines - place[at]) * PART // width
    # Before the first line and past the last, lines go on as these, side by side.
    share = np.where(lines < place[0], lines - place[0], share)
    share = np.where(lines > place[-1], PART + lines - place[-1], share)
    return at, share


def _mixed(values: I64, at: I64, share: I64) -> I64:
    share = np.clip(share, 0, PART)
    return (values[at] * (PART - share) + values[at + 1] * share) // PART
