"""Where each place of a continued side looks on the face: a coarse field of whole numbers."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pycore.fill.continued_ground import I32, I64
from pycore.fill.continued_vectors import ContinuedPlan

#: Parts of a plan's pixel.
PART = 4096


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
    slope, deepest, way, pace = (_at_borders(one) for one in (plan.slope, plan.deepest, plan.way, plan.pace))
    lines = np.arange(len(slope), dtype=np.int64) * PART
    rows = np.arange(full + 1, dtype=np.int64)[:, np.newaxis]
    # What the lines reach at each row rises from column to column, since they do not cross.
    places = np.maximum.accumulate(lines + slope * (rows * (PART // 256)), axis=1)
    before, share = _inverse(places, lines)
    within = np.clip(share, 0, PART)

    def there(values: I64) -> I64:
        low = values[before]
        return low + (values[before + 1] - low) * within // PART

    deep = np.maximum(there(deepest * (full * PART // 256)), 1)
    depth = _gone(rows, full, there(pace), there(way)) % (2 * deep)
    depth = np.where(depth > deep, 2 * deep - depth, depth)
    # On the line that comes through here, as deep as that.
    along = before * PART + share - there(slope) * depth // 256
    return Field(along=along, depth=depth)


def _gone(row: I64, full: int, pace: I64, way: I64) -> I64:
    """The way gone at a row: at the edge's pace at first, and at the side's end all of it.

    With s the pace, w the way, D the depth and u = a / D: `s a / (1 + u (s D / w - 1))`, which is
    `s a w D / (w D + a (s D - w))`.
    """
    bottom = way * full + row * (pace - way)
    gone: I64 = pace * way * (row * (full * PART // 256)) // np.maximum(bottom, 1)
    return gone


def _at_borders(values: I32) -> I64:
    """Values of columns at the borders between them."""
    wide = np.concatenate([values[:1], values, values[-1:]]).astype(np.int64)
    return (wide[1:] + wide[:-1]) // 2


def _inverse(places: I64, lines: I64) -> tuple[I64, I64]:
    """For each row and grid line the line before it, and how far past that it lies, in `PART`."""
    count = len(lines)
    # Row by row on one scale, far enough apart that rows do not meet.
    apart = (np.arange(len(places), dtype=np.int64) * (8 * count * PART))[:, np.newaxis]
    flat = np.searchsorted((places + apart).ravel(), (lines + apart).ravel(), side="right")
    before = flat.reshape(places.shape) - 1 - np.arange(len(places))[:, np.newaxis] * count
    before = np.clip(before, 0, count - 2)
    low, high = np.take_along_axis(places, before, 1), np.take_along_axis(places, before + 1, 1)
    share = (lines - low) * PART // np.maximum(high - low, 1)
    # Before the first line and past the last, lines go on as these, side by side.
    share = np.where(lines < places[:, :1], lines - places[:, :1], share)
    share = np.where(lines > places[:, -1:], PART + lines - places[:, -1:], share)
    return before, share
