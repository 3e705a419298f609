"""What a continued side changes for the better and for the worse, held against a plain mirror.

A mirror bends every slanted line, all over the side, and shows a second time what stands further in; it draws
nothing out. A plan heals some of the first and spares some of the second, and pays for it with what it draws
out and presses together. Each is change of colour, so that plain ground may be moved freely.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.fill.continued_field import PART, field_of
from pycore.fill.continued_ground import I64, reflected
from pycore.fill.continued_harm import Change, bent_at_edge, length_of, seen_bend
from pycore.fill.continued_vectors import ContinuedPlan, mirror_plan

#: What a side must gain in any case, in 1 / 64 of ΔE a pixel, and where streaks or bent streaks are likely;
#: half of what stays bent at the edge is asked for besides. Our own figures, and so are the gain's, set on
#: sides of photographs that were held against their mirror by eye, the order shuffled.
_LEAST: Final = 24
_LEAST_IN_DOUBT: Final = 150


@dataclass(frozen=True, kw_only=True, eq=False)
class Shown:
    """What a plan shows of the change of colour, in 1 / 32 of ΔE a pixel; means over the side's rows.

    Attributes
    ----------
    there : (columns / 2,) int64
        What there is where the plan looks.
    lost, pressed : (columns / 2,) int64
        What of it is lost by drawing out, and what is added by pressing together.
    aslant : (columns / 2,) int64
        What lies across lines that do not run on as they run into the edge.
    """

    there: I64
    lost: I64
    pressed: I64
    aslant: I64


def shown_past_it(change: Change, plan: ContinuedPlan) -> Shown:
    """Follow a plan's map over the side, in cells of two by two pixels.

    Parameters
    ----------
    change : Change
    plan : ContinuedPlan

    Returns
    -------
    Shown

    Examples
    --------
    >>> from pycore.fill.continued_ground import STEPS
    >>> from pycore.fill.continued_harm import change_of
    >>> bars = np.zeros((60, 80, 3), np.int32)
    >>> bars[::8] = bars[1::8] = bars[2::8] = bars[3::8] = 60 * STEPS
    >>> few, upright, change = np.full(80, 64, np.int32), np.zeros(80, np.int32), change_of(bars, 40)
    >>> drawn_out = ContinuedPlan(depth=40, slope=upright, deepest=few, way=few, pace=few)
    >>> shown = shown_past_it(change, drawn_out)
    >>> round(int(shown.lost[20]) / int(shown.there[20]), 2), int(shown.aslant[20])
    (0.75, 0)
    """
    field = field_of(plan)
    deep, along = field.depth[::2, ::2], field.along[::2, ::2]
    row = np.clip(_middle(deep) // PART, 0, change.down.shape[1] - 1)
    column = reflected(_middle(along) // PART, change.down.shape[2])
    down, across = change.down[:, row, column], change.across[:, row, column]

    def carried(deep_: I64, along_: I64) -> I64:
        """The change in the side's own two directions, by the map's derivatives."""
        return (down * deep_ + across * along_) // (4 * PART)

    outwards, by = carried(_outwards(deep), _outwards(along)), carried(_by(deep), _by(along))
    return _shown(down, across, outwards, by)


def _shown_by_mirror(change: Change, depth: int) -> Shown:
    """The same of a mirror, which shows each change as it is."""
    down, across = change.down[:, 1:depth:2, 1::2], change.across[:, 1:depth:2, 1::2]
    return _shown(down, across, down, across)


def _shown(down: I64, across: I64, outwards: I64, by: I64) -> Shown:
    there, here = length_of(down, across), length_of(outwards, by)
    left = np.minimum(here, there)
    # Away from the edge, change inwards has the opposite sign where a line runs on.
    aslant = seen_bend((outwards, by), (-down, across)) * left // 256
    means = (one.sum(axis=0) // len(one) for one in (there, there - left, here - left, aslant))
    return Shown(**dict(zip(("there", "lost", "pressed", "aslant"), means, strict=True)))


def _middle(nodes: I64) -> I64:
    """The mean of each cell's four corners."""
    total: I64 = nodes[1:, 1:] + nodes[:-1, 1:] + nodes[1:, :-1] + nodes[:-1, :-1]
    return total // 4


def _outwards(nodes: I64) -> I64:
    """Twice the difference over a cell's two rows."""
    twice: I64 = nodes[1:, 1:] + nodes[1:, :-1] - nodes[:-1, 1:] - nodes[:-1, :-1]
    return twice


def _by(nodes: I64) -> I64:
    """Twice the difference over a cell's two columns."""
    twice: I64 = nodes[1:, 1:] - nodes[1:, :-1] + nodes[:-1, 1:] - nodes[:-1, :-1]
    return twice


@dataclass(frozen=True, kw_only=True)
class Changed:
    """How one side differs from its mirror, in 1 / 32 of ΔE a pixel.

    Each is the greatest mean over a stretch of the edge as long as the side is deep, and at least 0.

    Attributes
    ----------
    bent, healed : int
        What the plan bends at the edge, and what the mirror bends there more.
    straightened : int
        What the plan shows less across lines that do not run on.
    spared : int
        What stands further in than the plan looks, which a mirror shows twice.
    lost, pressed : int
        What is drawn out and pressed together.
    """

    bent: int
    healed: int
    straightened: int
    spared: int
    lost: int
    pressed: int

    @property
    def gain(self) -> int:
        """What is better less what is worse than the mirror, in 1 / 64 of ΔE a pixel.

        What is drawn out is seen sooner than what is shown twice; lines that do not run on are seen less away
        from the edge than at it.
        """
        return 2 * (self.healed + self.spared) + self.straightened - 3 * self.lost - self.pressed


def changed_by(change: Change, plan: ContinuedPlan, *, first: int = 0, second: int | None = None) -> Changed:
    """Hold a plan against a mirror.

    Parameters
    ----------
    change : Change
    plan : ContinuedPlan
    first, second : int
        The columns that the face itself has, at least 4.

    Returns
    -------
    Changed
    """
    depth, second = plan.depth, len(plan.slope) if second is None else second
    mirror = mirror_plan(columns=len(plan.slope), depth=depth)
    face, cells = slice(first, second), slice(first // 2, second // 2)
    bent, mirrored = (bent_at_edge(change, one.slope, one.pace, depth=depth)[face] for one in (plan, mirror))
    mine, other = shown_past_it(change, plan), _shown_by_mirror(change, depth)

    def most(values: I64) -> int:
        return _most_over(values[cells], depth // 2)

    return Changed(
        bent=_most_over(bent, depth),
        healed=_most_over(mirrored - bent, depth),
        straightened=most(other.aslant - mine.aslant),
        spared=most(other.there - mine.there),
        lost=most(mine.lost),
        pressed=most(mine.pressed),
    )


def _most_over(values: I64, stretch: int) -> int:
    """The greatest mean over a stretch along the edge."""
    stretch = min(max(stretch, 1), len(values))
    sums = np.cumsum(np.concatenate([np.zeros(1, np.int64), values]))
    return max(0, int((sums[stretch:] - sums[:-stretch]).max()) // stretch)


def better_a_mirror(changed: Changed, *, doubtful: bool = False) -> bool:
    """Say whether a mirror looks as well as the plan or better.

    Parameters
    ----------
    changed : Changed
    doubtful : bool
        What is drawn out, or how unevenly, makes streaks likely.

    Returns
    -------
    bool

    Examples
    --------
    >>> nothing = {"healed": 0, "straightened": 0, "lost": 0, "pressed": 0, "bent": 0}
    >>> better_a_mirror(Changed(spared=30, **nothing)), better_a_mirror(Changed(spared=7, **nothing))
    (False, True)
    """
    least = _LEAST_IN_DOUBT if doubtful else _LEAST
    return 2 * changed.gain < 2 * least + changed.bent
