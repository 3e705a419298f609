"""What clips on a canvas, and how."""

import numpy as np
import pytest

from pycore.colour.gamut.device_gamut import ClipKind, DeviceGamut, clipping, make_device_gamut
from pycore.colour.icc.profile import parse_profile
from pycore.errors import ProfileError


def test_kinds(gamut: DeviceGamut) -> None:
    wanted = np.array(
        [
            [60.0, 0.0, 0.0],  # a grey that any canvas holds
            [55.0, 90.0, 0.0],  # a magenta that none does
            [5.0, 0.0, 0.0],  # darker than matte ink
            [104.0, 0.0, 0.0],  # lighter than the canvas
        ]
    )
    lost = clipping(gamut, wanted)
    assert lost.kind.tolist() == [
        ClipKind.NONE,
        ClipKind.CHROMA,
        ClipKind.SHADOW,
        ClipKind.HIGHLIGHT,
    ]
    assert lost.difference[0] == 0.0
    assert np.all(lost.difference[1:] > 2.0)


def test_the_black_is_that_of_the_profile(gamut: DeviceGamut) -> None:
    # derived: see `test_black_point.py`
    assert gamut.black == pytest.approx(20.00, abs=0.01)


def test_colours_inside_are_kept(gamut: DeviceGamut) -> None:
    device = np.random.default_rng(5).uniform(0.1, 0.9, (2000, 3))
    lab_d50 = gamut.to_lab(device)
    assert clipping(gamut, lab_d50).difference.max() == 0.0
    assert np.linalg.norm(gamut.reproduce(lab_d50) - lab_d50, axis=1).mean() < 0.5


def test_a_profile_with_one_direction_is_no_canvas(profiles: dict[str, bytes]) -> None:
    data = profiles["cmyk-v2"]
    for number, signature in enumerate((b"B2A0", b"B2A1", b"B2A2")):
        data = data.replace(signature, b"xx%02d" % number, 1)
    with pytest.raises(ProfileError) as caught:
        make_device_gamut(parse_profile(data))
    assert caught.value.field == "tag B2A0"
