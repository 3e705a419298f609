"""Where a side is a mirror after all: streaks on most of it, and lines that stand upright."""

from __future__ import annotations

import numpy as np
import pytest

from pycore.fill.continued_ground import STEPS
from pycore.fill.continued_mirrored import better_mirrored
from pycore.fill.continued_reach import Reach


def reach(*, detail: float, way: float, columns: int = 120) -> Reach:
    """The same all along: detail in ΔE, the way as a share of the depth."""
    whole = np.full(columns, 256, np.int32)
    gone = np.full(columns, int(way * 256), np.int32)
    return Reach(deepest=gone, way=gone, pace=whole, detail=np.full(columns, int(detail * STEPS), np.int32))


@pytest.mark.parametrize(
    ("detail", "way", "slope", "expected"),
    [
        # derived: 8 ΔE times 1 - 0.25 is 6, over 2 by more than 1: streaks all along.
        (8, 0.25, 0, True),
        (8, 0.25, 128, True),
        # derived: 12 + 1.2 times a slope of 1, which is 256, is more than all of it.
        (8, 0.25, 256, False),
        # derived: 8 times 1 - 0.9 is 0.8; 1.5 times 1 - 0.25 is 1.1: no streaks.
        (8, 0.9, 0, False),
        (1.5, 0.25, 0, False),
    ],
)
def test_what_decides(detail: float, way: float, slope: int, expected: bool) -> None:
    found = better_mirrored(np.full(120, slope, np.int32), reach(detail=detail, way=way))
    assert found is expected


def test_streaks_at_one_end_are_let_be() -> None:
    few, none = reach(detail=8, way=0.25, columns=50), reach(detail=8, way=1.0, columns=70)
    both = Reach(
        deepest=np.concatenate([few.deepest, none.deepest]),
        way=np.concatenate([few.way, none.way]),
        pace=np.concatenate([few.pace, none.pace]),
        detail=np.concatenate([few.detail, none.detail]),
    )
    assert not better_mirrored(np.zeros(120, np.int32), both)
