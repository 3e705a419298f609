"""A picture's own colours on the screen."""

from datetime import date

import numpy as np
import pytest

from pycore.colour.icc.header import ProfileClass
from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.transform import Standard, make_transform
from pycore.colour.icc.write_profile import write_profile
from pycore.colour.icc.write_tags import xyz_tag
from pycore.colour.link.display import display_map, to_srgb_pixels
from pycore.colour.spaces.adapt import rgb_matrix
from pycore.colour.spaces.arrays import ByteArray, FloatArray
from pycore.colour.spaces.lab import D50_XYZ
from pycore.contract.job import Intent
from pycore.errors import FieldError, ProfileError

from ..make_profiles import parametric_tag


def exact(profile: bytes, pixels: ByteArray) -> FloatArray:
    transform = make_transform(
        parse_profile(profile), Standard.SRGB, intent=Intent.RELATIVE, black_point_compensation=True
    )
    return transform(pixels.reshape(-1, pixels.shape[-1]) / 255.0).reshape(*pixels.shape[:2], 3) * 255.0


def test_srgb_needs_no_table() -> None:
    assert display_map(None) is None


def test_a_wide_space_is_turned_into_srgb(profiles: dict[str, bytes]) -> None:
    to_srgb = display_map(profiles["matrix-v4"])
    assert to_srgb is not None
    pixels = np.random.default_rng(2).integers(0, 256, (50, 60, 3), dtype=np.uint8)
    shown = to_srgb.to_bytes(pixels, row=0, column=0)
    apart = np.abs(shown - exact(profiles["matrix-v4"], pixels))
    # derived: half a step is rounding; the table adds a few tenths where sRGB ends in the darks
    assert apart.mean() < 0.27
    assert apart.max() < 1.0
    assert np.array_equal(to_srgb_pixels(pixels, profile=profiles["matrix-v4"]), shown)


def test_darks_of_a_linear_space() -> None:
    """Light itself as values: the first few of 255 hold all of the shadows."""
    matrix = rgb_matrix(
        primaries=((0.64, 0.33), (0.3, 0.6), (0.15, 0.06)), white=(0.3127, 0.329), pcs_white=np.array(D50_XYZ)
    )
    tags = {f"{one}XYZ": xyz_tag(matrix[:, place].tolist()) for place, one in enumerate("rgb")}
    tags |= {f"{one}TRC": parametric_tag([1.0]) for one in "rgb"} | {"wtpt": xyz_tag(D50_XYZ)}
    linear = write_profile(
        version=(4, 4),
        profile_class=ProfileClass.DISPLAY,
        device="RGB",
        pcs="XYZ",
        made=date(2031, 4, 30),
        tags=tags,
    )
    to_srgb = display_map(linear)
    assert to_srgb is not None
    pixels = np.random.default_rng(8).integers(0, 12, (50, 60, 3), dtype=np.uint8)
    shown = to_srgb.to_bytes(pixels, row=0, column=0)
    # derived: half a step is rounding
    assert np.abs(shown - exact(linear, pixels)).max() < 0.6


def test_inks_and_grey(profiles: dict[str, bytes]) -> None:
    for name, channels in (("cmyk-v2", 4), ("grey-v2", 1)):
        pixels = np.random.default_rng(3).integers(0, 256, (40, 50, channels), dtype=np.uint8)
        pixels[0, 0], pixels[0, 1] = 0, 255
        apart = np.abs(to_srgb_pixels(pixels, profile=profiles[name]) - exact(profiles[name], pixels))
        # regression: at most 25 nodes for each ink, the profile's own among them; half a step is rounding
        assert apart.mean() < 0.3
        assert np.percentile(apart, 99) < 1.0


@pytest.mark.once  # the test above makes the same table inside Pyodide
def test_white_paper_is_white(profiles: dict[str, bytes]) -> None:
    paper = to_srgb_pixels(np.zeros((1, 1, 4), dtype=np.uint8), profile=profiles["cmyk-v2"])
    assert paper.tolist() == [[[255, 255, 255]]]


def test_what_does_not_fit_is_refused(profiles: dict[str, bytes]) -> None:
    with pytest.raises(ProfileError, match="must be RGB; it is CMYK"):
        display_map(profiles["cmyk-v2"])
    with pytest.raises(FieldError, match="rows, columns and 4 channels"):
        to_srgb_pixels(np.zeros((2, 2, 3), dtype=np.uint8), profile=profiles["cmyk-v2"])
    with pytest.raises(ProfileError):
        display_map(b"no profile")
