"""L* with the opponent pair of IPT."""

import numpy as np

from pycore.colour.icc.transform import Standard, make_transform
from pycore.colour.spaces.ipt import lab_to_lpt, lpt_to_lab
from pycore.contract.job import Intent


def test_there_and_back() -> None:
    to_lab = make_transform(
        Standard.DISPLAY_P3, Standard.LAB, intent=Intent.RELATIVE, black_point_compensation=False
    )
    lab_d50 = to_lab(np.random.default_rng(41).random((3000, 3)))
    assert np.abs(lpt_to_lab(lab_to_lpt(lab_d50)) - lab_d50).max() < 1e-8


def test_greys_have_no_hue() -> None:
    greys = np.zeros((101, 3))
    greys[:, 0] = np.arange(101)
    assert np.abs(lab_to_lpt(greys) - greys).max() < 1e-9


def test_lightness_is_cielab_s() -> None:
    lab_d50 = np.array([[30.0, 20.0, -60.0], [70.0, -50.0, 40.0]])
    lpt = lab_to_lpt(lab_d50)
    assert lpt[:, 0].tolist() == [30.0, 70.0]
    paler = lpt * np.array([1.0, 0.5, 0.5])
    assert np.array_equal(lpt_to_lab(paler)[:, 0], lab_d50[:, 0])


def test_blue_does_not_turn_purple() -> None:
    """On its way to grey blue leaves CIELAB's line of one hue on the side away from purple."""
    to_lab = make_transform(
        Standard.SRGB, Standard.LAB, intent=Intent.RELATIVE, black_point_compensation=False
    )
    blue = to_lab(np.array([[0.0, 0.0, 1.0]]))
    half = lpt_to_lab(lab_to_lpt(blue) * np.array([1.0, 0.5, 0.5]))
    hue = [float(np.degrees(np.arctan2(one[0, 2], one[0, 1]))) for one in (blue, half)]
    # regression: from 301 to 281 degrees. Purple would be the other way
    assert -25.0 < hue[1] - hue[0] < -8.0
