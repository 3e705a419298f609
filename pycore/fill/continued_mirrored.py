"""Where a continued side is better a mirror: upright ground whose detail would be drawn out into streaks."""

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


def better_mirrored(slope: I32, reach: Reach) -> bool:
    """Say whether a plain mirror looks better than the side.

    A side is mirrored as a whole: where a mirror turned into streaks along an edge, both would show.

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
    >>> better_mirrored(np.zeros(200, np.int32), drawn_out)
    True
    >>> better_mirrored(np.full(200, 256, np.int32), drawn_out)
    False
    """
    streaks = reach.detail * (256 - np.minimum(reach.way, 256)) // 256
    plain = np.clip((streaks - int(_STREAKS_FROM * STEPS)) * 256 // int(_STREAKS_MORE * STEPS), 0, 256)
    columns = len(slope)
    slanted = int(np.abs(slope).sum()) // columns
    middle = int(np.sort(streaks)[columns // 2])
    return middle > int(_MIDDLE * STEPS) and int(plain.sum()) // columns > _MOST + slanted * _SLANTED // 10
