"""A profile in figures."""

import pytest

from pycore.colour.gamut.profile_report import profile_report, require_printer
from pycore.colour.icc.profile import parse_profile
from pycore.errors import ProfileError


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


@pytest.mark.parametrize("tables", ["B2A", "A2B"])
def test_one_way_profiles_are_no_printer_s(profiles: dict[str, bytes], tables: str) -> None:
    data = profiles["cmyk-v2"]
    require_printer(parse_profile(data))
    for number in range(3):
        data = data.replace(f"{tables}{number}".encode(), b"xx%02d" % number, 1)
    with pytest.raises(ProfileError, match=tables):
        require_printer(parse_profile(data))
    if tables == "B2A":
        assert profile_report(parse_profile(data)).backward == {}
