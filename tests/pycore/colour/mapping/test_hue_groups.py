"""Colours gathered by hue."""

from typing import Any

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from pycore.colour.mapping.hue_groups import GREY_CHROMA, MOST_GROUPS, hue_groups, hue_name
from pycore.colour.spaces.arrays import FloatArray


def at_hues(degrees: NDArray[np.floating[Any]], chroma: float = 50.0) -> FloatArray:
    angle = np.radians(degrees)
    return np.stack([np.full_like(angle, 50.0), chroma * np.cos(angle), chroma * np.sin(angle)], axis=1)


def test_two_clouds_are_two_groups() -> None:
    degrees = np.concatenate([np.linspace(20, 40, 50), np.linspace(250, 280, 100)])
    labels = hue_groups(at_hues(degrees), np.ones(150))
    # derived: the larger cloud comes first
    assert set(labels[:50].tolist()) == {2}
    assert set(labels[50:].tolist()) == {1}


def test_a_cloud_across_the_end_of_the_circle_is_one() -> None:
    labels = hue_groups(at_hues(np.linspace(-15, 15, 60) % 360), np.ones(60))
    assert set(labels.tolist()) == {1}


def test_greys_stand_apart() -> None:
    lab_d50 = np.concatenate([at_hues(np.full(5, 100.0)), at_hues(np.full(3, 100.0), GREY_CHROMA / 2)])
    assert hue_groups(lab_d50, np.ones(8)).tolist() == [1] * 5 + [2] * 3


def test_what_weighs_nothing_is_left_out() -> None:
    assert hue_groups(at_hues(np.array([0.0, 90.0])), np.array([0.0, 1.0])).tolist() == [0, 1]
    assert hue_groups(at_hues(np.array([0.0, 90.0])), np.zeros(2)).tolist() == [0, 0]


@given(st.integers(0, 2**32 - 1), st.integers(1, 300))
def test_never_too_many(seed: int, count: int) -> None:
    chance = np.random.default_rng(seed)
    lab_d50 = chance.uniform([0, -80, -80], [100, 80, 80], (count, 3))
    weights = chance.integers(0, 3, count).astype(float)
    labels = hue_groups(lab_d50, weights)
    assert labels.max() <= MOST_GROUPS
    assert np.array_equal(labels > 0, weights > 0)
    totals = np.bincount(labels, weights=weights)[1:]
    assert np.all(np.diff(totals) <= 1e-9)


def test_the_two_clouds_with_the_shallowest_gap_are_one_group() -> None:
    # derived: one cloud too many. Cells of 5 degrees are smoothed by 10: 40 degrees apart even clouds fall to
    # a quarter of their height between them, 30 degrees apart to two thirds, however light they are.
    degrees = np.array([0.0, 40.0, 80.0, 120.0, 160.0, 200.0, 240.0, 285.0, 315.0]) + 2.5
    labels = hue_groups(at_hues(degrees), np.array([9.0] * 7 + [1.0, 1.0]))
    assert len(degrees) == MOST_GROUPS + 1
    assert labels[7] == labels[8]
    assert len(set(labels.tolist())) == MOST_GROUPS


def test_names() -> None:
    # derived from the table: sRGB's red lies at 41 degrees, its green at 134, its blue at 302
    assert [hue_name(one) for one in (41.0, 134.0, 302.0, -60.0, 359.9)] == [
        "red",
        "green",
        "violet",
        "violet",
        "magenta",
    ]
