"""Pixels turned into a printer's values."""

import numpy as np
import pytest

from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.transform import Standard, make_transform
from pycore.colour.link.convert import Converter
from pycore.contract.job import Intent
from pycore.errors import FieldError

from ..conversion import Conversion

OPTIONS: Conversion = {"intent": Intent.RELATIVE, "black_point_compensation": True}


@pytest.mark.parametrize(("name", "channels"), [("illustrative-matte", 3), ("cmyk-v2", 4)])
def test_both_depths_follow_the_engine(profiles: dict[str, bytes], name: str, channels: int) -> None:
    target = parse_profile(profiles[name])
    converter = Converter(Standard.SRGB, target, **OPTIONS)
    assert converter.channels == channels
    pixels = np.random.default_rng(10).integers(0, 256, (40, 50, 3), dtype=np.uint8)
    exact = make_transform(Standard.SRGB, target, **OPTIONS)(pixels.reshape(-1, 3) / 255.0)
    coarse = converter.bytes(pixels).reshape(-1, channels) / 255.0
    fine = converter.words(pixels.astype(np.uint16) * 257).reshape(-1, channels) / 65535.0
    # regression: a table of 49 nodes; half a step of 8 bits is 0.002
    for found in (coarse, fine):
        assert np.abs(found - exact).mean() < 0.003
        assert np.percentile(np.abs(found - exact), 99) < 0.02


def test_white_is_bare_canvas(profiles: dict[str, bytes]) -> None:
    white = np.full((1, 1, 3), 255, dtype=np.uint8)
    converter = Converter(Standard.SRGB, parse_profile(profiles["illustrative-matte"]), **OPTIONS)
    assert converter.bytes(white).tolist() == [[[255, 255, 255]]]
    # derived: a curve of 1024 entries puts L* 100 near a node, to 0.02 of 1 / 1023 of a step of 0.04
    assert converter.words(white.astype(np.uint16) * 257).min() >= 65530


def test_inks_are_no_picture(profiles: dict[str, bytes]) -> None:
    with pytest.raises(FieldError, match="an RGB picture and an RGB or CMYK printer; you gave 4 channels in"):
        Converter(parse_profile(profiles["cmyk-v2"]), parse_profile(profiles["cmyk-v2"]), **OPTIONS)
