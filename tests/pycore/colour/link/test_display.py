"""A picture's own colours on the screen."""

import numpy as np
import pytest
from PIL import Image

from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.transform import Standard, make_transform
from pycore.colour.link.display import display_lut, pillow_table, rgb_nodes, to_srgb_pixels
from pycore.colour.spaces.arrays import ByteArray, FloatArray
from pycore.contract.job import Intent
from pycore.errors import FieldError, ProfileError


def exact(profile: bytes, pixels: ByteArray) -> FloatArray:
    transform = make_transform(
        parse_profile(profile), Standard.SRGB, intent=Intent.RELATIVE, black_point_compensation=True
    )
    return transform(pixels.reshape(-1, pixels.shape[-1]) / 255.0).reshape(*pixels.shape[:2], 3) * 255.0


def test_srgb_needs_no_table() -> None:
    assert display_lut(None) is None


def test_nodes_run_red_first() -> None:
    nodes = rgb_nodes(3)
    assert nodes[1].tolist() == [0.5, 0.0, 0.0]
    assert nodes[3].tolist() == [0.0, 0.5, 0.0]
    assert nodes[-1].tolist() == [1.0, 1.0, 1.0]


def test_an_identity_table_changes_nothing() -> None:
    pixels = np.random.default_rng(1).integers(0, 256, (20, 30, 3), dtype=np.uint8)
    table = pillow_table(rgb_nodes(17), nodes=17, mode="RGB")
    assert np.array_equal(np.asarray(Image.fromarray(pixels).filter(table)), pixels)


def test_a_wide_space_is_turned_into_srgb(profiles: dict[str, bytes]) -> None:
    table = display_lut(profiles["matrix-v4"])
    assert table is not None
    pixels = np.random.default_rng(2).integers(0, 256, (50, 60, 3), dtype=np.uint8)
    shown = np.asarray(Image.fromarray(pixels).filter(table)).astype(float)
    apart = np.abs(shown - exact(profiles["matrix-v4"], pixels))
    # regression: a table of 49 nodes over a space with other curves; half a step is rounding
    assert apart.mean() < 0.5
    assert np.percentile(apart, 99) < 3.0
    assert np.array_equal(to_srgb_pixels(pixels, profile=profiles["matrix-v4"]), shown.astype(np.uint8))


def test_inks_and_grey(profiles: dict[str, bytes]) -> None:
    for name, channels in (("cmyk-v2", 4), ("grey-v2", 1)):
        pixels = np.random.default_rng(3).integers(0, 256, (40, 50, channels), dtype=np.uint8)
        pixels[0, 0], pixels[0, 1] = 0, 255
        apart = np.abs(to_srgb_pixels(pixels, profile=profiles[name]) - exact(profiles[name], pixels))
        # regression: 17 nodes for the three colours, every value of black; half a step is rounding
        assert apart.mean() < 0.5
        assert np.percentile(apart, 99) < 2.5


def test_white_paper_is_white(profiles: dict[str, bytes]) -> None:
    paper = to_srgb_pixels(np.zeros((1, 1, 4), dtype=np.uint8), profile=profiles["cmyk-v2"])
    assert paper.tolist() == [[[255, 255, 255]]]


def test_what_does_not_fit_is_refused(profiles: dict[str, bytes]) -> None:
    with pytest.raises(ProfileError, match="must be RGB; it is a device of 4 channels"):
        display_lut(profiles["cmyk-v2"])
    with pytest.raises(FieldError, match="rows, columns and 4 channels"):
        to_srgb_pixels(np.zeros((2, 2, 3), dtype=np.uint8), profile=profiles["cmyk-v2"])
    with pytest.raises(ProfileError):
        display_lut(b"no profile")
