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
from pycore.fill.continued_ground import I64, reflected, whole_root
from pycore.fill.continued_harm import Change, bent_at_edge, length_of, seen_bend
from pycore.fill.continued_vectors import ContinuedPlan, mirror_plan

#: What a side must gain besides half of what stays bent at the edge, in 1 / 64 of ΔE a pixel, and of what it
#: curves, in sixteenths; one of the pairs is enough. The first are asked for in any case, the next where one
#: of the two signs of streaks is there (`continued_mirrored.py`), the last where both are. Our own figures,
#: and so are the gain's, set on sides of photographs that were held against their mirror by eye, the order
#: shuffled: of 194 that were continued whatever they curve, on which they were set first, a person found 13
#: worse than their mirror, 36 equal and 145 better; of 185 others 12, 51 and 122. Other parts of these
#: photographs judge them: of 193 sides that are continued there 3 are worse, 35 equal and 155 better.
_ASKED: Final = (((12, 25),), ((150, 40), (80, 100)), ((80, 100),))

#: Where much stays bent, all lines break: over half of this the gain must rise twice as fast.
_MUCH_BENT: Final = 200

#: Lines turn by no more than this a pixel, in 1 / 1024, that count: what turns more is a crease.
_CREASE: Final = 205


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
    curved : (columns / 2,) int64
        What lies across lines that were straight and are curved, times how much they turn a pixel; in
        1 / 1024 of ΔE a pixel.
    """

    there: I64
    lost: I64
    pressed: I64
    aslant: I64
    curved: I64


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
    curved = _curved((down, across), (outwards, by), _turns(_middle(deep)), _turns(_middle(along)))
    return _shown(down, across, outwards, by, curved)


def _shown_by_mirror(change: Change, depth: int) -> Shown:
    """The same of a mirror, which shows each change as it is."""
    down, across = change.down[:, 1:depth:2, 1::2], change.across[:, 1:depth:2, 1::2]
    return _shown(down, across, down, across, np.zeros_like(down[0]))


def _shown(down: I64, across: I64, outwards: I64, by: I64, curved: I64) -> Shown:
    there, here = length_of(down, across), length_of(outwards, by)
    left = np.minimum(here, there)
    # Away from the edge, change inwards has the opposite sign where a line runs on.
    aslant = seen_bend((outwards, by), (-down, across)) * left // 256
    means = (one.sum(axis=0) // len(one) for one in (there, there - left, here - left, aslant, curved))
    return Shown(**dict(zip(("there", "lost", "pressed", "aslant", "curved"), means, strict=True)))


def _turns(middles: I64) -> tuple[I64, I64, I64]:
    """Second differences between cells: outwards, along the edge and mixed; none at the borders."""
    outwards, by, mixed = (np.zeros_like(middles) for _ in range(3))
    inner = middles[1:-1, 1:-1]
    outwards[1:-1, 1:-1] = middles[2:, 1:-1] - 2 * inner + middles[:-2, 1:-1]
    by[1:-1, 1:-1] = middles[1:-1, 2:] - 2 * inner + middles[1:-1, :-2]
    ends = middles[2:] - middles[:-2]
    mixed[1:-1, 1:-1] = (ends[:, 2:] - ends[:, :-2]) // 4
    # More is a crease in any case; products with squares of change must not pass 2**63.
    most = 4 * PART
    return outwards.clip(-most, most), by.clip(-most, most), mixed.clip(-most, most)


def _curved(
    there: tuple[I64, I64], shown: tuple[I64, I64], deep: tuple[I64, I64, I64], along: tuple[I64, I64, I64]
) -> I64:
    """How much a map curves the straight lines across which there is change.

    Of a line that is shown with the change (p, q) outwards and along the edge, the direction is (-q, p). Its
    curvature is the map's second derivative that way, taken across the line on the face.
    """
    down, across = there
    outwards, by = shown
    of_outwards, of_by, of_mixed = (down * d + across * a for d, a in zip(deep, along, strict=True))
    squares = outwards * outwards + by * by
    second = of_outwards * (by * by) - 2 * of_mixed * (by * outwards) + of_by * (outwards * outwards)
    # Cells are two pixels wide: a fourth of it a pixel, and 32 parts of 1 / 1024 to 1 / 32 of ΔE.
    turned = np.abs(second) // np.maximum(squares, 1) * 8 // PART
    most = whole_root(squares) * 32 * _CREASE // 1024
    curved: I64 = np.minimum(turned, most).max(axis=0)
    return curved


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
    curved : int
        What straight lines are curved by, as `Shown` has it.
    """

    bent: int
    healed: int
    straightened: int
    spared: int
    lost: int
    pressed: int
    curved: int

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
        curved=most(mine.curved),
    )


def _most_over(values: I64, stretch: int) -> int:
    """The greatest mean over a stretch along the edge."""
    stretch = min(max(stretch, 1), len(values))
    sums = np.cumsum(np.concatenate([np.zeros(1, np.int64), values]))
    return max(0, int((sums[stretch:] - sums[:-stretch]).max()) // stretch)


def better_a_mirror(changed: Changed, *, doubts: int = 0) -> bool:
    """Say whether a mirror looks as well as the plan or better.

    What is gained must outweigh what stays bent at the edge, and what was straight and is curved: facades and
    patterns that lie aslant melt where lines part, and ground that is turned back again and again shows its
    creases.

    Parameters
    ----------
    changed : Changed
    doubts : int
        0 to 2: how many signs of streaks there are.

    Returns
    -------
    bool

    Examples
    --------
    >>> nothing = {"healed": 0, "straightened": 0, "lost": 0, "pressed": 0, "bent": 0}
    >>> [better_a_mirror(Changed(spared=30, curved=curved, **nothing)) for curved in (0, 38, 39)]
    [False, False, True]
    """
    gain, bent = changed.gain, changed.bent
    if gain + _MUCH_BENT < 2 * bent:
        return True
    return not any(
        2 * gain >= 2 * least + bent and 16 * gain >= curved * changed.curved
        for least, curved in _ASKED[doubts]
    )
