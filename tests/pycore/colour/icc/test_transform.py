"""The engine against LittleCMS in floating point, and what it refuses."""

import hashlib
import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.transform import Standard, make_request, make_return, make_transform
from pycore.colour.spaces.ciede2000 import delta_e_2000
from pycore.contract.job import Intent
from pycore.errors import FieldError

from ..conversion import Conversion

REFERENCE = json.loads((Path(__file__).parents[1] / "data" / "littlecms_reference.json").read_text())

#: LittleCMS forces black point compensation on the perceptual and saturation intents of version 4 targets:
#: then its answer without compensation is that with it.
FORCED = {"curves-lab-v4.icc", "curves-xyz-v4.icc", "matrix-v4.icc"}

#: LittleCMS leaves a compensation out where it would change XYZ by less than 0.002 in all: the target's black
#: is then taken for the source's. The engine applies it, up to this much of full scale and of dE00.
LEFT_OUT = {
    ("matrix-v4.icc", "perceptual"),
    ("matrix-v4.icc", "relative"),
    ("matrix-v4.icc", "saturation"),
    ("illustrative-matte.icc", "perceptual"),
    ("illustrative-matte.icc", "saturation"),
}


def cases() -> list[Any]:
    return [
        pytest.param(name, answer, id=f"{name}-{answer['intent']}-{answer['compensated']}")
        for name, stored in REFERENCE["profiles"].items()
        for answer in stored["answers"]
    ]


@pytest.mark.parametrize(("name", "answer"), cases())
def test_littlecms(profiles: dict[str, bytes], name: str, answer: dict[str, Any]) -> None:
    stored = REFERENCE["profiles"][name]
    data = profiles[name.removesuffix(".icc")]
    assert hashlib.sha256(data).hexdigest() == stored["sha256"]
    profile = parse_profile(data)
    intent = Intent(answer["intent"])
    device, lab_d50 = np.array(stored["device"]), np.array(stored["lab"])
    # published: LittleCMS 2.14, `transicc -c0`; it rounds tables to 16 bits and prints four decimals
    to_lab = make_transform(
        profile, Standard.LAB, intent=intent, black_point_compensation=answer["compensated"]
    )
    left_out = answer["compensated"] and (name, answer["intent"]) in LEFT_OUT
    assert delta_e_2000(to_lab(device), np.array(answer["lab"])).max() < (0.1 if left_out else 0.03)
    forced = name in FORCED and intent in {Intent.PERCEPTUAL, Intent.SATURATION}
    to_device = make_transform(
        Standard.LAB, profile, intent=intent, black_point_compensation=answer["compensated"] or forced
    )
    apart = np.abs(to_device(lab_d50) - np.array(answer["device"])).max()
    assert apart < (0.008 if left_out or (forced and name == "matrix-v4.icc") else 0.0007)


@pytest.mark.parametrize("name", ["matrix-v4", "grey-v2", "cmyk-v2", "illustrative-matte"])
def test_white_is_white_and_paper_is_paper(profiles: dict[str, bytes], name: str) -> None:
    profile = parse_profile(profiles[name])
    channels = {"matrix-v4": 3, "grey-v2": 1, "cmyk-v2": 4, "illustrative-matte": 3}[name]
    white = np.zeros((1, 4)) if channels == 4 else np.ones((1, channels))
    relative = make_transform(profile, Standard.LAB, intent=Intent.RELATIVE, black_point_compensation=False)(
        white
    )
    # derived: the media white is L* 100, a* = b* = 0 by definition; 16-bit tables round it by up to 0.002
    assert np.abs(relative - np.array([100.0, 0.0, 0.0])).max() < 0.005


def test_srgb_red() -> None:
    transform = make_transform(
        Standard.SRGB, Standard.LAB, intent=Intent.RELATIVE, black_point_compensation=False
    )
    # published: CSS Color 4, section 10: lab(54.29 80.80 69.89) is sRGB red; half of its last digit, and the
    # rounding of its D65 white
    assert np.abs(transform(np.array([[1.0, 0.0, 0.0]]))[0] - np.array([54.29, 80.80, 69.89])).max() < 0.02


@pytest.mark.parametrize("intent", [Intent.RELATIVE, Intent.ABSOLUTE])
@pytest.mark.parametrize("compensated", [False, True])
def test_a_request_leads_back(profiles: dict[str, bytes], intent: Intent, compensated: bool) -> None:
    canvas = parse_profile(profiles["illustrative-matte"])
    options: Conversion = {"intent": intent, "black_point_compensation": compensated}
    rgb = np.random.default_rng(8).random((200, 3))
    for source in (Standard.SRGB, parse_profile(profiles["matrix-v4"])):
        there = make_request(source, canvas, **options)
        back = make_return(source, canvas, **options)
        assert np.abs(back(there(rgb)) - rgb).max() < 1e-6


def test_colours_of_another_shape_are_refused() -> None:
    transform = make_transform(
        Standard.SRGB, Standard.LAB, intent=Intent.RELATIVE, black_point_compensation=False
    )
    with pytest.raises(FieldError, match="rows of 3 numbers"):
        transform(np.zeros((5, 4)))
    with pytest.raises(FieldError, match="finite numbers"):
        transform(np.array([[0.0, np.nan, 1.0]]))
