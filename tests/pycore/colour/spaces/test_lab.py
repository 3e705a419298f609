"""XYZ and CIELAB."""

import numpy as np
import pytest

from pycore.colour.spaces.lab import D50_XYZ, chroma_hue, lab_to_xyz, xyz_to_lab


def test_there_and_back_also_below_zero() -> None:
    lab_d50 = np.random.default_rng(2).uniform([0, -128, -128], [100, 128, 128], (500, 3))
    assert np.abs(xyz_to_lab(lab_to_xyz(lab_d50)) - lab_d50).max() < 1e-9


def test_the_joint() -> None:
    # published: CIE 15:2018, 8.2.1: Y / Yn = (24 / 116)^3 is L* 8
    y = (24 / 116) ** 3
    assert xyz_to_lab(np.array(D50_XYZ) * y)[0] == pytest.approx(8.0, abs=1e-9)


def test_chroma_and_hue() -> None:
    chroma, hue = chroma_hue(np.array([[50.0, 0.0, 10.0], [50.0, -5.0, 0.0]]))
    assert chroma.tolist() == [10.0, 5.0]
    assert hue.tolist() == pytest.approx([np.pi / 2, np.pi])
