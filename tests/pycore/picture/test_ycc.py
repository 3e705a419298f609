"""Luma and chroma of JPEG."""

from __future__ import annotations

import io
from typing import Any

import numpy as np
import pytest
from PIL import Image

from pycore.picture.read import read_picture
from pycore.picture.ycc import ask_for_ycc, ycc_to_rgb
from tests.shipped_photographs import shipped_photograph


def test_every_chroma_goes_to_the_nearest_value() -> None:
    """Published: Rec. ITU-T T.871, section 7.

    R = Y + 1.402 (Cr - 128), G = Y - 0.344136 (Cb - 128) - 0.714136 (Cr - 128), B = Y + 1.772 (Cb - 128),
    rounded and clipped to 0 to 255.
    """
    cb, cr = np.meshgrid(np.arange(256), np.arange(256))
    for luma in (0, 90, 128, 255):
        ycc = np.stack([np.full_like(cb, luma), cb, cr], axis=2).astype(np.uint8)
        found = np.asarray(ycc_to_rgb(Image.frombytes("YCbCr", (256, 256), ycc.tobytes()))).astype(int)
        u, v = cb - 128.0, cr - 128.0
        exact = np.stack([luma + 1.402 * v, luma - 0.344136 * u - 0.714136 * v, luma + 1.772 * u], axis=2)
        # Half a value, and the last digits of single precision.
        assert np.abs(found - np.clip(exact, 0, 255)).max() <= 0.5001


def _jpeg(**options: Any) -> bytes:
    values = np.random.default_rng(7).integers(0, 256, (40, 48, 3), dtype=np.uint8)
    out = io.BytesIO()
    Image.fromarray(values).save(out, "JPEG", quality=95, **options)
    return out.getvalue()


@pytest.mark.parametrize("subsampling", ["4:4:4", "4:2:2", "4:2:0"])
def test_a_jpeg_is_what_its_library_makes_of_it(subsampling: str) -> None:
    """Against the native JPEG library's own RGB: a tie may be rounded otherwise."""
    data = _jpeg(subsampling=subsampling)
    with Image.open(io.BytesIO(data)) as plain:
        by_library = np.asarray(plain).astype(int)
    picture = read_picture(data, file="noise.jpg")
    assert (picture.info.mode, picture.image.mode) == ("RGB", "RGB")
    assert np.abs(np.asarray(picture.image) - by_library).max() <= 1


@pytest.mark.native
def test_a_real_photograph_as_its_library_decodes_it() -> None:
    file = shipped_photograph("flower")
    with Image.open(file) as plain:
        by_library = np.asarray(plain).astype(int)
    found = np.asarray(read_picture(file.read_bytes(), file=file.name).image)
    assert np.abs(found - by_library).max() <= 1
    assert (found != by_library).mean() < 1e-3


def test_a_jpeg_that_holds_rgb_is_left_to_the_library() -> None:
    """Pillow's `keep_rgb` writes red, green and blue as they are, under the components' letters R, G, B."""
    data = _jpeg(keep_rgb=True, subsampling="4:4:4")
    with Image.open(io.BytesIO(data)) as image:
        by_library = np.asarray(image)
    with Image.open(io.BytesIO(data)) as image:
        ask_for_ycc(image)
        assert image.mode == "RGB"
    assert (np.asarray(read_picture(data, file="rgb.jpg").image) == by_library).all()


@pytest.mark.parametrize(("transform", "mode"), [(0, "RGB"), (1, "YCbCr"), (None, "YCbCr")])
def test_the_adobe_marker_tells_what_a_jpeg_holds(transform: int | None, mode: str) -> None:
    """Published: Rec. ITU-T T.872, 6.5.3: the last byte of the APP14 marker is 0 for RGB, 1 for YCbCr.

    Without a marker the components' numbers tell; Pillow writes 1, 2, 3 for YCbCr.
    """
    data = _jpeg()
    assert data[2:4] == b"\xff\xe0"  # APP0, JFIF, which is taken out.
    rest = data[4 + int.from_bytes(data[4:6], "big") :]
    marker = b"\xff\xee\x00\x0eAdobe\x00\x64\x00\x00\x00\x00"
    marker = b"" if transform is None else marker + bytes([transform])
    with Image.open(io.BytesIO(data[:2] + marker + rest)) as image:
        ask_for_ycc(image)
        assert image.mode == mode


def test_grey_and_other_formats_are_left_alone() -> None:
    out = io.BytesIO()
    Image.new("L", (8, 8)).save(out, "JPEG")
    png = io.BytesIO()
    Image.new("RGB", (8, 8)).save(png, "PNG")
    for data, mode in ((out.getvalue(), "L"), (png.getvalue(), "RGB")):
        with Image.open(io.BytesIO(data)) as image:
            ask_for_ycc(image)
            assert image.mode == mode
