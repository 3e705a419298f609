"""The bars are a closed frame inside the canvas."""

from __future__ import annotations

import numpy as np
import pytest

from pycore.model.bars_mesh import bars_mesh

from .made_model import small_job


def test_the_bars_are_closed_and_face_outwards() -> None:
    mesh = bars_mesh(small_job())
    corners = mesh.positions_mm[mesh.triangles]
    # Derived: the volume inside a closed surface is a sixth of the sum of its triple products. Bars are
    # 140 x 0.22 = 30.8, rounded to 31 wide: (159.8 x 139.8 - 97.8 x 77.8) x 19.8 mm3.
    volume = np.einsum("ij,ij->i", corners[:, 0], np.cross(corners[:, 1], corners[:, 2])).sum() / 6
    assert volume == pytest.approx((159.8 * 139.8 - 97.8 * 77.8) * 19.8, rel=1e-9)
    of_triangles = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    assert np.all(np.einsum("ij,ij->i", of_triangles, mesh.normals[mesh.triangles[:, 0]]) > 0)


def test_wide_faces_have_bars_of_the_usual_width() -> None:
    job = small_job(face={"width_mm": 900, "height_mm": 600})
    inner = np.unique(np.abs(bars_mesh(job).positions_mm[:, 0]).round(6))
    # Derived: 450 less the clearance of 0.1, and 40 further in.
    assert inner.tolist() == [409.9, 449.9]
