"""The room's light, read off walls that were painted with a known one."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray

from pycore.colour.spaces.srgb import srgb_encode
from pycore.wall.light import MOST_FACTOR, RoomLight, read_light

#: A5 paper, 148 x 210 mm, and a scale of 0.2 pixels a mm.
PAPER_MM = (148.0, 210.0)
SCALE, LEFT_PX, BASE_PX = 0.2, 200.0, 300.0
WALL_TO_PIXELS = np.array([[SCALE, 0, LEFT_PX], [0, -SCALE, BASE_PX], [0, 0, 1]])
PAPER, WALL = np.array([0.62, 0.55, 0.44]), np.array([0.2, 0.22, 0.18])


def _photograph(from_deg: float, per_m: float, *, paper: NDArray[np.float64] = PAPER) -> NDArray[np.uint8]:
    """A wall whose light grows by exp(per_m) a metre towards `from_deg`, clockwise from above."""
    rows, columns = np.mgrid[0:500, 0:600]
    x, y = (columns + 0.5 - LEFT_PX) / SCALE, (BASE_PX - rows - 0.5) / SCALE
    towards = x * np.sin(np.radians(from_deg)) + y * np.cos(np.radians(from_deg))
    linear = WALL * np.exp(per_m * towards / 1000)[..., None]
    is_paper = (x > 0) & (x < PAPER_MM[0]) & (y > 0) & (y < PAPER_MM[1])
    linear[is_paper] = paper
    return np.floor(255 * srgb_encode(np.clip(linear, 0, 1)) + 0.5).astype(np.uint8)


def _read(photograph: NDArray[np.uint8]) -> RoomLight:
    return read_light(
        photograph, WALL_TO_PIXELS, reference_mm=PAPER_MM, centre_mm=(400.0, 100.0), size_mm=(500.0, 400.0)
    )


@pytest.mark.parametrize("from_deg", [20.0, 110.0, 200.0, 290.0])
def test_where_the_light_comes_from_and_how_fast_it_falls(from_deg: float) -> None:
    found = _read(_photograph(from_deg, 0.4))
    assert found.from_deg == pytest.approx(from_deg, abs=2)
    assert np.linalg.norm(found.fall) * 1000 == pytest.approx(0.4, rel=0.03)
    # Derived: half a step of sRGB at 0.44 is 0.003 of linear light.
    assert found.white == pytest.approx(PAPER, abs=0.004)
    assert not found.is_burnt


def test_an_even_wall_tells_no_direction() -> None:
    found = _read(_photograph(90.0, 0.0))
    assert found.from_deg == 0
    assert np.linalg.norm(found.fall) * 1000 < 0.01


def test_a_wall_of_things_tells_no_direction() -> None:
    # Things of every brightness, each as large as 40 mm of the wall: hardly any two tell the same light.
    brightness = np.random.default_rng(4).uniform(0.2, 1.0, (63, 75)).repeat(8, axis=0).repeat(8, axis=1)
    photograph = (_photograph(90.0, 0.4) * brightness[:500, :600, None]).astype(np.uint8)
    found = _read(photograph)
    assert (found.from_deg, found.fall.tolist()) == (0, [0, 0])


def test_paper_that_is_overexposed_tells_no_tint() -> None:
    assert _read(_photograph(0.0, 0.2, paper=np.array([1.0, 0.9, 0.8]))).is_burnt
    outside = read_light(
        _photograph(0.0, 0.2),
        WALL_TO_PIXELS + np.array([[0, 0, 5000], [0, 0, 0], [0, 0, 0]]),
        reference_mm=PAPER_MM,
        centre_mm=(0.0, 0.0),
        size_mm=(10.0, 10.0),
    )
    assert outside.is_burnt
    assert outside.white.tolist() == [1, 1, 1]
    assert outside.fall.tolist() == [0, 0]


def test_a_print_takes_the_papers_tint_and_the_walls_light() -> None:
    """Derived: at the paper's middle the tint alone; a metre to the right exp(0.4) times that.

    Half of it goes by the root; far away it is no more than the limit.
    """
    light = RoomLight(white=PAPER, middle_mm=(74.0, 105.0), fall=np.array([0.0004, 0.0]), is_burnt=False)
    x = np.array([74.0, 1074.0, 74.0 + 1e6, 74.0 - 1e6])
    all_of_it = light.gain(x, np.full(4, 900.0), amount=1.0)
    factors = np.array([1, np.exp(0.4), MOST_FACTOR, 1 / MOST_FACTOR])
    assert all_of_it == pytest.approx(factors[:, None] * PAPER)
    assert light.gain(x, np.full(4, 900.0), amount=0.5) == pytest.approx(np.sqrt(all_of_it))
    assert light.gain(x, np.full(4, 900.0), amount=0.0).tolist() == [[1, 1, 1]] * 4
