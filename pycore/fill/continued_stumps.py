"""Things cut by the edge that end soon inside: a side that looks no deeper draws them out to stalks."""

from __future__ import annotations

from typing import Final

import numpy as np
import numpy.typing as npt

from pycore.fill.continued_ground import I32, I64, STEPS, along_lines, over_channels, smooth, whole_root
from pycore.fill.continued_vectors import ContinuedPlan

#: A line has left what it begins in where its colour is so far from that at the edge (ΔE) in so many rows
#: one after another.
_LEFT: Final = 14
_ROWS: Final = 3

#: What begins there is ground that the edge has too where it is no further (ΔE) from a colour of the edge
#: within one depth of the side.
_KNOWN: Final = 10

#: Rows past the thing's end that a plan must look at to close it.
_PAST: Final = 2

#: Stumps in so many columns side by side are seen, where more than so much change stays bent at the edge
#: (1 / 32 of ΔE a pixel, as `Changed` has it). Our own figures, set on sides of photographs that were held
#: against their mirror by eye, the order shuffled: of 341 that are continued whatever they draw out 13 were
#: worse, 67 equal and 261 better, of those that are left 7, 58 and 254; of 263 others, which did not set it,
#: 5, 52 and 206, of those that are left 1, 46 and 202.
_WIDE: Final = 3
_BENT: Final = 92


def draws_out_stumps(
    steps: I32, plan: ContinuedPlan, *, bent: int, first: int = 0, second: int | None = None
) -> bool:
    """Say whether things that end soon inside become stalks, where lines break at the edge as well.

    A rock on the sand is cut by the edge, and the sand goes on behind it. A side that looks no deeper than
    the rock shows rock all the way out. Where all lines run on that is seldom seen.

    Parameters
    ----------
    steps : (rows, columns, 3) int32
        From `colour_steps`, row 0 at the edge; at least as many rows as the side is deep.
    plan : ContinuedPlan
    bent : int
        What stays bent at the edge, from `Changed`.
    first, second : int
        The columns that the face itself has.

    Returns
    -------
    bool

    Examples
    --------
    >>> rock = np.zeros((46, 90, 3), np.int32)
    >>> rock[:12, 30:50] = 30 * STEPS
    >>> upright, *deep = (np.full(90, value, np.int32) for value in (0, 256, 60))
    >>> plans = [ContinuedPlan(depth=40, slope=upright, deepest=one, way=one, pace=one) for one in deep]
    >>> [draws_out_stumps(rock, plan, bent=100) for plan in plans]
    [False, True]
    """
    if bent <= _BENT:
        return False
    stumps = _stumps(steps, plan)[first:second]
    beside = [stumps[column : len(stumps) - _WIDE + 1 + column] for column in range(_WIDE)]
    return bool(np.logical_and.reduce(beside).any())


def _stumps(steps: I32, plan: ContinuedPlan) -> npt.NDArray[np.bool_]:
    """Columns whose line ends soon inside, in ground that the edge has too, and is not closed by the plan."""
    depth = plan.depth
    lines = along_lines(smooth(steps[: depth + 6], 1), plan.slope, depth).astype(np.int64)
    edge = (lines[1] + lines[2]) // 2
    left = _apart(lines, edge) > _LEFT * STEPS
    ended = np.logical_and.reduce([left[row : depth - _ROWS + 1 + row] for row in range(_ROWS)])
    ends = np.where(ended.any(axis=0), ended.argmax(axis=0), depth)
    stumps = (2 * ends < depth) & ((plan.deepest.astype(np.int64) * depth >> 8) < ends + _PAST)
    at = np.flatnonzero(stumps)
    stumps[at] = _crossed(lines, ends[at], at)
    at = np.flatnonzero(stumps)
    beyond = lines[np.minimum(ends[at] + _PAST, depth - 1), at]
    about = np.clip(at[:, np.newaxis] + np.arange(-depth, depth), 0, len(stumps) - 1)
    stumps[at] = (_apart(edge[about], beyond[:, np.newaxis]) < _KNOWN * STEPS).any(axis=1)
    return stumps


def _crossed(lines: I64, rows: I64, columns: I64) -> npt.NDArray[np.bool_]:
    """Whether the outline at these places lies rather across the lines than along them.

    Along it a line only slips out sideways of what goes on beside it.
    """
    before, after = np.maximum(rows - 1, 0), np.minimum(rows + 1, len(lines) - 1)
    left, right = np.maximum(columns - 1, 0), np.minimum(columns + 1, lines.shape[1] - 1)
    onwards = _apart(lines[after, columns], lines[before, columns])
    aside = np.maximum(*(_apart(lines[row, right], lines[row, left]) for row in (rows, before)))
    crossed: npt.NDArray[np.bool_] = onwards >= aside
    return crossed


def _apart(some: I64, others: I64) -> I64:
    """How far colours lie apart, in 1 / `STEPS` of ΔE."""
    steps = some - others
    return whole_root(over_channels(steps * steps))
