"""Blues that no light has become blue light; all others stay."""

import numpy as np
import pytest

from pycore.colour.spaces.adapt import rgb_matrix
from pycore.colour.spaces.arrays import FloatArray
from pycore.colour.spaces.ipt import lab_to_lpt
from pycore.colour.spaces.lab import D50_XYZ, chroma_hue, lab_to_xyz, xyz_to_lab
from pycore.colour.spaces.spectral import SPECTRAL_PRIMARIES, as_light
from pycore.colour.spaces.srgb import D65_XY

#: Published: ISO 22028-2 (ROMM RGB), x and y of red, green and blue and of white; its blue is no light.
VERY_WIDE = rgb_matrix(
    primaries=((0.7347, 0.2653), (0.1596, 0.8404), (0.0366, 0.0001)),
    white=(0.3457, 0.3585),
    pcs_white=np.array(D50_XYZ),
)
WIDE = rgb_matrix(primaries=SPECTRAL_PRIMARIES, white=D65_XY, pcs_white=np.array(D50_XYZ))


def hue_deg(lab_d50: FloatArray) -> FloatArray:
    _, hue = chroma_hue(lab_to_lpt(lab_d50))
    return np.degrees(hue) % 360.0


def test_a_blue_that_is_no_light_is_blue() -> None:
    blue = xyz_to_lab(np.array([[0.0, 0.0, 1.0]]) @ VERY_WIDE.T)
    light = as_light(blue)
    # The aim: between azure and violet. derived: what it asks for below nothing is called green, 209 degrees;
    # three spectral lights' own blue has 247.
    assert hue_deg(blue)[0] < 212.0
    assert 235.0 < hue_deg(light)[0] < 260.0
    assert (lab_to_xyz(light) @ np.linalg.inv(WIDE).T).min() > -1e-9


def test_light_stays_as_it_is() -> None:
    chance = np.random.default_rng(18).random((500, 3))
    lab = xyz_to_lab(chance @ WIDE.T)
    assert np.array_equal(as_light(lab), lab)
    # Greens that the three lights do not reach have a hue that formulas tell.
    green = xyz_to_lab(np.array([[0.0, 1.0, 0.0]]) @ VERY_WIDE.T)
    assert np.array_equal(as_light(green), green)


@pytest.mark.parametrize("other", [(0.0, 1.0, 1.0), (1.0, 0.0, 1.0), (1.0, 1.0, 1.0)])
def test_nothing_jumps(other: tuple[float, float, float]) -> None:
    share = np.linspace(0.0, 1.0, 2001)[:, None]
    ramp = xyz_to_lab(((1.0 - share) * [0.0, 0.0, 1.0] + share * np.array(other)) @ VERY_WIDE.T)
    asked, light = (np.linalg.norm(np.diff(one, axis=0), axis=1) for one in (ramp, as_light(ramp)))
    assert (light - asked).max() < 0.5
