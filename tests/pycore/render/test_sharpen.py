"""Output sharpening: stated, modest, and off unless asked for."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray

from pycore.render.sharpen import MOST, passes, sharpen


def _wave(period: float, *, top: int = 255, height: float = 4) -> NDArray[np.float64]:
    x = np.arange(240)
    row = top * (0.5 + height / 255 * np.sin(2 * np.pi * x / period))
    wave: NDArray[np.float64] = np.repeat(row[np.newaxis, :, np.newaxis], 40, axis=0)
    return wave


def test_nothing_is_added_at_amount_0_and_even_areas_stay() -> None:
    noise = np.random.default_rng(1).integers(0, 256, (30, 40, 3), dtype=np.uint8)
    assert (sharpen(noise, amount=0.0, times=8) == noise).all()
    flat = np.full((30, 40, 3), 77, np.uint8)
    assert (sharpen(flat, amount=1.0, times=8) == flat).all()


@pytest.mark.parametrize("period", [4.0, 8.0, 16.0, 40.0])
def test_the_gain_of_each_frequency_is_the_stated_one(period: float) -> None:
    """Derived: 1 2 1 / 4 passes cos(pi f)**2 of a wave; eight times, cos(pi f)**16; the rest is added."""
    wave = _wave(period, top=65535).astype(np.uint16)
    sharp = sharpen(wave, amount=1.0, times=8)[20, 40:-40, 0].astype(float)
    plain = wave[20, 40:-40, 0].astype(float)
    gain = (sharp - plain.mean()) @ (plain - plain.mean()) / ((plain - plain.mean()) ** 2).sum()
    assert gain == pytest.approx(2 - np.cos(np.pi / period) ** 16, abs=0.01)


def test_no_value_moves_by_more_than_the_stated_most_and_no_hue_turns() -> None:
    noise = np.random.default_rng(2).integers(60, 190, (60, 60, 3), dtype=np.uint8)
    change = sharpen(noise, amount=1.0, times=8).astype(int) - noise
    assert np.abs(change).max() == MOST
    assert (change.max(axis=2) - change.min(axis=2)).max() <= 1


def test_an_edge_in_green_alone_counts_by_half() -> None:
    """Derived: detail is that of (red + 2 green + blue) / 4; 40 levels of grey, smoothed once, move by 10."""
    edge = np.full((1, 6, 3), 100, np.uint8)
    edge[..., 1] = np.repeat([100, 140], 3)
    change = sharpen(edge, amount=1.0, times=1).astype(int) - edge
    assert change.tolist() == [[[moved] * 3 for moved in (0, 0, -5, 5, 0, 0)]]


def test_both_depths_agree() -> None:
    noise = np.random.default_rng(3).integers(0, 256, (40, 40, 3), dtype=np.uint8)
    deep = sharpen(noise * np.uint16(257), amount=0.6, times=8)
    assert np.abs(deep / 257 - sharpen(noise, amount=0.6, times=8)).max() <= 0.51


def test_it_spreads_by_the_same_mm_at_every_resolution() -> None:
    """Derived: n times 1 2 1 / 4 is a variance of n / 2 squared pixels."""
    for ppi in (150, 300, 600, 720):
        spread_mm = (passes(ppi / 25.4) / 2) ** 0.5 / (ppi / 25.4)
        assert spread_mm == pytest.approx(0.17, rel=0.1)
