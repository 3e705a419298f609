"""Lab, CIEDE2000 and adaptation against colour-science, an independent library."""

import importlib
from types import ModuleType

import numpy as np
import pytest

from pycore.colour.spaces.adapt import bradford, xy_to_xyz
from pycore.colour.spaces.ciede2000 import delta_e_2000
from pycore.colour.spaces.lab import D50_XYZ, xyz_to_lab


@pytest.fixture(scope="module")
def colour() -> ModuleType:
    """It takes long to import, which only the process does that runs these tests."""
    return importlib.import_module("colour")


@pytest.mark.native
def test_lab(colour: ModuleType) -> None:
    xyz = np.random.default_rng(1).uniform(0.0, 1.0, (500, 3))
    white = colour.XYZ_to_xy(np.array(D50_XYZ))
    # published: colour-science's CIE 15 formulae, with the same white
    assert np.abs(xyz_to_lab(xyz) - colour.XYZ_to_Lab(xyz, white)).max() < 1e-9


@pytest.mark.native
def test_ciede2000(colour: ModuleType) -> None:
    chance = np.random.default_rng(3)
    first, second = chance.uniform([0, -100, -100], [100, 100, 100], (2, 2000, 3))
    # published: colour-science's ISO/CIE 11664-6
    expected = colour.difference.delta_E_CIE2000(first, second)
    assert np.abs(delta_e_2000(first, second) - expected).max() < 1e-9


@pytest.mark.native
def test_bradford(colour: ModuleType) -> None:
    white = xy_to_xyz((0.3127, 0.3290))
    # published: colour-science's von Kries adaptation with the Bradford matrix
    expected = colour.adaptation.matrix_chromatic_adaptation_VonKries(
        white, np.array(D50_XYZ), transform="Bradford"
    )
    assert np.abs(bradford(source_white=white, target_white=np.array(D50_XYZ)) - expected).max() < 1e-9
