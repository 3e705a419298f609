"""Interpolation in tables."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pycore.colour.icc.interpolate import Interpolation, interpolate
from pycore.colour.spaces.arrays import FloatArray


def linear_table(nodes: tuple[int, ...], weights: FloatArray) -> FloatArray:
    axes = np.meshgrid(*[np.linspace(0.0, 1.0, count) for count in nodes], indexing="ij")
    table: FloatArray = np.stack(axes, axis=-1) @ weights
    return table


@pytest.mark.parametrize("method", Interpolation)
@pytest.mark.parametrize("nodes", [(5,), (2, 2, 2), (3, 5, 4), (3, 2, 4, 5)])
def test_straight_tables_are_met_exactly(nodes: tuple[int, ...], method: Interpolation) -> None:
    chance = np.random.default_rng(4)
    weights = chance.normal(size=(len(nodes), 3))
    values = chance.random((300, len(nodes)))
    values[0], values[1] = 0.0, 1.0
    found = interpolate(linear_table(nodes, weights), values, method=method)
    assert np.abs(found - values @ weights).max() < 1e-12


@given(st.lists(st.sampled_from([0.0, 0.25, 0.5, 0.75, 1.0]), min_size=3, max_size=3))
def test_nodes_and_ties(place: list[float]) -> None:
    table = np.random.default_rng(5).random((3, 3, 3, 2))
    on_node = all(one in (0.0, 0.5, 1.0) for one in place)
    values = np.array([place])
    found = interpolate(table, values, method=Interpolation.TETRAHEDRAL)[0]
    if on_node:
        index = tuple(int(2 * one) for one in place)
        assert found.tolist() == pytest.approx(table[index].tolist())
    # A tie lies on the face between two tetrahedra, where both give the same.
    nudged = np.clip(values + np.array([1e-9, 0.0, -1e-9]), 0.0, 1.0)
    other = interpolate(table, nudged, method=Interpolation.TETRAHEDRAL)[0]
    assert np.abs(found - other).max() < 1e-7


def test_the_diagonal_uses_its_ends_alone() -> None:
    # derived: in the middle of the cell the tetrahedra give the mean of the first and the last node
    table = np.zeros((2, 2, 2, 1))
    table[0, 0, 0], table[1, 1, 1] = 1.0, 3.0
    middle = np.full((1, 3), 0.5)
    assert interpolate(table, middle, method=Interpolation.TETRAHEDRAL)[0, 0] == 2.0
    # derived: the box gives the mean of all eight
    assert interpolate(table, middle, method=Interpolation.TRILINEAR)[0, 0] == 0.5


def test_four_inputs_are_joined_along_the_first() -> None:
    table = np.random.default_rng(6).random((2, 3, 3, 3, 1))
    rest = np.random.default_rng(7).random((50, 3))
    low, high = (interpolate(table[end], rest, method=Interpolation.TETRAHEDRAL) for end in (0, 1))
    values = np.concatenate([np.full((50, 1), 0.3), rest], axis=1)
    found = interpolate(table, values, method=Interpolation.TETRAHEDRAL)
    assert np.abs(found - (0.7 * low + 0.3 * high)).max() < 1e-12


def test_values_are_held() -> None:
    table = linear_table((3, 3, 3), np.eye(3))
    found = interpolate(table, np.array([[-2.0, 0.5, 9.0]]), method=Interpolation.TETRAHEDRAL)
    assert found.tolist() == [[0.0, 0.5, 1.0]]
