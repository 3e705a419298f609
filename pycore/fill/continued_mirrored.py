"""Where streaks are likely on a continued side: detail would be drawn out, or drawn out and bent at once."""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.fill.continued_ground import I32, STEPS
from pycore.fill.continued_reach import Reach

# Our own figures, set on the photographs that tests name as tuned on.

#: Detail along the lines (ΔE of second difference a pixel) times the share of the depth that is not gone:
#: from here on streaks are seen, and by so much more they are plain.
_STREAKS_FROM: Final = 2.0
_STREAKS_MORE: Final = 1.0

#: How much of a side (1 / 256) must show them before they are worse than what a mirror shows twice; and for
#: each 1 / 256 of slope, whose bends a mirror would show, so many tenths more.
_MOST: Final = 12
_SLANTED: Final = 12

#: The same product in the middle column, when all are put in order: streaks at one end of a side are let be.
_MIDDLE: Final = 1.5

#: A stretch along the edge in which harm counts, as a share of the depth; how much the depth may change from
#: column to column (1 / 256) without bending what is drawn out; and the most that the product of what it
#: changes more and of detail (ΔE), times how many times longer than on the face it is, may be on average.
#: Of the photographs that set it, seven in nineteen of the sides that a person found worse than a mirror have
#: more, and two in sixty-nine of those found better.
_STRETCH: Final = 3
_STEADY: Final = 2
_MOST_BENT: Final = 11

#: What is drawn out counts as no longer than ten times.
_LEAST_WAY: Final = 26


def draws_out_detail(slope: I32, reach: Reach) -> bool:
    """Say whether so much detail would be drawn out that streaks are likely to be seen.

    Parameters
    ----------
    slope : (columns,) int32
        Columns per row outwards, in 1 / 256.
    reach : Reach
        Of the same columns.

    Returns
    -------
    bool

    Examples
    --------
    >>> few, all_of_it, rough = (np.full(200, value, np.int32) for value in (64, 256, 6 * STEPS))
    >>> drawn_out = Reach(deepest=few, way=few, pace=all_of_it, detail=rough)
    >>> draws_out_detail(np.zeros(200, np.int32), drawn_out)
    True
    >>> draws_out_detail(np.full(200, 256, np.int32), drawn_out)
    False
    """
    streaks = reach.detail * (256 - np.minimum(reach.way, 256)) // 256
    plain = np.clip((streaks - int(_STREAKS_FROM * STEPS)) * 256 // int(_STREAKS_MORE * STEPS), 0, 256)
    columns = len(slope)
    slanted = int(np.abs(slope).sum()) // columns
    middle = int(np.sort(streaks)[columns // 2])
    return middle > int(_MIDDLE * STEPS) and int(plain.sum()) // columns > _MOST + slanted * _SLANTED // 10


def bends_what_it_draws_out(reach: Reach, *, depth: int, first: int = 0, second: int | None = None) -> bool:
    """Say whether somewhere along a side detail is drawn out and bent at once.

    A thing beside plain ground has another depth than the ground. Where the depth changes within the thing,
    its parts are drawn out unequally: towers lean, and the tip of an insect becomes a row of blocks.

    Parameters
    ----------
    reach : Reach
        Of the side's columns.
    depth : int
        The side's depth in pixels of the plan.
    first, second : int
        The columns that the face itself has.

    Returns
    -------
    bool

    Examples
    --------
    >>> ramp, rough = np.linspace(40, 240, 40).astype(np.int32), np.full(40, 6 * STEPS, np.int32)
    >>> leaning = Reach(deepest=ramp, way=ramp, pace=ramp, detail=rough)
    >>> bends_what_it_draws_out(leaning, depth=40)
    True
    >>> even = np.full(40, 90, np.int32)
    >>> bends_what_it_draws_out(Reach(deepest=even, way=even, pace=even, detail=rough), depth=40)
    False
    """
    way = np.clip(reach.way, _LEAST_WAY, 256)
    longer = reach.detail.astype(np.int64) * (256 - way) // way
    change = np.abs(np.diff(reach.deepest, append=reach.deepest[-1:]))
    bent = (longer * np.maximum(change - _STEADY, 0))[first:second]
    stretch = min(max(4, depth // _STRETCH), len(bent))
    sums = np.cumsum(np.concatenate([np.zeros(1, np.int64), bent]))
    return int((sums[stretch:] - sums[:-stretch]).max()) > int(_MOST_BENT * STEPS) * stretch
