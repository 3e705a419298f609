"""Depths along the edge: even where lines run along it, free where none do."""

from __future__ import annotations

import numpy as np
import pytest

from pycore.fill.continued_even import even_depths, even_shares, lines_shown
from pycore.fill.continued_ground import I32, STEPS, colour_steps
from pycore.fill.continued_plan import plan_continued
from pycore.fill.continued_reach import reach_along

_ROWS, _COLUMNS = 40, 160


def bands() -> I32:
    """Three bands that run along the edge."""
    around = np.zeros((_ROWS, _COLUMNS, 3), np.int32)
    for begin in (8, 18, 28):
        around[begin : begin + 4, :, 0] = 40 * STEPS
    return around


def storeys() -> I32:
    """Lines of a pixel in every third row."""
    around = np.zeros((_ROWS, _COLUMNS, 3), np.int32)
    around[::3, :, 0] = 40 * STEPS
    return around


def two_depths() -> I32:
    return np.repeat(np.array([80, 240], np.int32), _COLUMNS // 2)


def test_depths_differ_where_no_line_is_bent_by_it() -> None:
    nothing = np.zeros((_ROWS, _COLUMNS), np.int32)
    streaks = np.full(_COLUMNS, 2 * STEPS, np.int32)
    free = even_depths(two_depths(), lines_shown(np.zeros_like(bands())), nothing, streaks)
    assert (int(free[4]), int(free[-4])) == (80, 240)
    for around in (bands(), storeys()):
        held = even_depths(two_depths(), lines_shown(around), nothing, streaks)
        # derived: nothing is new, so that the deeper depth costs less than the lines bent.
        assert int(np.ptp(held)) == 0
        assert int(held[0]) > 200


@pytest.mark.parametrize(("begin", "wanted"), [(24, 256), (26, 134)])
def test_a_thing_is_left_out_even_where_lines_must_stay_straight(begin: int, wanted: int) -> None:
    newness = np.zeros((_ROWS, _COLUMNS), np.int32)
    newness[begin:, 40:120] = 60 * STEPS
    depths = np.full(_COLUMNS, 256, np.int32)
    depths[40:120] = wanted
    found = even_depths(depths, lines_shown(bands()), newness, np.full(_COLUMNS, STEPS, np.int32))
    # derived: 24 of 40 rows are 153.6 of 256, 26 are 166.4; a single depth leaves the thing out everywhere.
    assert int(found.max()) <= begin * 256 / _ROWS
    assert int(np.ptp(found)) == 0


def test_shares_are_even_over_lines_alone() -> None:
    wanted = np.repeat(np.array([0, 256], np.int32), _COLUMNS // 2)
    deep = np.full(_COLUMNS, 256, np.int32)
    assert int(np.ptp(even_shares(wanted, lines_shown(np.zeros_like(bands())), deep))) == 256
    assert int(np.ptp(even_shares(wanted, lines_shown(bands()), deep))) == 0


def test_windows_past_an_edge_stay_upright() -> None:
    """A wall with windows under a sky: all columns of the wall look as deep, and go there as fast."""
    wall = np.full((90, 240, 3), (190, 180, 160), np.uint8)
    for row in (6, 16, 26, 36, 46):
        wall[row : row + 5, 60:] = (70, 60, 50)
    wall[:, :50] = (120, 160, 220)
    # Past the wall's far end, at the sky, something else stands further in.
    wall[20:, :30] = (20, 90, 20)
    found = reach_along(colour_steps(wall), np.zeros(240, np.int32), 40)
    for values in (found.deepest, found.way, found.pace):
        assert int(np.ptp(values[80:])) <= 8


@pytest.mark.parametrize("columns", [1, 3, 8, 20])
def test_a_face_narrower_than_its_bars_are_deep_has_a_plan(columns: int) -> None:
    strip = np.arange(60 * columns * 3, dtype=np.int64).reshape(60, columns, 3).astype(np.uint8)
    plan = plan_continued(strip, depth=40)
    # derived: one value to a column; nothing deeper than the side.
    assert [len(one) for one in (plan.slope, plan.deepest, plan.way, plan.pace)] == [columns] * 4
    assert 0 < int(plan.deepest.max()) <= 256
