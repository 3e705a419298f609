"""When a plan is held against a mirror: bends healed and made, detail drawn out, things not shown twice."""

from __future__ import annotations

import numpy as np
import pytest

from pycore.fill.continued_ground import I32, I64, STEPS
from pycore.fill.continued_harm import (
    Change,
    bent_at_edge,
    change_of,
    loses_more_than_it_gains,
    shown_past_it,
)
from pycore.fill.continued_plan import plan_continued
from pycore.fill.continued_vectors import ContinuedPlan, mirror_plan
from pycore.fill.facing import U8

_DEPTH = 40
_COLUMNS = 120


def change(lightness: I32) -> Change:
    """Of a strip in ΔE of lightness alone, row 0 at the edge."""
    steps = np.zeros((*lightness.shape, 3), np.int32)
    steps[..., 0] = lightness * STEPS
    return change_of(steps, _DEPTH)


def vector(value: int) -> I32:
    return np.full(_COLUMNS, value, np.int32)


def plan(*, slope: int = 0, deepest: int = 256, pace: int = 256) -> ContinuedPlan:
    deep = vector(deepest)
    return ContinuedPlan(depth=_DEPTH, slope=vector(slope), deepest=deep, way=deep, pace=vector(pace))


ROWS, PLACES = np.mgrid[0:60, 0:_COLUMNS].astype(np.int32)

#: Bands that run inwards to the right, one column a row: outwards their slope is -1.
SLANTED = np.where((PLACES - ROWS) % 24 < 12, 40, 0).astype(np.int32)
#: Two sets of slanted bands, one each way.
CROSSED = np.where(((PLACES - ROWS) % 24 < 12) ^ ((PLACES + ROWS) % 24 < 12), 40, 0).astype(np.int32)


def _mean(values: I64) -> float:
    return float(values[20:-20].mean())


def test_along_slanted_lines_nothing_is_bent_and_across_them_more_than_by_a_mirror() -> None:
    there = change(SLANTED)
    along, upright, across = (
        _mean(bent_at_edge(there, vector(slope), vector(256), depth=_DEPTH)) for slope in (-256, 0, 256)
    )
    # derived: a line of slope n goes on at 2 m - n. A mirror bends one of -1 by a right angle; at m = -1 it
    # goes on as it is. The edge row alone, which has the change of the next, has a rest.
    assert along < upright / 8
    assert across >= upright


def test_a_mirror_loses_nothing_and_calms_nothing() -> None:
    shown = shown_past_it(change(CROSSED), mirror_plan(columns=_COLUMNS, depth=_DEPTH))
    assert np.array_equal(shown.left, shown.there)
    assert np.array_equal(shown.left, shown.mirrored)


@pytest.mark.parametrize("deepest", [64, 128])
def test_what_is_drawn_out_loses_as_much_as_it_gets_longer(deepest: int) -> None:
    """Lines along the edge: drawn out n times their change is an n-th. Posts lose nothing."""
    bars, posts = (np.where(place % 8 < 4, 40, 0).astype(np.int32) for place in (ROWS, PLACES))
    drawn_out = plan(deepest=deepest, pace=deepest)
    shown, beside = shown_past_it(change(bars), drawn_out), shown_past_it(change(posts), drawn_out)
    # derived; a few hundredths are lost to whole numbers.
    assert _mean(shown.left) / _mean(shown.there) == pytest.approx(deepest / 256, abs=0.03)
    assert _mean(beside.left) / _mean(beside.there) == pytest.approx(1, abs=0.03)


def test_a_thing_that_is_not_shown_twice_is_a_gain_and_one_that_is_drawn_out_is_a_loss() -> None:
    thing = np.where((np.abs(ROWS - 20) < 5) & (np.abs(PLACES - 60) < 15), 50, 0).astype(np.int32)
    there = change(thing)
    assert not loses_more_than_it_gains(there, plan(deepest=72))
    # derived: three rows of it in forty are a streak, and a mirror neither loses nor gains.
    assert loses_more_than_it_gains(there, plan(deepest=120))
    assert not loses_more_than_it_gains(there, plan())


def _side(lightness: I32) -> U8:
    """The strip in grey, its last row at the edge."""
    grey = (100 + 2 * lightness[::-1]).astype(np.uint8)
    return np.repeat(grey[..., np.newaxis], 3, axis=2)


def test_a_slanted_band_is_continued() -> None:
    band = np.where(np.abs(PLACES - ROWS - 30) < 6, 30, 0).astype(np.int32)
    one = plan_continued(_side(band), depth=_DEPTH)
    assert -288 < int(one.slope[35:45].mean()) < -192
