"""Where the knife passes between two pieces."""

from __future__ import annotations

import pytest

from pycore.plan.cuts import Area, cut_apart


@pytest.mark.parametrize(
    ("gap_mm", "found"),
    # Derived: neighbours share one cut in a gap as wide as the knife. In a wider one it runs along the first
    # piece, and what is left of the gap comes off the second.
    [(2.0, [(101.0, False)]), (10.0, [(101.0, False), (109.0, True)])],
)
def test_the_knife_runs_within_the_gap(gap_mm: float, found: list[tuple[float, bool]]) -> None:
    whole = Area(left_mm=0, top_mm=0, right_mm=200 + gap_mm, bottom_mm=50)
    pieces = [
        Area(left_mm=0, top_mm=0, right_mm=100, bottom_mm=50),
        Area(left_mm=100 + gap_mm, top_mm=0, right_mm=200 + gap_mm, bottom_mm=50),
    ]
    cuts = cut_apart(whole, pieces, knife_mm=2)
    assert cuts is not None
    assert [(cut.start_mm[0], cut.trims) for cut in cuts] == found
