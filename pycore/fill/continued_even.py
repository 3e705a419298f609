"""How deep a side looks from column to column: changes where nothing shows them, none across lines.

A line that runs along the edge is shown where each column comes to its depth. Where neighbouring columns look
to different depths it is bent, whichever way it runs inside: windows, trunks and hedges turn into waves. So a
change of depth costs what lies there of such lines, and the cheapest course along the edge is taken.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.fill.continued_blocks import between_blocks, in_blocks
from pycore.fill.continued_ground import I32, I64, STEPS, mean_along, over_channels, smooth, whole_root

# Our own figures, set on the photographs that tests name as tuned on.

#: Depths are multiples of `_STEP` (1 / 256 of the side's depth); from one
#: step to the next the depth changes by so many of them at most.
_STEP: Final = 8
_MOST_LEVELS: Final = 4
_DEEPEST: Final = 256 // _STEP

#: The least depth in these steps: a side that looked less deep would show single pixels as bars.
_LEAST: Final = 3

#: How far along the edge, on either side, a line must run the same way; a fine one further.
_LONG: Final = 4
_LONG_FINE: Final = 12

#: Change across such a line that counts in full, and that texture has by chance, in ΔE a pixel.
_MOST: Final = 12.0
_CHANCE: Final = 1.0
_CHANCE_FINE: Final = 4.0

#: What a bend costs against what is shown that is new, in 1 / 16.
_BEND: Final = 4096

#: Distance (ΔE) of a colour from all known ones that counts in full.
_NEWEST: Final = 24

#: What is shown that is new costs so many times what is drawn out.
_SHOWN: Final = 3

#: The tip of a thing that floats by itself is worse than the thing: so many rows in full count so much more.
_TIP: Final = 3
_TIP_SHOWN: Final = 6

#: The row after the deepest counts as well, since a blur finds a tip a little late: in full where it is not
#: wanted, but from the level on from which little is drawn out, and else by one part in so many.
_NEXT: Final = 4

#: The level from which on what is new counts by how far it is drawn out, and not by more than here.
_DRAWN_OUT: Final = 20

#: What a depth beyond the wanted one costs in any case, in 1 / `STEPS` of ΔE a row.
_BEYOND: Final = 4

#: What a share that differs from the wanted one costs, likewise.
_OFF: Final = 16


def lines_shown(around: I32) -> I64:
    """How much of lines along the edge so many rows show, each weighed with how far out it lies.

    Parameters
    ----------
    around : (rows, columns, 3) int32
        The strip read along its lines, row 0 at the edge; from `colour_steps`.

    Returns
    -------
    (rows + 1, columns) int64
        Change across the lines in 1 / `STEPS` of ΔE.

    Examples
    --------
    >>> around = np.zeros((40, 60, 3), np.int32)
    >>> around[20:] = 50 * STEPS
    >>> shown = lines_shown(around)
    >>> int(shown[15, 30]), int(shown[25, 30]) > int(shown[40, 30]) > 0
    (0, True)
    """
    soft = smooth(around, 1)
    down, fine = np.zeros_like(soft), np.zeros_like(soft)
    down[1:-1] = (soft[2:] - soft[:-2]) >> 1
    # Lines of a pixel or two, as storeys of a far house, are gone where it is blurred.
    fine[:-1] = around[1:] - around[:-1]
    change = np.maximum(
        _across_lines(down, long=_LONG, chance=_CHANCE),
        _across_lines(fine, long=_LONG_FINE, chance=_CHANCE_FINE),
    )
    rows, columns = change.shape
    # A line is moved by as much as it lies out: its own depth over the deepest.
    sums = np.zeros((rows + 1, columns), np.int64)
    np.cumsum(change * np.arange(rows, dtype=np.int64)[:, np.newaxis], axis=0, out=sums[1:])
    shown: I64 = sums // np.maximum(np.arange(rows + 1), 1)[:, np.newaxis]
    return shown


def _across_lines(down: I32, *, long: int, chance: float) -> I64:
    """What change inwards has in common with its neighbours along the edge, over what texture has."""
    along = mean_along(down, long, axis=1).astype(np.int64)
    change = whole_root(over_channels(along * along))
    return np.clip(change - int(chance * STEPS), 0, int(_MOST * STEPS))


def even_depths(wanted: I32, lines: I64, newness: I32, streaks: I32) -> I32:
    """Depths near the wanted ones that change only where no line along the edge is bent by it.

    Parameters
    ----------
    wanted : (columns,) int32
        In 1 / 256 of the side's depth.
    lines : (rows + 1, columns) int64
        From `lines_shown`.
    newness : (rows, columns) int32
        How far each place is from what is known at the edge, in 1 / `STEPS` of ΔE; 0 where nothing is new.
    streaks : (columns,) int32
        What a row too few costs, in 1 / `STEPS` of ΔE.

    Returns
    -------
    (columns,) int32
        In 1 / 256 of the side's depth.

    References
    ----------
    A. J. Viterbi 1967, the best path by dynamic programming; from memory.

    Examples
    --------
    >>> wanted = np.repeat(np.array([80, 240], np.int32), 40)
    >>> nothing, plain = np.zeros((40, 80), np.int32), np.full(80, STEPS, np.int32)
    >>> free = even_depths(wanted, np.zeros((41, 80), np.int64), nothing, plain)
    >>> held = even_depths(wanted, np.full((41, 80), 60 * STEPS), nothing, plain)
    >>> int(np.ptp(free)), int(np.ptp(held))
    (160, 0)
    """
    rows, columns = newness.shape
    levels = np.arange(_LEAST, _DEEPEST + 1, dtype=np.int64)
    # Rows that each level shows.
    shown = np.minimum((levels * _STEP * rows + 128) // 256, rows)
    new = np.zeros((rows + 1, columns), np.int64)
    np.cumsum(np.minimum(newness, _NEWEST * STEPS), axis=0, out=new[1:])
    new = new * _SHOWN + np.minimum(new, _TIP * _NEWEST * STEPS) * _TIP_SHOWN
    gap = (levels * _STEP)[:, np.newaxis] - wanted
    asked = new[np.minimum((wanted * rows + 128) // 256, rows), np.arange(columns)]
    next_row = new[np.minimum(shown + 1, rows)] - new[shown]
    # Where little is drawn out, a row less costs little.
    deep = (levels >= _DRAWN_OUT)[:, np.newaxis]
    beyond = np.maximum(new[shown] + next_row * deep - asked, 0)
    # What the wanted depth shows was let pass on account of the ground: it counts by half.
    cost = beyond + np.minimum(new[shown] + next_row // _NEXT, asked) // 2
    # A shallow side draws out what it shows.
    cost = cost * _DEEPEST // np.maximum(levels, _DRAWN_OUT)[:, np.newaxis]
    cost += np.maximum(gap, 0) * _BEYOND * rows // 256
    cost += np.maximum(-gap, 0) * streaks.astype(np.int64) * rows // 256
    bent = lines[shown] * _BEND // (16 * levels[:, np.newaxis])
    path = _cheapest(in_blocks(cost), in_blocks(bent))
    return between_blocks((path + _LEAST) * _STEP, columns)


def even_shares(wanted: I32, lines: I64, deepest: I32) -> I32:
    """Shares near the wanted ones that change only where no line along the edge is bent by it.

    Parameters
    ----------
    wanted : (columns,) int32
        0 to 256.
    lines : (rows + 1, columns) int64
        From `lines_shown`.
    deepest : (columns,) int32
        What is shown, in 1 / 256 of the rows.

    Returns
    -------
    (columns,) int32
        0 to 256.

    Examples
    --------
    >>> wanted = np.repeat(np.array([0, 256], np.int32), 40)
    >>> deep = np.full(80, 256, np.int32)
    >>> int(np.ptp(even_shares(wanted, np.full((41, 80), 60 * STEPS), deep)))
    0
    """
    rows, columns = len(lines) - 1, len(wanted)
    levels = np.arange(_DEEPEST + 1, dtype=np.int64)
    cost = np.abs(levels[:, np.newaxis] * _STEP - wanted).astype(np.int64) * _OFF * rows // 256
    shown = np.clip((deepest.astype(np.int64) * rows + 128) // 256, 1, rows)
    bent = np.broadcast_to(lines[shown, np.arange(columns)] * _BEND // (16 * 32), cost.shape)
    return between_blocks(_cheapest(in_blocks(cost), in_blocks(bent)) * _STEP, columns)


def _cheapest(cost: I64, bent: I64) -> I64:
    """The course along the edge that costs least, by dynamic programming.

    Parameters
    ----------
    cost : (levels, steps) int64
    bent : (levels, steps) int64
        What changing to a level from the one before it costs.

    Returns
    -------
    (steps,) int64
        A level for each step.
    """
    count, blocks = cost.shape
    # Between two steps counts what the deeper level shows on either side of the change.
    change = np.concatenate([bent[:, :1], np.maximum(bent[:, 1:], bent[:, :-1])], axis=1)
    change[0] = 0
    dear = np.pad(np.cumsum(change, axis=0), ((_MOST_LEVELS, _MOST_LEVELS), (0, 0)))
    before = np.arange(count) + _MOST_LEVELS + _CHANGES[:, np.newaxis]
    changes = np.abs(dear[before] - dear[_MOST_LEVELS : _MOST_LEVELS + count])
    changes = np.ascontiguousarray(changes.transpose(2, 0, 1))
    costs = np.ascontiguousarray(cost.T)
    back = np.zeros((blocks, count), np.int64)
    wide = np.full(count + 2 * _MOST_LEVELS, 2**60, np.int64)
    best = wide[_MOST_LEVELS : _MOST_LEVELS + count]
    best[:] = costs[0]
    levels = np.arange(count)
    for block in range(1, blocks):
        options = wide[before]
        options += changes[block]
        back[block] = choice = options.argmin(axis=0)
        np.add(options[choice, levels], costs[block], out=best)
    path = np.empty(blocks, np.int64)
    path[-1] = int(best.argmin())
    for block in range(blocks - 1, 0, -1):
        path[block - 1] = path[block] + _CHANGES[back[block, path[block]]]
    return path


#: Levels that the step before is deeper; the least change first among equals.
_CHANGES: Final = np.array(sorted(range(-_MOST_LEVELS, _MOST_LEVELS + 1), key=abs))
