"""The folded canvas measures what the layout says, at the first moment and at the last."""

from __future__ import annotations

import itertools

import numpy as np
import pytest

from pycore.fold.spec import fold_spec
from pycore.layout.flat import flat_sizes
from pycore.layout.grid import pixel_grid
from pycore.model.canvas_mesh import canvas_mesh, outer_size_mm

from .made_model import small_job

#: Derived: layers on the over side at the corner, and on the back's corner: fold by fold, see `bulk_of`.
LAYERS = {
    ("tucked", "whole"): (3, 5),
    ("tucked", "cut-back"): (3, 2),
    ("lapped", "whole"): (3, 5),
    ("lapped", "cut-back"): (3, 2),
    ("trimmed", "whole"): (2, 2),
    ("trimmed", "cut-back"): (2, 2),
}
CASES = list(itertools.product(LAYERS, ("top-bottom", "left-right"), (0.3, 0.45, 0.8)))


@pytest.mark.parametrize(("corner", "over", "thickness"), CASES)
def test_the_folded_canvas_is_face_depth_and_layers(
    corner: tuple[str, str], over: str, thickness: float
) -> None:
    finish, corners = corner
    job = small_job(
        wrap={"finish": finish, "corners": corners, "over": over}, canvas={"thickness_mm": thickness}
    )
    mesh = canvas_mesh(job, pixel_grid(job, ppi=60))
    sides, back = LAYERS[corner]
    wide, high = (1, sides) if over == "top-bottom" else (sides, 1)
    # Derived: face 160 x 140, depth 20; a layer at the front, one on the under pair.
    expected = (160 + 2 * wide * thickness, 140 + 2 * high * thickness, 20 + (1 + back) * thickness)
    folded = mesh.positions_mm[-1]
    assert np.ptp(folded, axis=0) == pytest.approx(expected, abs=1e-4)
    assert outer_size_mm(fold_spec(job)) == pytest.approx(expected, abs=1e-9)
    # The face's outer surface is one thickness before the bars, and the middle of the face is the origin.
    assert folded.max(axis=0) == pytest.approx((expected[0] / 2, expected[1] / 2, thickness), abs=1e-4)
    # Between the under pair the outer surface of the face is the layout's printed face zone.
    face, under = folded[folded[:, 2] > thickness - 1e-4], 0 if over == "top-bottom" else 1
    assert np.ptp(face[:, under]) == pytest.approx(flat_sizes(job).face_zone_mm[under], abs=1e-4)


def test_nothing_turned_over_leaves_the_back_bare() -> None:
    job = small_job(wrap={"turnover_mm": 0, "ink_over_mm": 0})
    mesh = canvas_mesh(job, pixel_grid(job, ppi=60))
    assert np.ptp(mesh.positions_mm[-1], axis=0)[2] == pytest.approx(20.45, abs=1e-4)
    assert outer_size_mm(fold_spec(job))[2] == pytest.approx(20.45)


@pytest.mark.parametrize("finish", ["tucked", "lapped", "trimmed"])
def test_it_starts_flat_and_its_normals_have_length_one(finish: str) -> None:
    job = small_job(wrap={"finish": finish})
    mesh = canvas_mesh(job, pixel_grid(job, ppi=60))
    # Derived: 160 + 2 (20 + 25) by 140 + 2 (20 + 25); the take-up belongs to the outer surface.
    assert np.ptp(mesh.positions_mm[0], axis=0) == pytest.approx((250, 230, 0), abs=1e-4)
    assert mesh.normals[0] == pytest.approx(np.broadcast_to([0, 0, 1], mesh.normals[0].shape), abs=1e-6)
    assert np.linalg.norm(mesh.normals, axis=2) == pytest.approx(1, abs=1e-9)
    assert np.all(np.diff(mesh.at) > 0)
    assert (mesh.at[0], mesh.at[-1]) == (0, 1)


def test_the_normals_of_face_and_sides_look_outwards_when_folded() -> None:
    mesh = canvas_mesh(small_job(), pixel_grid(small_job(), ppi=60))
    folded, normals = mesh.positions_mm[-1], mesh.normals[-1]
    face = np.abs(normals[:, 2] - 1) < 1e-9
    assert face.sum() >= 4
    assert folded[face][:, 2] == pytest.approx(0.45, abs=1e-4)
    # The under side lies in one plane, one thickness out, and looks right.
    right = np.abs(normals[:, 0] - 1) < 1e-6
    assert right.sum() >= 4
    assert folded[right][:, 0] == pytest.approx(80.45, abs=1e-3)
