"""Where streaks are likely: on most of a side, and on lines that stand upright or are bent by it."""

from __future__ import annotations

import numpy as np
import pytest

from pycore.fill.continued_ground import STEPS
from pycore.fill.continued_mirrored import bends_what_it_draws_out, draws_out_detail
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
    found = draws_out_detail(np.full(120, slope, np.int32), reach(detail=detail, way=way))
    assert found is expected


def test_streaks_at_one_end_are_let_be() -> None:
    few, none = reach(detail=8, way=0.25, columns=50), reach(detail=8, way=1.0, columns=70)
    both = Reach(
        deepest=np.concatenate([few.deepest, none.deepest]),
        way=np.concatenate([few.way, none.way]),
        pace=np.concatenate([few.pace, none.pace]),
        detail=np.concatenate([few.detail, none.detail]),
    )
    assert not draws_out_detail(np.zeros(120, np.int32), both)


@pytest.mark.parametrize(
    ("detail", "low", "high", "first", "expected"),
    [
        # derived: at a way of 1/4 detail is 3 times longer, 8 x 3 = 24 ΔE, and each column changes by
        # (0.5 - 0.25) x 256 / 13 = 4.9, of which 2 are free: over 48, four times what is borne.
        (8, 0.25, 0.5, 0, True),
        # derived: 1 x 3 x 2.9 = 8.7 at the most.
        (1, 0.25, 0.5, 0, False),
        # derived: no change, or one that is free.
        (8, 0.25, 0.25, 0, False),
        (8, 0.25, 0.3, 0, False),
        # derived: the change lies past the face's own columns.
        (8, 0.25, 0.5, 80, False),
    ],
)
def test_what_is_drawn_out_and_bent(
    detail: float, low: float, high: float, first: int, *, expected: bool
) -> None:
    """A ramp of 13 columns, a third of the depth of 40, from one depth to another."""
    ramp = np.linspace(low * 256, high * 256, 14).astype(np.int32)
    deep = np.concatenate([np.full(50, ramp[0]), ramp, np.full(56, ramp[-1])]).astype(np.int32)
    side = Reach(deepest=deep, way=deep, pace=deep, detail=np.full(120, int(detail * STEPS), np.int32))
    assert bends_what_it_draws_out(side, depth=40, first=first, second=120) is expected
