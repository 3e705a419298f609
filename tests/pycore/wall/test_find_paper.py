"""The finder on rendered photographs that did not tune it, with shadow, texture, noise, blur and JPEG."""

from __future__ import annotations

import numpy as np
import pytest
from PIL import Image

from tests.pycore.wall.cameras import scene
from tests.pycore.wall.measure_finder import SIZE_PX, WITHIN_PX, farthest_px, found_corners, room_of, tell
from tests.pycore.wall.rooms import Room, render

#: tests/parity finds that a sheet is found at the same place inside Pyodide.
pytestmark = pytest.mark.once

SIZE = (1000, 750)


@pytest.mark.parametrize(
    "room",
    [
        Room(seed=1, things=True, texture=0.03, noise=3, blur_px=1.2, quality=80),
        Room(seed=2, wall=(0.2, 0.24, 0.3), gradient=-0.2, shadow=0.3, noise=2, quality=90),
        # A hard shadow across the sheet makes its dark half as dark as the light wall.
        Room(seed=4, wall=(0.52, 0.57, 0.55), shadow=0.5, stripes=0.25, things=True, noise=2, quality=80),
    ],
)
def test_the_corners_are_found_within_a_pixel(room: Room) -> None:
    one = scene(lens_mm=35, yaw_deg=24, pitch_deg=-6, wide_mm=1500, look_at_mm=(300, 200), size_px=SIZE)
    off = farthest_px(found_corners(render(one, room)), one)
    assert off is not None
    assert off < 1


def test_a_bare_wall_has_no_paper() -> None:
    one = scene(lens_mm=35, yaw_deg=10, look_at_mm=(9000, 9000), size_px=SIZE)
    photo = render(one, Room(texture=0.03, noise=3))
    assert found_corners(photo) is None


@pytest.mark.parametrize("shadow", [0.0, 0.5])
def test_stripes_and_shadows_are_no_paper(shadow: float) -> None:
    """They run on over the wall, and out of the photograph."""
    one = scene(lens_mm=40, yaw_deg=-30, pitch_deg=40, look_at_mm=(600, 3000), wide_mm=1500, size_px=SIZE)
    photo = render(one, Room(stripes=0.25, shadow=shadow, noise=2, quality=80))
    assert found_corners(photo) is None


def test_a_joint_beside_the_edge_makes_nothing_found_rather_than_a_wrong_corner() -> None:
    """As light as the sheet, of another colour, and slanted against its edge."""
    one = scene(lens_mm=35, yaw_deg=10, wide_mm=1200, look_at_mm=(300, 200), size_px=SIZE)
    pixels = np.asarray(render(one, Room(wall=(0.3, 0.12, 0.08), light=(1, 1, 1)))).copy()
    y, x = np.mgrid[: SIZE[1], : SIZE[0]]
    (right, top), (lower_right, bottom) = one.corners_px[1], one.corners_px[2]
    edge = right + (lower_right - right) * (y - top) / (bottom - top)
    joint = (x > edge) & (x < edge + 10 * (y - top) / (bottom - top)) & (y > top) & (y < bottom)
    assert found_corners(Image.fromarray(pixels)) is not None
    paper = pixels[int(one.corners_px[:, 1].mean()), int(one.corners_px[:, 0].mean())]
    pixels[joint] = paper + np.array([20, 0, -75])
    off = farthest_px(found_corners(Image.fromarray(pixels)), one)
    assert off is None or off < 1


def test_the_measure_counts_what_it_sees(capsys: pytest.CaptureFixture[str]) -> None:
    tell("rooms", [0.2, 3.0, 700.0, None])
    assert capsys.readouterr().out == (
        "rooms: of 4 found within 1 pixel 1, within 5 1, wrong by far 1, not found 1; median 3.00 pixels\n"
    )
    seen = room_of(1000)
    assert seen is not None
    corners = seen[0].corners_px
    assert (corners > WITHIN_PX).all()
    assert (corners < np.array(SIZE_PX) - WITHIN_PX).all()
