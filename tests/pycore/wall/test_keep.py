"""The copy of a photograph that is kept: of any number of pixels, upright, with the focal length it had."""

from __future__ import annotations

import io

import numpy as np
import pytest
from PIL import Image

from pycore.wall.keep import KEPT_PX, keep_photograph


def jpeg(size: tuple[int, int], *, orientation: int = 1, lens_mm: int | None = None) -> bytes:
    """A photograph whose left half is dark."""
    image = Image.new("RGB", size, "white")
    image.paste((20, 20, 20), (0, 0, size[0] // 2, size[1]))
    exif = Image.Exif()
    exif[0x0112] = orientation
    if lens_mm is not None:
        exif.get_ifd(0x8769)[0xA405] = lens_mm
    file = io.BytesIO()
    image.save(file, "JPEG", exif=exif)
    return file.getvalue()


def test_more_pixels_than_the_decoder_likes_are_taken(monkeypatch: pytest.MonkeyPatch) -> None:
    data = jpeg((64, 48), lens_mm=26)
    # Pillow warns above its limit and fails above twice that; a telephone's 200 megapixels are more.
    monkeypatch.setattr(Image, "MAX_IMAGE_PIXELS", 100)
    kept = keep_photograph(data, file="large.jpg")
    again = keep_photograph(kept.data, file="large.jpg", focal_px=kept.photo.focal_px)
    assert again.data == kept.data
    # derived: 26 / 43.27 of a diagonal of 80 pixels.
    assert again.photo.focal_px == pytest.approx(26 / np.hypot(36, 24) * 80)


def test_a_portrait_picture_stands_upright() -> None:
    # published: EXIF 2.32, orientation 6: the first row is the right side, so the left half comes out on top.
    kept = keep_photograph(jpeg((64, 48), orientation=6, lens_mm=26), file="portrait.jpg")
    assert kept.photo.size_px == (48, 64)
    assert kept.photo.pixels[:24].mean() < 40 < 200 < kept.photo.pixels[40:].mean()
    assert kept.photo.focal_px == pytest.approx(26 / np.hypot(36, 24) * 80)
    assert not Image.open(io.BytesIO(kept.data)).getexif()


def test_a_large_one_is_kept_smaller_with_its_focal_length() -> None:
    kept = keep_photograph(jpeg((2 * KEPT_PX, 40), lens_mm=26), file="wide.jpg")
    assert kept.photo.size_px == (KEPT_PX, 20)
    assert kept.was_px == (2 * KEPT_PX, 40)
    # derived: 26 / 43.27 of the copy's diagonal.
    assert kept.photo.focal_px == pytest.approx(26 / np.hypot(36, 24) * np.hypot(KEPT_PX, 20))
