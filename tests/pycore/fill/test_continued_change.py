"""A plan held against a mirror: what it heals, straightens and spares, and what it draws out and presses."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from pycore.fill.continued_change import Changed, better_a_mirror, changed_by, shown_past_it
from pycore.fill.continued_ground import I32, I64
from pycore.fill.continued_plan import plan_continued
from pycore.fill.continued_vectors import ContinuedPlan, mirror_plan
from pycore.fill.facing import U8

from .test_continued_harm import COLUMNS, DEPTH, change, vector


def plan(*, slope: int = 0, deepest: int = 256, pace: int = 256) -> ContinuedPlan:
    deep = vector(deepest)
    return ContinuedPlan(depth=DEPTH, slope=vector(slope), deepest=deep, way=deep, pace=vector(pace))


ROWS, PLACES = np.mgrid[0:60, 0:COLUMNS].astype(np.int32)

#: Bands that run inwards to the right, one column a row: outwards their slope is -1.
SLANTED = np.where((PLACES - ROWS) % 24 < 12, 40, 0).astype(np.int32)
#: Two sets of slanted bands, one each way.
CROSSED = np.where(((PLACES - ROWS) % 24 < 12) ^ ((PLACES + ROWS) % 24 < 12), 40, 0).astype(np.int32)
#: Something that stands further in, over plain ground.
THING = np.where((np.abs(ROWS - 24) < 6) & (np.abs(PLACES - 60) < 15), 50, 0).astype(np.int32)

MIRROR = mirror_plan(columns=COLUMNS, depth=DEPTH)


def _mean(values: I64) -> float:
    return float(values[10:-10].mean())


def test_a_mirror_gains_and_loses_nothing() -> None:
    for strip in (SLANTED, CROSSED, THING):
        found = changed_by(change(strip), MIRROR)
        assert (found.healed, found.straightened, found.spared) == (0, 0, 0)
        assert (found.lost, found.pressed, found.curved, found.gain) == (0, 0, 0, 0)


@pytest.mark.parametrize("deepest", [64, 128])
def test_what_is_drawn_out_loses_as_much_as_it_gets_longer(deepest: int) -> None:
    """Lines along the edge: drawn out n times their change is an n-th. Posts lose nothing."""
    bars, posts = (np.where(place % 8 < 4, 40, 0).astype(np.int32) for place in (ROWS, PLACES))
    drawn_out = plan(deepest=deepest, pace=deepest)
    shown, beside = shown_past_it(change(bars), drawn_out), shown_past_it(change(posts), drawn_out)
    # derived; a few hundredths are lost to whole numbers.
    assert _mean(shown.lost) / _mean(shown.there) == pytest.approx(1 - deepest / 256, abs=0.03)
    assert _mean(beside.lost) / _mean(beside.there) == pytest.approx(0, abs=0.03)


def test_posts_that_are_drawn_together_are_pressed() -> None:
    posts = np.where(PLACES % 16 < 8, 40, 0).astype(np.int32)
    # Lines that meet outwards: from 1 / 2 at the left to -1 / 2 at the right.
    slope = ((COLUMNS // 2 - np.arange(COLUMNS)) * 256 // COLUMNS).astype(np.int32)
    meeting = dataclasses.replace(MIRROR, slope=slope)
    shown, apart = (
        shown_past_it(change(posts), one) for one in (meeting, dataclasses.replace(MIRROR, slope=-slope))
    )
    # derived: at row a columns lie 1 - a / 120 apart, and 1 + a / 120 inside: with u = a / 120 up to 1 / 3
    # the mean of 2 u / (1 - u) is added, 0.43; of 2 u / (1 + u), 0.27, lost. In the middle none is slanted.
    middle = slice(25, 35)
    assert shown.pressed[middle].sum() / shown.there[middle].sum() == pytest.approx(0.43, abs=0.05)
    assert apart.lost[middle].sum() / apart.there[middle].sum() == pytest.approx(0.27, abs=0.05)
    assert shown.lost[middle].sum() == apart.pressed[middle].sum() == 0


def test_slanted_lines_that_run_on_are_straightened_all_over_the_side() -> None:
    along, across = (changed_by(change(SLANTED), plan(slope=slope)) for slope in (-256, 256))
    assert along.healed > 4 * along.bent
    mirrored = shown_past_it(change(SLANTED), MIRROR)
    # derived: lines at right angles to where they should run are bent in full, lines that run on not at all.
    assert along.straightened == pytest.approx(_mean(mirrored.aslant), rel=0.15)
    assert _mean(mirrored.aslant) == pytest.approx(_mean(mirrored.there), rel=0.1)
    assert across.straightened < along.straightened / 4
    assert not better_a_mirror(along)
    assert better_a_mirror(across)


def test_what_stands_further_in_is_spared_by_a_shallow_plan_and_drawn_out_by_a_deeper_one() -> None:
    there = change(THING)
    shallow, cutting, whole = (changed_by(there, plan(deepest=deepest)) for deepest in (72, 140, 256))
    assert shallow.spared > 2 * max(shallow.lost, 1)
    assert not better_a_mirror(shallow)
    # derived: a few of its rows drawn out are a streak; a mirror neither gains nor loses.
    assert better_a_mirror(cutting)
    assert better_a_mirror(whole)


def test_a_side_that_gains_nothing_is_a_mirror() -> None:
    """Posts: a plan that draws them out loses nothing and gains nothing."""
    posts = np.where(PLACES % 16 < 8, 40, 0).astype(np.int32)
    found = changed_by(change(posts), plan(deepest=128, pace=128))
    assert found.lost < 2
    assert better_a_mirror(found)


@pytest.mark.parametrize("amplitude", [8, 16])
def test_straight_lines_that_become_waves_are_curved(amplitude: int) -> None:
    """Lines along the edge, under depths that change like a sine."""
    bars = np.where(ROWS % 8 < 4, 40, 0).astype(np.int32)
    turn = 2 * np.pi / 60
    deep = (192 + amplitude * np.sin(np.arange(COLUMNS) * turn)).astype(np.int32)
    wavy = ContinuedPlan(depth=DEPTH, slope=vector(0), deepest=deep, way=deep, pace=deep)
    shown = shown_past_it(change(bars), wavy)
    # derived: row a shows the depth a (192 + A sin) / 256. Its second derivative along the edge has the mean
    # 20 A t^2 2 / (256 pi) over the rows and columns. That is what lines turn a pixel; what lies across them
    # is 1 / 32 of ΔE to 32 of 1 / 1024.
    turned = 20 * amplitude * turn**2 * 2 / (256 * np.pi)
    assert _mean(shown.curved) / _mean(shown.there) == pytest.approx(32 * turned, rel=0.25)
    even = shown_past_it(change(bars), plan(deepest=192, pace=192))
    assert _mean(even.curved) == 0


def test_what_stays_bent_and_what_is_curved_ask_for_more() -> None:
    gained = Changed(bent=0, healed=0, straightened=0, spared=24, lost=0, pressed=0, curved=0)
    assert not better_a_mirror(gained)
    assert better_a_mirror(dataclasses.replace(gained, bent=80))
    assert better_a_mirror(dataclasses.replace(gained, curved=40))


def test_where_much_stays_bent_the_gain_must_rise_twice_as_fast() -> None:
    gained = Changed(bent=160, healed=0, straightened=0, spared=60, lost=0, pressed=0, curved=0)
    # derived: a gain of 2 x 60 and 200 are as much as twice 160, and less than twice 161.
    assert not better_a_mirror(gained)
    assert better_a_mirror(dataclasses.replace(gained, bent=161))


def test_where_streaks_are_likely_much_more_is_asked_for() -> None:
    """By one sign of them more, or that little is curved; by both of them that little is curved."""
    gained = Changed(bent=0, healed=0, straightened=0, spared=40, lost=0, pressed=0, curved=0)
    curved = dataclasses.replace(gained, curved=20)
    assert [better_a_mirror(gained, doubts=doubts) for doubts in range(3)] == [False, False, False]
    assert [better_a_mirror(curved, doubts=doubts) for doubts in range(3)] == [False, True, True]
    more = dataclasses.replace(curved, spared=75, curved=26)
    assert [better_a_mirror(more, doubts=doubts) for doubts in range(3)] == [False, False, True]
    assert better_a_mirror(dataclasses.replace(gained, spared=39), doubts=1)


def test_only_the_columns_of_the_face_count() -> None:
    beside = np.where(PLACES < 30, THING[:, ::-1] * 0 + SLANTED, 0).astype(np.int32)
    along = plan(slope=-256)
    assert not better_a_mirror(changed_by(change(beside), along))
    assert better_a_mirror(changed_by(change(beside), along, first=50, second=110))


def _side(lightness: I32) -> U8:
    """The strip in grey, its last row at the edge."""
    grey = (100 + 2 * lightness[::-1]).astype(np.uint8)
    return np.repeat(grey[..., np.newaxis], 3, axis=2)


def _is_mirror(one: ContinuedPlan) -> bool:
    return all(
        np.array_equal(getattr(one, name), getattr(MIRROR, name))
        for name in ("slope", "deepest", "way", "pace")
    )


def test_a_slanted_band_is_continued() -> None:
    band = np.where(np.abs(PLACES - ROWS - 30) < 6, 30, 0).astype(np.int32)
    one = plan_continued(_side(band), depth=DEPTH)
    assert -288 < int(one.slope[35:45].mean()) < -192


def test_ground_that_goes_on_as_well_either_way_is_mirrored() -> None:
    """Regression: soft waves along the edge were drawn out, and nothing was better for it."""
    waves = (6 * np.sin(PLACES / 5.0)).astype(np.int32) + (ROWS // 6).astype(np.int32)
    assert _is_mirror(plan_continued(_side(waves), depth=DEPTH))


def test_a_thing_over_plain_ground_is_not_shown_twice() -> None:
    one = plan_continued(_side(THING), depth=DEPTH)
    assert int(one.deepest[60]) * DEPTH // 256 < 18


@pytest.mark.parametrize("width", [1, 4])
def test_a_pole_before_plain_ground_is_not_shown_twice(width: int) -> None:
    """Regression: what is thin, as a spire, counted too little."""
    pole = np.where((np.abs(PLACES - 60) < width) & (ROWS > 22), 60, 0).astype(np.int32)
    one = plan_continued(_side(pole), depth=DEPTH)
    assert int(one.deepest[60]) * DEPTH // 256 < 22


@pytest.mark.parametrize("seed", [1, 3])
def test_ground_full_of_things_is_mirrored(seed: int) -> None:
    """Regression: pebbles were turned back again and again, into bars and swirls."""
    random = np.random.default_rng(seed)
    rows, places = np.mgrid[0:90, 0:240]
    pebbles = np.zeros((90, 240), np.int32)
    for _ in range(300):
        row, place, lightness = random.integers(0, 90), random.integers(0, 240), random.integers(-40, 60)
        radius = random.integers(3, 6)
        pebbles[(rows - row) ** 2 + (places - place) ** 2 < radius**2] = lightness
    one = plan_continued(_side(pebbles), depth=DEPTH)
    assert int(one.deepest.min()) == int(one.pace.min()) == 256
    assert not one.slope.any()
