"""Profiles of published spaces: the standards' colours, by another engine, another library and our own."""

from __future__ import annotations

import io
from pathlib import Path

import numpy as np
import pytest
from PIL import Image, ImageCms

from pycore.colour.icc.endpoints import Standard
from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.standard_profiles import adobe_rgb_profile, srgb_profile
from pycore.colour.icc.transform import make_request
from pycore.colour.spaces.adapt import bradford
from pycore.colour.spaces.arrays import ByteArray
from pycore.colour.spaces.lab import D50_XYZ, xyz_to_lab
from pycore.contract.job import Intent

pytestmark = pytest.mark.native


def _by_littlecms(device: str, mode: str, pixels: ByteArray) -> ByteArray:
    """Pixels in our profile as LittleCMS turns them into its own sRGB."""
    ours = ImageCms.ImageCmsProfile(io.BytesIO(srgb_profile(device)))
    theirs = ImageCms.createProfile("sRGB")
    turn = ImageCms.buildTransform(ours, theirs, mode, "RGB", ImageCms.Intent.RELATIVE_COLORIMETRIC)
    turned = ImageCms.applyTransform(Image.fromarray(pixels), turn)
    assert turned is not None
    found: ByteArray = np.asarray(turned)
    return found


def test_littlecms_leaves_every_grey_and_random_colours_as_they_are() -> None:
    """Reference library: LittleCMS, whose built-in sRGB is made from the same standard."""
    levels = np.arange(256, dtype=np.uint8)[None, :]
    greys = np.repeat(levels[..., None], 3, axis=2)
    colours = np.random.default_rng(5).integers(0, 256, (200, 256, 3), dtype=np.uint8)
    pixels = np.concatenate([greys, colours])
    assert np.array_equal(_by_littlecms("RGB", "RGB", pixels), pixels)
    assert np.array_equal(_by_littlecms("GRAY", "L", levels), greys)


@pytest.mark.parametrize("intent", [Intent.RELATIVE, Intent.PERCEPTUAL, Intent.ABSOLUTE])
def test_our_engine_sees_the_standards_colours_in_it(intent: Intent) -> None:
    colours = np.concatenate([
        np.repeat(np.linspace(0.0, 1.0, 256)[:, None], 3, axis=1),
        np.random.default_rng(6).random((2000, 3)),
    ])  # fmt: skip
    asked = [
        make_request(source, Standard.LAB, intent=intent, black_point_compensation=False)(colours)
        for source in (parse_profile(srgb_profile("RGB")), Standard.SRGB)
    ]
    # Derived: the curve's entries have 16 bits, half a step of which is 7.6e-6 of Y, where Lab rises by 903
    # for each of Y; a* and b* take differences of X, Y and Z, of which each is off by as much.
    assert np.abs(asked[0] - asked[1]).max() < 0.05


def test_adobe_rgb_is_colour_sciences() -> None:
    """Reference library: colour-science's Adobe RGB (1998), its light under its own white.

    Derived: the profile keeps the primaries to 1 / 65536 and the power to 1 / 256, which it is exactly.
    """
    # It takes long to import, which only the process does that runs this test.
    from colour import RGB_COLOURSPACES

    theirs = RGB_COLOURSPACES["Adobe RGB (1998)"]
    colours = np.random.default_rng(7).random((2000, 3))
    to_d50 = bradford(source_white=theirs.matrix_RGB_to_XYZ @ np.ones(3), target_white=np.array(D50_XYZ))
    asked = np.asarray(theirs.cctf_decoding(colours)) @ theirs.matrix_RGB_to_XYZ.T @ to_d50.T
    found = make_request(
        parse_profile(adobe_rgb_profile("RGB")),
        Standard.LAB,
        intent=Intent.RELATIVE,
        black_point_compensation=False,
    )(colours)
    # Regression: colour-science takes Adobe's four digits of the matrix.
    assert np.abs(found - xyz_to_lab(asked)).max() < 0.05


def test_a_photograph_in_adobe_rgb_is_seen_as_by_its_own_profile() -> None:
    """Reference data: scikit-image's `rocket`, which holds a maker's profile of Adobe RGB (1998)."""
    import skimage.data

    with Image.open(Path(skimage.data.__file__).parent / "rocket.jpg") as image:
        own, pixels = image.info["icc_profile"], np.asarray(image)[::8, ::8].reshape(-1, 3) / 255.0
    seen = [
        make_request(
            parse_profile(profile), Standard.LAB, intent=Intent.RELATIVE, black_point_compensation=False
        )(pixels)
        for profile in (own, adobe_rgb_profile("RGB"))
    ]
    assert np.abs(seen[0] - seen[1]).max() < 0.02
