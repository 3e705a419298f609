"""What the page draws of a gamut."""

import numpy as np

from pycore.colour.gamut.device_gamut import DeviceGamut
from pycore.colour.icc.transform import Standard
from pycore.colour.mapping.picture_colours import Region, picture_colours
from pycore.colour.mapping.solid import gamut_solid, picture_points
from pycore.contract.job import Intent


def test_the_solid_has_its_colours(gamut: DeviceGamut) -> None:
    solid = gamut_solid(gamut)
    white = int(np.argmax(solid.lab_d50[:, 0]))
    assert np.abs(solid.srgb_encoded[white] - 1.0).max() < 0.01
    assert solid.srgb_encoded.min() >= 0.0
    assert solid.srgb_encoded.max() <= 1.0
    assert solid.triangles.max() == len(solid.lab_d50) - 1


def test_points_keep_what_clips(gamut: DeviceGamut) -> None:
    pixels = np.random.default_rng(1).integers(120, 140, (60, 60, 3), dtype=np.uint8)
    pixels[0, 0] = (255, 0, 255)
    whole = [Region(name="face", left=0, top=0, right=60, bottom=60)]
    points = picture_points(
        picture_colours(pixels, whole),
        Standard.SRGB,
        gamut,
        intent=Intent.RELATIVE,
        black_point_compensation=True,
        most=20,
    )
    assert len(points.share) == 20
    assert np.all(np.diff(points.share) <= 0.0)
    # derived: one vivid pixel of 3600, which no place among the most frequent would have shown
    vivid = np.flatnonzero(points.difference > 2.0)
    assert len(vivid) == 1
    assert np.abs(points.srgb_encoded[vivid[0]] - np.array([1.0, 0.0, 1.0])).max() < 1e-4
    assert points.share[vivid[0]] == 1 / 3600
