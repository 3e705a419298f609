"""The drawing that stands for the 3D view: its face is the picture, its sides are the canvas's own."""

from __future__ import annotations

import io

import numpy as np
from PIL import Image

from pycore.client.offer import Offer, make_offer
from pycore.client.still import draw_still, room_for
from pycore.progress import run_to_end
from pycore.proofing.profile_store import ProfileStore

from .made_page import preview, variants

#: srgb_encoded; see the module under test.
WALL = (229, 220, 205)


def offer() -> Offer:
    plain = {"sides": {"fill": "plain", "colour": "#00ff00"}}
    return run_to_end(
        make_offer(variants(plain, {**plain, "bars": {"depth_mm": 40}}), preview(), ProfileStore())
    )


def test_face_right_side_and_top_are_drawn() -> None:
    made = offer()
    drawn = draw_still(made.variants[0], made.textures[0], room=room_for([one.job for one in made.variants]))
    pixels = np.asarray(Image.open(io.BytesIO(drawn))).astype(int)
    assert np.abs(pixels[2, 2] - WALL).max() <= 3
    green = (pixels[..., 1] - pixels[..., 0] > 40) & (pixels[..., 1] - pixels[..., 2] > 40)
    rows, columns = np.nonzero(green)
    # Derived: 760 px for 160.9 mm x 1.2 is 3.936 px a mm; the right side is 20 x 0.45 mm = 35 px across, as
    # high as the face, 472 px; the top side 20 x 0.22 mm = 17 px high. JPEG blurs their edges by a few.
    middle = rows[columns == columns.max() - 18]
    # In the middle of its breadth the top side, 8 px high there, stands above it.
    assert abs((middle.max() - middle.min() + 1) - (472 + 8)) <= 4
    across = columns[rows == rows.min() + 8]
    assert abs((across.max() - across.min() + 1) - (630 + 18)) <= 20
    # The canvas's black holds the ramp's dark end up, so only the rest of it rises.
    face = pixels[rows.max() - 200, columns.min() + 260 : columns.min() + 620]
    assert np.all(np.diff(face[::40, 0]) > 5), "the ramp runs across the face"


def test_a_deeper_canvas_has_broader_sides_at_the_same_scale() -> None:
    made = offer()
    areas, sizes = [], []
    for one in made.variants:
        drawn = draw_still(one, made.textures[one.texture], room=room_for([one.job for one in made.variants]))
        pixels = np.asarray(Image.open(io.BytesIO(drawn))).astype(int)
        sizes.append(pixels.shape)
        areas.append(np.count_nonzero(pixels[..., 1] - pixels[..., 0] > 40))
    assert sizes[0] == sizes[1]
    # Derived: both sides are twice as deep; the parallelograms' areas are their depth times the face's edge.
    assert abs(areas[1] / areas[0] - 2) < 0.15


def test_the_panels_of_a_group_hang_apart() -> None:
    job = {"sides": {"fill": "plain", "colour": "#00ff00"}, "group": {"panels": 3, "gap_mm": 40}}
    made = run_to_end(make_offer(variants(job), preview(960, 240), ProfileStore()))
    drawn = draw_still(made.variants[0], made.textures[0], room=room_for([made.variants[0].job]))
    pixels = np.asarray(Image.open(io.BytesIO(drawn))).astype(int)
    green = (pixels[..., 1] - pixels[..., 0] > 40) & (pixels[..., 1] - pixels[..., 2] > 40)
    # In the middle row only the right sides are green: one run of pixels for each panel.
    row = green[len(green) // 2]
    assert np.count_nonzero(np.diff(row.astype(int)) == 1) == 3
