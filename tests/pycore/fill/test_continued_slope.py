"""Slopes of drawn lines, and of what has no direction."""

from __future__ import annotations

import numpy as np
import pytest

from pycore.fill.continued_ground import I32, colour_steps
from pycore.fill.continued_harm import change_of
from pycore.fill.continued_slope import calm_along, line_gains, slopes_along
from pycore.fill.facing import U8

_DEPTH = 40


def found(strip: U8) -> I32:
    """Slopes in 1 / 256."""
    steps = colour_steps(strip)
    return slopes_along(line_gains(steps, _DEPTH), calm_along(change_of(steps, _DEPTH)))


def lines(slope: float, *, columns: int = 200, apart: int = 25) -> U8:
    """Dark bars, 6 columns wide at right angles to the edge, that run outwards with a slope."""
    rows, places = np.mgrid[0:60, 0:columns]
    at = (places + slope * rows) % apart
    # Between a bar and the ground lies one mixed pixel, as in a picture.
    cover = np.clip(3.5 - np.abs(at - apart / 2), 0, 1)
    grey = (180 - 40 * cover).astype(np.uint8)
    return np.repeat(grey[..., np.newaxis], 3, axis=2)


@pytest.mark.parametrize("slope", [-1.5, -1.0, -0.5, -0.25, 0.0, 0.25, 0.75, 1.5])
def test_straight_lines_have_their_slope(slope: float) -> None:
    # derived: candidates lie a sixteenth apart; the middle of the strip is free of its ends.
    middle = found(lines(slope))[90:110] / 256
    assert np.abs(middle - slope).max() <= 1 / 16


@pytest.mark.parametrize("slope", [-2.5, 2.5])
def test_steep_lines_are_found_where_the_strip_holds_them(slope: float) -> None:
    # derived: such a line needs 90 columns to one side and so is whole in the farther half alone.
    wide = found(lines(slope, columns=400))
    inner = wide[180:220] / 256
    assert np.abs(inner - slope).max() <= 1 / 8


def test_reflected_lines_have_the_opposite_slope() -> None:
    strip = lines(0.5)
    one, other = found(strip)[80:120], found(np.ascontiguousarray(strip[:, ::-1]))[80:120]
    assert np.abs(one + other[::-1]).max() <= 16


def test_lines_along_the_edge_and_plain_ground_are_upright() -> None:
    plain = np.full((60, 120, 3), 90, np.uint8)
    planks = np.repeat((np.arange(60) // 8 % 2 * 90).astype(np.uint8), 120 * 3).reshape(60, 120, 3)
    assert not found(plain).any()
    assert not found(planks).any()


def test_texture_without_a_direction_stays_near_upright() -> None:
    # regression: noise of the demo's own generator; half is more than a tenth of what lines are given.
    noise = np.random.Generator(np.random.PCG64(3)).integers(60, 200, (60, 240, 1), np.uint8)
    assert np.abs(found(np.repeat(noise, 3, axis=2))[40:200]).max() <= 128


def test_one_plain_line_holds_against_much_texture() -> None:
    rows, places = np.mgrid[0:60, 0:240]
    noise = np.random.Generator(np.random.PCG64(4)).integers(-6, 7, (60, 240))
    horizon = np.where(places < 120, 200, 90) + noise
    slanted = horizon + np.where(places > 150, ((places + rows) // 3 % 2) * 14, 0)
    strip = np.repeat(np.clip(slanted, 0, 255).astype(np.uint8)[..., np.newaxis], 3, axis=2)
    # derived: a line across the edge is straight past it; a sixteenth is the step between candidates.
    assert np.abs(found(strip)[118:122]).max() <= 16


@pytest.mark.parametrize("slope", [-2.0, -1.25, 1.25, 2.0])
def test_one_line_over_plain_ground_runs_on_as_it_comes(slope: float) -> None:
    """A contrail, a kerb or a beam: the ground beside it may lean with it, since nothing shows that."""
    # regression: without calm ground it had none of its slope at 2 and two thirds at 1.25: a chevron.
    at = 150 if slope > 0 else 250
    strip = lines(slope, columns=400, apart=400)
    strip = np.roll(strip, at - 200, axis=1)
    middle = found(strip)[at - 2 : at + 3] / 256
    assert np.abs(middle).min() > 0.7 * abs(slope)
    assert np.abs(middle - slope).max() < 0.3 * abs(slope)


def test_calm_is_what_neither_lines_nor_texture_cross() -> None:
    noise = np.random.Generator(np.random.PCG64(5)).integers(60, 200, (60, 240, 1), np.uint8)
    half = np.repeat(noise, 3, axis=2)
    half[:, :120] = 120
    calm = calm_along(change_of(colour_steps(half), _DEPTH))
    assert (calm[:115] == 256).all()
    assert calm[125:].mean() < 64


def test_lines_never_cross_within_the_side() -> None:
    rows, places = np.mgrid[0:60, 0:160]
    towards = np.where(places < 80, places - rows, places + rows)
    strip = np.repeat(((towards // 5) % 2 * 160).astype(np.uint8)[..., np.newaxis], 3, axis=2)
    reached = np.arange(160) * 256 + found(strip) * _DEPTH
    assert (np.diff(reached) > 0).all()
