"""A profile in figures."""

import pytest

from pycore.colour.gamut.profile_report import profile_report
from pycore.colour.icc.profile import parse_profile


def test_the_canvas(profiles: dict[str, bytes]) -> None:
    report = profile_report(parse_profile(profiles["illustrative-matte"]))
    assert (report.kind, report.version, report.device, report.channels, report.pcs) == (
        "a printer's",
        "2.4",
        "RGB",
        3,
        "Lab",
    )
    # regression: what the illustrative profile's script makes
    assert report.white_lab == pytest.approx((95.34, -0.51, 1.51), abs=0.005)
    assert report.black_lab[0] == pytest.approx(18.55, abs=0.005)
    assert report.forward["absolute"] == "A2B1"
    assert report.backward["perceptual"] == "B2A0"


def test_a_display_before_its_adaptation(profiles: dict[str, bytes]) -> None:
    report = profile_report(parse_profile(profiles["matrix-v4"]))
    assert report.white_lab == pytest.approx((100.0, 0.0, 0.0), abs=0.005)
    # derived: D65 (XYZ 0.9505, 1, 1.0888) under D50: b* = 200 (1 - cbrt(1.0888 / 0.8249)) = -19.4
    assert report.device_white_lab[2] == pytest.approx(-19.4, abs=0.05)
    assert set(report.forward.values()) == {"matrix"}


def test_grey_has_no_volume(profiles: dict[str, bytes]) -> None:
    report = profile_report(parse_profile(profiles["grey-v2"]))
    assert (report.gamut_volume, report.channels) == (0.0, 1)
    assert set(report.backward.values()) == {"grey curve"}


def test_one_way_profiles_have_no_way_back(profiles: dict[str, bytes]) -> None:
    data = profiles["cmyk-v2"]
    for number, signature in enumerate((b"B2A0", b"B2A1", b"B2A2")):
        data = data.replace(signature, b"xx%02d" % number, 1)
    assert profile_report(parse_profile(data)).backward == {}
