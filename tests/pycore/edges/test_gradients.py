"""Gradients and means against their definitions."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pycore.edges.gradients import gradient, local_mean, saturated, square_mean, tensor


def test_the_gradient_of_a_plane_is_its_slope() -> None:
    rows, columns = np.mgrid[0:9, 0:12]
    down, across = gradient((0.5 * rows - 0.25 * columns)[..., np.newaxis])
    # Derived: inside, the kernel is exact on a plane; at an edge half of the step is missing.
    np.testing.assert_allclose(down[1:-1, 1:-1], 0.5, rtol=0, atol=1e-12)
    np.testing.assert_allclose(across[1:-1, 1:-1], -0.25, rtol=0, atol=1e-12)
    np.testing.assert_allclose(down[0, 1:-1], 0.25, rtol=0, atol=1e-12)


def test_channels_are_averaged() -> None:
    one = np.random.default_rng(3).random((12, 17, 1))
    three = np.repeat(one, 3, axis=2)
    np.testing.assert_allclose(tensor(three).energy, tensor(one).energy, atol=1e-15)


@given(st.integers(1, 12), st.integers(0, 15), st.integers(0, 1), st.integers(0, 2**31 - 1))
def test_a_local_mean_is_the_mean_of_what_there_is(size: int, half: int, axis: int, seed: int) -> None:
    values = np.random.default_rng(seed).random((size, 5) if axis == 0 else (5, size))
    found = local_mean(values, half, axis=axis)
    for place in range(size):
        window = values.take(range(max(0, place - half), min(size, place + half + 1)), axis=axis)
        np.testing.assert_allclose(found.take(place, axis=axis), window.mean(axis=axis), atol=1e-12)


def test_a_square_mean_of_a_constant_is_that_constant() -> None:
    np.testing.assert_allclose(square_mean(np.full((7, 9, 3), 0.3), 4), 0.3, atol=1e-12)


def test_saturation_rises_from_0_to_1() -> None:
    found = saturated(np.array([0.0, 0.1, 0.2, 1.0, 1e3]), 0.2)
    assert np.all(np.diff(found) > 0)
    assert found[0] == 0
    assert found[2] == 0.5
    assert found[-1] == pytest.approx(1, abs=1e-6)
