"""Values of other spaces turned into sRGB for the screen."""

from __future__ import annotations

import io

import numpy as np
import pytest
from PIL import Image, ImageCms

from pycore.picture.read import read_picture
from pycore.picture.source import SourcePicture
from pycore.render.screen import to_screen


def _picture(mode: str, value: tuple[int, ...], profile: bytes | None = None) -> SourcePicture:
    out = io.BytesIO()
    colour = value if len(value) > 1 else value[0]
    Image.new(mode, (4, 4), colour).save(out, "TIFF", icc_profile=profile)
    return read_picture(out.getvalue(), file="patch.tif")


def _shown(picture: SourcePicture) -> tuple[int, ...]:
    pixels = np.asarray(picture.image).reshape(4, 4, -1)
    image = to_screen(pixels, picture)
    assert image.mode == "RGB"
    pixel = image.getpixel((1, 1))
    assert isinstance(pixel, tuple)
    return pixel


@pytest.mark.native
def test_srgb_stays_as_it_is() -> None:
    profile = bytes(ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes())
    for known in (None, profile):
        assert _shown(_picture("RGB", (12, 130, 240), known)) == (12, 130, 240)


def test_grey_is_three_times_the_same() -> None:
    assert _shown(_picture("L", (99,))) == (99, 99, 99)


def test_inks_of_unknown_kind_by_the_plain_formula() -> None:
    """Derived: red is what cyan and black leave: (255 - 51) (255 - 0) / 255 = 204."""
    assert _shown(_picture("CMYK", (51, 0, 255, 0))) == (204, 255, 0)
