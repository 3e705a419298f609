"""What is laid over a side's reflected picture."""

from __future__ import annotations

import numpy as np

from pycore.conventions import Side
from pycore.fill.facing import facing
from pycore.fill.overlay import Overlay, fade_weights, shown_light
from pycore.fill.softness import ONE
from pycore.layout.grid import pixel_grid
from pycore.picture.tones import tones

from ..worked import worked_job

_GRID = pixel_grid(worked_job(), ppi=25.4)


def _side(value: int) -> tuple[np.ndarray[tuple[int, ...], np.dtype[np.uint8]], Side]:
    return np.full((_GRID.height_px, _GRID.width_px, 1), value, np.uint8), Side.RIGHT


def test_a_fade_begins_with_none_and_ends_with_all() -> None:
    """Derived: 3 t**2 - 2 t**3 is 1/2 in the middle; t is at pixel centres, 38 of them to the back edge."""
    canvas, name = _side(0)
    side = facing(canvas, _GRID, name)
    weights = fade_weights(side)
    assert weights[0] < 0.001 * ONE
    assert (weights[side.depth :] == ONE).all()
    assert (np.diff(weights.astype(np.int64)) >= 0).all()
    half = side.depth // 2
    t = (half + 0.5) / side.depth
    assert abs(int(weights[half]) - ONE * t * t * (3 - 2 * t)) <= 0.5


def test_plain_needs_nothing_of_the_picture() -> None:
    canvas, name = _side(50)
    side = facing(canvas, _GRID, name)
    overlay = Overlay(radius=0.0, colour=[np.uint16(1234)], weights=np.full(side.reach, ONE, np.uint32))
    assert overlay.is_plain
    light = shown_light(side, overlay, channel=0, tones=tones(None, channels=1))
    assert light.shape == (side.reach, side.along[3] - side.along[0])
    assert (light == 1234).all()


def test_a_fade_mixes_in_linear_light() -> None:
    canvas, name = _side(0)
    side = facing(canvas, _GRID, name)
    weights = fade_weights(side)
    overlay = Overlay(radius=0.0, colour=[np.uint16(65535)], weights=weights)
    assert not overlay.is_plain
    light = shown_light(side, overlay, channel=0, tones=tones(None, channels=1))
    assert np.abs(light[:, 0].astype(np.int64) - weights.astype(np.int64) * 65535 / ONE).max() <= 0.5
