"""What clips in a picture, where and how."""

import numpy as np
import pytest

from pycore.colour.gamut.device_gamut import DeviceGamut
from pycore.colour.icc.transform import Standard
from pycore.colour.mapping.clip_report import ClipReport, clip_report
from pycore.colour.mapping.picture_colours import Region, picture_colours
from pycore.contract.job import Intent
from pycore.speech.choice import speaking

#: Greys that the canvas holds, with a red patch on the face and a blue strip along the right side.
PIXELS = np.full((60, 100, 3), 140, dtype=np.uint8)
PIXELS[10:20, 20:40] = (230, 20, 20)
PIXELS[:, 95:] = (20, 20, 240)
REGIONS = [
    Region(name="face", left=10, top=10, right=90, bottom=50),
    Region(name="right", left=90, top=10, right=100, bottom=50),
    Region(name="left", left=0, top=10, right=10, bottom=50),
]


def report(gamut: DeviceGamut, *, compensated: bool = True, threshold_de: float = 2.0) -> ClipReport:
    return clip_report(
        PIXELS,
        picture_colours(PIXELS, REGIONS),
        Standard.SRGB,
        gamut,
        intent=Intent.RELATIVE,
        black_point_compensation=compensated,
        threshold_de=threshold_de,
    )


def test_shares_of_each_part(gamut: DeviceGamut) -> None:
    face, right, left = report(gamut).regions
    # derived: 10 x 20 of 80 x 40 pixels, half of the right side, nothing on the left
    assert face.name == "face"
    assert face.share == pytest.approx(200 / 3200)
    assert right.share == pytest.approx(0.5)
    assert (left.share, left.mean_de, left.worst_de) == (0.0, 0.0, 0.0)
    for part in (face, right):
        assert part.share == pytest.approx(part.chroma + part.shadow + part.highlight)
        assert part.chroma == part.share
        assert part.mean_de == pytest.approx(part.worst_de)


def test_groups(gamut: DeviceGamut) -> None:
    found = report(gamut)
    # derived: both patches are 200 pixels of 4000
    assert sorted(one.name for one in found.groups) == ["red", "violet"]
    red = next(one for one in found.groups if one.name == "red")
    assert red.share == pytest.approx(200 / 4000)
    assert red.filed == "#e61414"
    assert red.printed != red.filed
    assert red.place == pytest.approx((0.21, 10 / 60, 0.18, 10 / 60), abs=0.011)
    assert found.labels.max() == 2


def test_groups_are_named_in_german(gamut: DeviceGamut) -> None:
    dark = np.full((10, 10, 3), 140, dtype=np.uint8)
    dark[:5] = (96, 0, 0)
    dark[5:] = (0, 255, 255)
    with speaking("de"):
        found = clip_report(
            dark,
            picture_colours(dark, [Region(name="face", left=0, top=0, right=10, bottom=10)]),
            Standard.SRGB,
            gamut,
            intent=Intent.RELATIVE,
            black_point_compensation=True,
            threshold_de=2.0,
        )
    # Derived: sRGB puts the two at L* 18 and 91, at hues of 38 and 196 degrees.
    assert sorted(str(one.name) for one in found.groups) == ["dunkles Rot", "helles Cyan"]


def test_the_threshold_counts(gamut: DeviceGamut) -> None:
    assert all(one.share == 0.0 for one in report(gamut, threshold_de=50.0).regions)
    assert report(gamut, threshold_de=50.0).groups == ()


def test_shadows(gamut: DeviceGamut) -> None:
    dark = np.full((10, 10, 3), 5, dtype=np.uint8)
    for compensated, share in ((False, 1.0), (True, 0.0)):
        found = clip_report(
            dark,
            picture_colours(dark, [Region(name="face", left=0, top=0, right=10, bottom=10)]),
            Standard.SRGB,
            gamut,
            intent=Intent.RELATIVE,
            black_point_compensation=compensated,
            threshold_de=2.0,
        )
        # derived: L* 1.4 lies below the canvas's 20, unless black is compensated for
        assert found.regions[0].shadow == share
