"""A chosen sRGB colour in the picture's own values."""

from __future__ import annotations

import io

import pytest
from PIL import Image, ImageCms

from pycore.colour.icc.standard_profiles import adobe_rgb_profile
from pycore.picture.read import read_picture
from pycore.picture.source import SourcePicture
from pycore.render.plain_colour import plain_values


def _picture(mode: str, profile: bytes | None = None) -> SourcePicture:
    out = io.BytesIO()
    Image.new(mode, (4, 4)).save(out, "TIFF", icc_profile=profile)
    return read_picture(out.getvalue(), file="patch.tif")


@pytest.mark.native
@pytest.mark.parametrize("colour", ["#d8cbb4", "#000000", "#ffffff", "#0102fe"])
def test_srgb_is_kept_with_and_without_its_profile(colour: str) -> None:
    profile = bytes(ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes())
    wanted = tuple(bytes.fromhex(colour[1:]))
    assert plain_values(_picture("RGB"))(colour) == wanted
    by_profile = plain_values(_picture("RGB", profile))(colour)
    assert max(abs(one - other) for one, other in zip(by_profile, wanted, strict=True)) <= 1


@pytest.mark.parametrize("bits", [8, 16])
def test_with_another_profile_it_is_the_nearest_value(bits: int) -> None:
    """Published: IEC 61966-2-1's curve; Adobe RGB (1998): a power of 563 / 256 and the same white.

    Derived: a grey's value is off by half a step, and by the profile's own numbers of 16 bits.
    """
    found, top = plain_values(_picture("RGB", adobe_rgb_profile("RGB")), bits=bits), 2**bits - 1
    for grey in range(15, 256, 20):
        light = ((grey / 255 + 0.055) / 1.055) ** 2.4
        exact = light ** (256 / 563) * top
        assert found(f"#{grey:02x}{grey:02x}{grey:02x}") == pytest.approx([exact] * 3, abs=0.5 + top * 2e-5)


def test_grey_takes_the_luminance() -> None:
    """Published: IEC 61966-2-1: luminance of sRGB green 0.7152.

    Derived: encoded 1.055 * 0.7152 ** (1 / 2.4) - 0.055 = 0.86249, times 255 = 219.9.
    """
    assert plain_values(_picture("L"))("#00ff00") == (220,)
    assert plain_values(_picture("L"))("#808080") == (128,)


def test_inks_of_unknown_kind() -> None:
    assert plain_values(_picture("CMYK"))("#ff8000") == (0, 127, 255, 0)
