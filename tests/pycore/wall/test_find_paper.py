"""The finder on rendered photographs that did not tune it, with shadow, texture, noise, blur and JPEG."""

from __future__ import annotations

import numpy as np
import pytest

from pycore.wall.find_paper import find_paper
from tests.pycore.wall.cameras import A4_MM, scene
from tests.pycore.wall.rooms import Room, render

BOTH = [A4_MM, (A4_MM[1], A4_MM[0])]
SIZE = (1000, 750)


@pytest.mark.parametrize(
    "room",
    [
        Room(seed=1, things=True, texture=0.03, noise=3, blur_px=1.2, quality=80),
        Room(seed=2, wall=(0.2, 0.24, 0.3), gradient=-0.2, shadow=0.3, noise=2, quality=90),
    ],
)
def test_the_corners_are_found_within_a_pixel(room: Room) -> None:
    one = scene(lens_mm=35, yaw_deg=24, pitch_deg=-6, wide_mm=1500, look_at_mm=(300, 200), size_px=SIZE)
    found = find_paper(render(one, room), BOTH, focal_px=None, usual_px=750.0)
    assert found is not None
    assert np.linalg.norm(found.corners_px - one.corners_px, axis=1).max() < 1


def test_a_bare_wall_has_no_paper() -> None:
    one = scene(lens_mm=35, yaw_deg=10, look_at_mm=(9000, 9000), size_px=SIZE)
    photo = render(one, Room(texture=0.03, noise=3))
    assert find_paper(photo, BOTH, focal_px=None, usual_px=750.0) is None
