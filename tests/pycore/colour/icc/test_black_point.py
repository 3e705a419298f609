"""Black points and their compensation."""

import numpy as np
import pytest

from pycore.colour.icc.black_point import compensation, source_black, target_black
from pycore.colour.icc.profile import parse_profile
from pycore.colour.spaces.lab import D50_XYZ, xyz_to_lab
from pycore.contract.job import Intent


def test_white_stays_and_black_moves() -> None:
    first, second = np.array([0.02, 0.021, 0.017]), np.array([0.001, 0.001, 0.0008])
    stage = compensation(source=first, target=second)
    moved = stage(np.stack([first, np.array(D50_XYZ)]))
    assert np.abs(moved - np.stack([second, np.array(D50_XYZ)])).max() < 1e-12


@pytest.mark.parametrize("intent", [Intent.PERCEPTUAL, Intent.SATURATION])
def test_version_4_tables_share_one_black(profiles: dict[str, bytes], intent: Intent) -> None:
    profile = parse_profile(profiles["curves-lab-v4"])
    # published: ICC.1:2022, annex D: XYZ 0.00336, 0.0034731, 0.00287
    for black in (source_black(profile, intent=intent), target_black(profile, intent=intent)):
        assert black.tolist() == [0.00336, 0.0034731, 0.00287]


def test_a_version_4_matrix_keeps_its_own(profiles: dict[str, bytes]) -> None:
    profile = parse_profile(profiles["matrix-v4"])
    black = source_black(profile, intent=Intent.PERCEPTUAL)
    # derived: blue's curve gives 0.00134 at 0, times its Y of about 0.08
    assert 0.0 < black[1] < 0.0002


def test_blacks_are_neutral_and_never_light(profiles: dict[str, bytes]) -> None:
    for name in ("cmyk-v2", "grey-v2", "illustrative-matte"):
        for find in (source_black, target_black):
            lab_d50 = xyz_to_lab(find(parse_profile(profiles[name]), intent=Intent.RELATIVE))
            assert 0.0 <= lab_d50[0] <= 50.0
            assert np.abs(lab_d50[1:]).max() < 1e-6


def test_the_canvas_black(profiles: dict[str, bytes]) -> None:
    black = target_black(parse_profile(profiles["illustrative-matte"]), intent=Intent.RELATIVE)
    # derived: L* 18.55 under a white of 95.34 is Y 0.02642 / 0.8848 = 0.02986 of it, L* 20.00
    assert xyz_to_lab(black)[0] == pytest.approx(20.00, abs=0.01)
