"""Pixels brought in within their own space."""

import numpy as np
import pytest

from pycore.colour.gamut.device_gamut import DeviceGamut
from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.standard_profiles import adobe_rgb_profile
from pycore.colour.icc.transform import make_return
from pycore.colour.link.proof import clip_request
from pycore.colour.mapping.bring_in import fit_bring_in
from pycore.colour.mapping.picture_colours import Region, picture_colours
from pycore.contract.job import Intent

from ..bringer import bringer
from ..conversion import Conversion

#: tests/parity finds such numbers to be the same inside Pyodide.
pytestmark = pytest.mark.once


def test_where_a_power_of_light_begins_nothing_stands_out(gamut: DeviceGamut) -> None:
    """Of a space whose light is a power of its codes, the lowest are no light at all: what moves is alike."""
    space = parse_profile(adobe_rgb_profile("RGB"))
    options: Conversion = {"intent": Intent.RELATIVE, "black_point_compensation": True}
    ramp = np.zeros((1, 400, 3), np.uint16)
    ramp[0, :, 0] = np.arange(400) * 16
    ramp[0, :, 1] = 65535
    whole = [Region(name="face", left=0, top=0, right=400, bottom=1)]
    colours = picture_colours((ramp >> 8).astype(np.uint8), whole)
    bring_in = fit_bring_in(colours, space, gamut, **options, threshold_de=2.0, strength=1.0)
    wanted = clip_request(space, gamut, **options)(ramp[0] / 65535.0)
    exact = make_return(space, gamut.profile, **options)(bring_in(wanted)) * 255.0
    moved = bringer(bring_in, space, gamut, **options)(ramp)[0] / 257.0
    assert exact[0, 0] > 60.0
    # The aim: half a level of 8 bits, between nodes, too. With light between the nodes it is 4.
    assert np.abs(moved - exact).max() < 0.5
