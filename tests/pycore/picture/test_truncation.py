"""A file that is cut short is an error, wherever it is cut."""

from __future__ import annotations

import io
from typing import Any

import numpy as np
import pytest
import tifffile
from PIL import Image

from pycore.errors import PictureError
from pycore.picture.read import read_picture


def _saved(kind: str, mode: str = "RGB", **options: Any) -> bytes:
    noise = np.random.default_rng(3).integers(0, 256, (24, 31, 3), dtype=np.uint8)
    out = io.BytesIO()
    Image.fromarray(noise).convert(mode).save(out, kind, **options)
    return out.getvalue()


def _deep_tiff() -> bytes:
    out = io.BytesIO()
    values = np.random.default_rng(4).integers(0, 65536, (24, 31, 3), dtype=np.uint16)
    tifffile.imwrite(out, values, photometric="rgb", compression="zlib")
    return out.getvalue()


_FILES = {
    "jpeg": _saved("JPEG"),
    "jpeg-progressive": _saved("JPEG", progressive=True),
    "jpeg-cmyk": _saved("JPEG", "CMYK"),
    "png": _saved("PNG"),
    "png-palette": _saved("PNG", "P"),
    "tiff": _saved("TIFF"),
    "tiff-lzw": _saved("TIFF", compression="tiff_lzw"),
    "tiff-deep": _deep_tiff(),
    "webp": _saved("WEBP"),
    "webp-lossless": _saved("WEBP", lossless=True),
}


@pytest.mark.parametrize("name", sorted(_FILES))
@pytest.mark.parametrize("share", [0.0, 0.01, 0.1, 0.5, 0.9, 0.99])
def test_a_truncated_file_is_an_error_not_a_grey_picture(name: str, share: float) -> None:
    whole = _FILES[name]
    with pytest.raises(PictureError) as caught:
        read_picture(whole[: int(len(whole) * share)], file="cut.jpg")
    assert caught.value.field == "picture.file"


@pytest.mark.parametrize("name", sorted(set(_FILES) - {"tiff", "tiff-lzw", "tiff-deep"}))
def test_a_file_that_lacks_its_last_bytes_is_an_error(name: str) -> None:
    with pytest.raises(PictureError, match="cut off"):
        read_picture(_FILES[name][:-8], file="cut")


def test_a_tiff_whose_pixels_are_cut_is_an_error() -> None:
    """Derived: tifffile writes the pixels last, Pillow the tags; with the pixels last a cut hits them."""
    out = io.BytesIO()
    tifffile.imwrite(out, np.zeros((20, 20, 3), np.uint8), photometric="rgb", metadata=None)
    with pytest.raises(PictureError, match="a whole TIFF file; it is cut off"):
        read_picture(out.getvalue()[:-1], file="cut.tif")


@pytest.mark.parametrize("name", sorted(_FILES))
def test_the_whole_file_is_read(name: str) -> None:
    assert read_picture(_FILES[name], file="whole").image.size == (31, 24)
