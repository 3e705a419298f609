"""The sRGB profile for files that have none: the standard's colours, by another engine and by our own."""

from __future__ import annotations

import io

import numpy as np
import pytest
from PIL import Image, ImageCms

from pycore.colour.icc.endpoints import Standard
from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.srgb_profile import srgb_profile
from pycore.colour.icc.transform import make_request
from pycore.colour.spaces.arrays import ByteArray
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
