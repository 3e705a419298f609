"""The illustrative canvas: plausible, consistent, and open to other engines."""

import io

import numpy as np
import pytest
from PIL import ImageCms

from pycore.colour.gamut.device_gamut import DeviceGamut
from pycore.colour.gamut.profile_report import require_printer
from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.white import media_white
from pycore.colour.illustrative.profile import illustrative_profile
from pycore.colour.spaces.ciede2000 import delta_e_2000
from pycore.colour.spaces.lab import xyz_to_lab


def test_it_is_a_printers(gamut: DeviceGamut) -> None:
    require_printer(gamut.profile)
    assert {"A2B0", "A2B1", "A2B2", "B2A0", "B2A1", "B2A2", "gamt"} <= set(gamut.profile.tags)
    assert len(illustrative_profile()) < 1_000_000


def test_white_and_black(gamut: DeviceGamut) -> None:
    # common practice (from memory): matte canvas is about L* 95 white and 18 to 22 black
    assert xyz_to_lab(media_white(gamut.profile))[0] == pytest.approx(95.0, abs=0.5)
    assert 18.0 < gamut.black < 22.0


def test_round_trip(gamut: DeviceGamut) -> None:
    device = np.random.default_rng(7).random((5000, 3))
    lab_d50 = gamut.to_lab(device)
    apart = delta_e_2000(lab_d50, gamut.reproduce(lab_d50))
    assert apart.mean() < 1.0
    assert np.percentile(apart, 95) < 1.0


def test_greys_are_even_and_neutral(gamut: DeviceGamut) -> None:
    ramp = gamut.to_lab(np.repeat(np.linspace(0.0, 1.0, 33)[:, None], 3, axis=1))
    steps = np.diff(ramp[:, 0])
    # derived: 80 units of L* in 32 steps are 2.5 each
    assert np.abs(steps - 2.5).max() < 0.15
    # Under the warm white of the canvas the black is a little blue, as measured blacks are (from memory).
    assert np.abs(ramp[:, 1:]).max() < 0.7


@pytest.mark.native
def test_littlecms_opens_it() -> None:
    opened = ImageCms.ImageCmsProfile(io.BytesIO(illustrative_profile()))
    assert "invented, not measured" in ImageCms.getProfileDescription(opened)
    for intent in ImageCms.Intent:
        assert ImageCms.isIntentSupported(opened, intent, ImageCms.Direction.OUTPUT) == 1
        assert ImageCms.isIntentSupported(opened, intent, ImageCms.Direction.INPUT) == 1


def test_it_is_version_2() -> None:
    assert parse_profile(illustrative_profile()).header.version == (2, 4)
