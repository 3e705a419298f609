"""The picture as it would go round each side: which part of it, on which pixels."""

from __future__ import annotations

import io
from typing import Any

import numpy as np
import pytest
from PIL import Image

from pycore.conventions import Side
from pycore.edges.run_on import RunOnSide
from pycore.fill.continued_ground import colour_steps
from pycore.picture.read import read_picture
from pycore.render.preview import PreviewSource
from pycore.render.run_on_sides import run_on_sides

from ..worked import worked_job


def sides(tree: dict[str, Any], *, width_px: int, height_px: int) -> list[dict[Side, RunOnSide]]:
    """Of a picture whose red rises to the right and whose green rises downwards, from 0 to 255."""
    y, x = np.mgrid[0:height_px, 0:width_px]
    pixels = np.stack([255 * (x + 0.5) / width_px, 255 * (y + 0.5) / height_px, np.zeros_like(x)], axis=-1)
    file = io.BytesIO()
    Image.fromarray(pixels.astype(np.uint8)).save(file, "PNG")
    plans = PreviewSource(read_picture(file.getvalue(), file="ramp.png")).plans
    return run_on_sides(plans, worked_job(**{"canvas": {"thickness_mm": 0}, **tree}))


def share_on_side(side: RunOnSide) -> float:
    return side.depth_px / len(side.steps)


def test_a_picture_of_the_face_s_shape_gives_what_runs_on() -> None:
    (found,) = sides({}, width_px=800, height_px=600)
    # Derived: run on at the left, 438 x 300 mm, of which 38 lie on the side; half a pixel of 40 either way.
    assert share_on_side(found[Side.LEFT]) == pytest.approx(38 / 438, abs=0.5 / 400)
    assert share_on_side(found[Side.RIGHT]) == pytest.approx(38 / 438, abs=0.5 / 400)
    assert share_on_side(found[Side.TOP]) == pytest.approx(38 / 338, abs=0.5 / 300)
    assert share_on_side(found[Side.BOTTOM]) == pytest.approx(38 / 338, abs=0.5 / 300)
    assert 30 <= found[Side.LEFT].depth_px <= 45


def test_rows_go_inwards_from_the_far_end() -> None:
    (found,) = sides({}, width_px=800, height_px=600)
    # Derived: a 4:3 picture at the left's 438 x 300 mm is used in all of its width.
    left, right = (colour_steps(np.array([[[red, 127, 0]]], np.uint8))[0, 0, 1] for red in (0, 255))
    half = 40 * 16
    assert abs(found[Side.LEFT].steps[0, :, 1].mean() - left) < half
    assert abs(found[Side.RIGHT].steps[0, :, 1].mean() - right) < half
    assert found[Side.TOP].steps[0, :, 0].mean() < found[Side.TOP].steps[-1, :, 0].mean()
    assert found[Side.BOTTOM].steps[0, :, 0].mean() > found[Side.BOTTOM].steps[-1, :, 0].mean()


def test_what_lies_beyond_the_face_goes_round() -> None:
    # Derived: 16:9 over 4:3 has over 38 mm to spare across: 300 mm are all of its height, 438 of its 533 are
    # shown. The window begins 47.7 mm into the picture, which is 0.0893 of it, 22.8 of 255.
    (found,) = sides({}, width_px=960, height_px=540)
    reds = found[Side.LEFT].steps[0, :, 1] / 16
    # A row half-way down has its own green: the difference of red and green counts 92 / 256 a step.
    middle = reds[len(reds) // 2] * 16 * 16 / 92 + 127.5
    assert middle == pytest.approx(22.8, abs=2)


def test_sides_that_run_on_are_neighbours_of_corner_squares() -> None:
    (alone,), (all_,) = (
        sides(tree, width_px=800, height_px=600) for tree in ({}, {"sides": {"fill": "run-on"}})
    )
    assert (alone[Side.TOP].begin, alone[Side.TOP].end) == (0, alone[Side.TOP].steps.shape[1])
    # Derived: 476 x 376 mm, of which 38 are on each side.
    top = all_[Side.TOP]
    assert top.begin / top.steps.shape[1] == pytest.approx(38 / 476, abs=0.5 / 300)
    assert share_on_side(top) == pytest.approx(38 / 376, abs=0.5 / 300)
    assert {one.usual_change for one in all_.values()} == {top.usual_change}


def test_a_side_s_own_fill_moves_nothing_of_it() -> None:
    (plain,), (run_on,) = (
        sides({"sides": {"top": {"fill": fill}}}, width_px=900, height_px=700)
        for fill in ("mirror", "run-on")
    )
    assert np.array_equal(plain[Side.TOP].steps, run_on[Side.TOP].steps)
    assert plain[Side.TOP].depth_px == run_on[Side.TOP].depth_px


def test_each_panel_of_a_group_has_its_own() -> None:
    first, second = sides({"group": {"panels": 2, "gap_mm": 30}}, width_px=1660, height_px=600)
    # Derived: with left sides that run on, each panel shows 438 mm of the plane, the second its neighbour's.
    assert share_on_side(first[Side.LEFT]) == pytest.approx(38 / 438, abs=0.5 / 400)
    assert share_on_side(second[Side.LEFT]) == pytest.approx(38 / 438, abs=0.5 / 400)
    assert first[Side.LEFT].steps[..., 1].mean() < second[Side.LEFT].steps[..., 1].mean()
