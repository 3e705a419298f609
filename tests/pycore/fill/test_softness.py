"""The growing blur, against a direct sum over Gaussians."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pycore.fill.softness import ONE, level_variance, mix, soften

F64 = npt.NDArray[np.float64]


def _direct(light: F64, *, radius: float, depth: int) -> F64:
    """Row by row a Gaussian of radius * (row + 1/2) / depth pixels on a band reflected at all borders."""
    rows, columns = light.shape
    result = np.empty_like(light)
    for row in range(rows):
        deviation = radius * (row + 0.5) / depth
        reach = int(np.ceil(4 * deviation)) + 1
        offsets = np.arange(-reach, reach + 1)
        kernel = np.exp(-0.5 * (offsets / deviation) ** 2)
        kernel /= kernel.sum()
        across = np.pad(light, ((reach, reach), (0, 0)), mode="symmetric")
        line = (across[row : row + 2 * reach + 1] * kernel[:, np.newaxis]).sum(axis=0)
        result[row] = np.convolve(np.pad(line, reach, mode="symmetric"), kernel, mode="valid")
    assert result.shape == (rows, columns)
    return result


def _soft(light: F64, *, radius: float, depth: int) -> F64:
    whole = np.floor(light * 65535 + 0.5).astype(np.uint16)
    return soften(whole, radius=radius, depth=depth).astype(np.float64) / 65535


@pytest.mark.parametrize("radius", [2.0, 6.0, 20.0])
@pytest.mark.parametrize("at", [0.31, 0.5])
def test_an_edge_along_the_side(radius: float, at: float) -> None:
    """Regression: 0.046 bounds the error for a step from 0 to 1, 0.03 where the blur is over 1.5 pixels wide.

    It comes from mixing two blurs half an octave apart, and from their lattices. Without any blur it would
    be 0.5.
    """
    light = np.zeros((44, 160))
    light[:, int(160 * at) :] = 1.0
    error = np.abs(_soft(light, radius=radius, depth=38) - _direct(light, radius=radius, depth=38))
    assert error.max() < 0.046
    assert error.mean() < 0.004
    wide = radius * (np.arange(44) + 0.5) / 38 > 1.5
    assert error[wide].max(initial=0.0) < 0.03


@pytest.mark.parametrize("radius", [2.0, 6.0])
def test_an_edge_across_the_side(radius: float) -> None:
    """Regression: as above."""
    light = np.zeros((44, 32))
    light[20:] = 1.0
    error = np.abs(_soft(light, radius=radius, depth=38) - _direct(light, radius=radius, depth=38))
    assert error.max() < 0.046


def test_noise_is_calmed_as_much_as_by_the_direct_sum() -> None:
    """Derived: the deviation that is left of noise falls as 1 / radius.

    So a radius wrong by a tenth would differ by a tenth; within 4 %, away from the outer end.
    """
    light = np.random.default_rng(5).random((40, 4000))
    soft, direct = (blur(light, radius=8.0, depth=40) for blur in (_soft, _direct))
    for row in (5, 15, 25):
        assert soft[row].std() == pytest.approx(direct[row].std(), rel=0.04)


def test_nothing_is_blurred_at_the_edge() -> None:
    """Derived: 0.5 / 38 of a radius of 2 pixels is 0.026 pixels.

    That is a share of 0.026 ** 2 / 0.5 = 0.0014 of the first smoothing, which moves a value by less than 1.
    """
    light = np.random.default_rng(6).random((44, 100))
    assert np.abs(_soft(light, radius=2.0, depth=38)[0] - light[0]).max() < 0.0014


@settings(max_examples=40, deadline=None)
@given(
    st.integers(1, 70), st.integers(1, 70), st.floats(0.01, 400), st.integers(1, 60), st.integers(0, 65535)
)
def test_one_colour_stays_itself(rows: int, columns: int, radius: float, depth: int, value: int) -> None:
    band = np.full((rows, columns), value, np.uint16)
    assert (soften(band, radius=radius, depth=depth) == value).all()


@settings(max_examples=40, deadline=None)
@given(st.integers(1, 50), st.integers(1, 50), st.floats(0.1, 60), st.integers(0, 10))
def test_no_value_leaves_the_pictures_range(rows: int, columns: int, radius: float, seed: int) -> None:
    band = np.random.default_rng(seed).integers(1000, 30_000, (rows, columns)).astype(np.uint16)
    soft = soften(band, radius=radius, depth=max(1, rows - 3))
    assert soft.shape == band.shape
    assert band.min() <= soft.min()
    assert soft.max() <= band.max()


@pytest.mark.parametrize("columns", [100, 101])
def test_in_floating_point_it_is_the_same_but_for_rounding(columns: int) -> None:
    """Derived: four levels of two halvings, two doublings, a smoothing and a mixture.

    Each rounds by half a value at most, and none of them enlarges what the others left: 4 * 6 / 2 = 12.
    """
    band = np.random.default_rng(9).integers(0, 65536, (44, columns)).astype(np.uint16)
    whole = soften(band, radius=6.0, depth=38).astype(np.float64)
    fine = soften(band.astype(np.float32), radius=6.0, depth=38)
    assert fine.dtype == np.float32
    assert np.abs(fine - whole).max() <= 12


def test_turned_round_along_the_side_it_is_the_same() -> None:
    """Derived: every kernel is symmetric; where the length is a power of two the lattices are as well."""
    band = np.random.default_rng(8).integers(0, 65536, (30, 128)).astype(np.uint16)
    there = soften(band, radius=5.0, depth=30)
    assert (soften(band[:, ::-1], radius=5.0, depth=30)[:, ::-1] == there).all()


def _soften_row(line: npt.NDArray[np.uint16], deviation: float) -> F64:
    """Blur a single row, whose centre lies half a pixel from the front edge, by a given deviation."""
    row: F64 = soften(line, radius=2 * deviation, depth=1)[0].astype(np.float64)
    return row


def test_levels_have_the_variance_that_is_said() -> None:
    """Derived: a single line blurred by one level alone; its second moment is the level's variance."""
    line = np.zeros((1, 256), np.uint16)
    line[:, 128] = 60_000
    place = np.arange(256)
    for level in (1, 2, 3):
        # A radius at which every row is of that level: one row, half a pixel from the front edge.
        deviation = level_variance(level) ** 0.5
        moments = []
        for shift in range(2**level):
            soft = _soften_row(np.roll(line, shift, axis=1), deviation)
            mean = (soft * place).sum() / soft.sum()
            moments.append((soft * (place - mean) ** 2).sum() / soft.sum())
        assert np.mean(moments) == pytest.approx(level_variance(level), rel=0.02)


def test_mixing_ends_exactly_at_both_ends() -> None:
    every = np.arange(65536, dtype=np.uint16)
    other = every[::-1].copy()
    assert (mix(every, other, np.uint32(0)) == every).all()
    assert (mix(every, other, np.uint32(ONE)) == other).all()
    assert (mix(every, every, np.uint32(12345)) == every).all()
    fine = every.astype(np.float32)
    assert (mix(fine, fine[::-1], np.uint32(0)) == fine).all()
    assert (mix(fine, fine[::-1], np.uint32(ONE)) == fine[::-1]).all()
