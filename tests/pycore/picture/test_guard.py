"""Damaged files: whatever the damage, one clear error or a picture, and nothing else."""

from __future__ import annotations

import io
import warnings
from collections.abc import Callable

import numpy as np
import pytest
import tifffile
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from pycore.errors import PictureError
from pycore.picture.guard import LARGEST_PX, check_pixel_count, decoding, no_pixel_limit
from pycore.picture.read import read_picture


def _saved(kind: str, mode: str = "RGB", **options: object) -> bytes:
    noise = np.random.default_rng(3).integers(0, 256, (24, 31, 3), dtype=np.uint8)
    out = io.BytesIO()
    exif = Image.Exif()
    exif[0x0112] = 6
    Image.fromarray(noise).convert(mode).save(out, kind, exif=exif, **options)
    return out.getvalue()


def _deep_tiff() -> bytes:
    out = io.BytesIO()
    values = np.random.default_rng(4).integers(0, 65536, (24, 31, 3), dtype=np.uint16)
    tifffile.imwrite(out, values, photometric="rgb", compression="zlib")
    return out.getvalue()


_FILES: dict[str, Callable[[], bytes]] = {
    "jpeg": lambda: _saved("JPEG"),
    "jpeg-cmyk": lambda: _saved("JPEG", "CMYK"),
    "png": lambda: _saved("PNG"),
    "png-palette": lambda: _saved("PNG", "P"),
    "tiff": lambda: _saved("TIFF"),
    "tiff-lzw": lambda: _saved("TIFF", compression="tiff_lzw"),
    "tiff-deep": _deep_tiff,
    "webp": lambda: _saved("WEBP", lossless=True),
}
_MADE = {name: make() for name, make in _FILES.items()}


def _read_or_refuse(data: bytes) -> None:
    try:
        picture = read_picture(data, file="damaged.jpg")
    except PictureError as error:
        refused = error
    else:
        assert picture.image.mode in {"L", "RGB", "CMYK"}
        assert picture.image.size == (picture.info.width_px, picture.info.height_px)
        picture.image.tobytes()
        return
    assert refused.field == "picture.file"
    assert refused.remedy


def test_a_failure_without_words_has_no_brackets() -> None:
    """A TIFF of nothing but zeros behind its signature fails with the number of a tag that it lacks."""
    with pytest.raises(PictureError, match=r"it is damaged or cut off\. Copy") as caught:
        read_picture(b"II*\0" + bytes(100), file="zeros.tif")
    assert caught.value.got == "damaged or cut off"
    with pytest.raises(PictureError, match=r"damaged or cut off \(no such tag\)"), decoding("TIFF file"):
        raise ValueError("no such tag")


@pytest.mark.parametrize("name", sorted(_MADE))
@settings(max_examples=60, deadline=None)
@given(st.data())
def test_a_mutated_file_is_read_or_refused(name: str, data: st.DataObject) -> None:
    mutated = bytearray(_MADE[name])
    for _ in range(data.draw(st.integers(1, 6))):
        # Half of the changes hit the first bytes, where headers and tags are.
        last = data.draw(st.sampled_from([min(200, len(mutated)) - 1, len(mutated) - 1]))
        mutated[data.draw(st.integers(0, last))] = data.draw(st.integers(0, 255))
    _read_or_refuse(bytes(mutated))


@pytest.mark.parametrize("name", sorted(_MADE))
@settings(max_examples=30, deadline=None)
@given(st.data())
def test_a_file_with_a_piece_cut_out_is_read_or_refused(name: str, data: st.DataObject) -> None:
    whole = _MADE[name]
    start = data.draw(st.integers(0, len(whole) - 1))
    stop = data.draw(st.integers(start, len(whole)))
    _read_or_refuse(whole[:start] + whole[stop:])


@settings(max_examples=60, deadline=None)
@given(
    st.binary(max_size=200), st.sampled_from([b"", b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n", b"II*\0", b"RIFF"])
)
def test_bytes_that_are_no_picture_are_refused(tail: bytes, start: bytes) -> None:
    with pytest.raises(PictureError):
        read_picture(start + tail, file="noise.png")


def test_a_bomb_is_refused_by_its_header() -> None:
    """Derived: 20000 x 20000 is 400 megapixels, over the limit of 250, in a file of a few hundred kB."""
    out = io.BytesIO()
    with no_pixel_limit():
        Image.new("1", (20_000, 20_000)).save(out, "PNG")
    assert len(out.getvalue()) < 200_000
    with pytest.raises(
        PictureError, match=r"at most 250 megapixels; it is 20000 x 20000 pixels, 400 megapixels"
    ):
        read_picture(out.getvalue(), file="bomb.png")


def test_the_pixel_limit_is_what_it_says() -> None:
    check_pixel_count(25_000, 10_000)
    assert LARGEST_PX == 25_000 * 10_000
    with pytest.raises(PictureError):
        check_pixel_count(25_000, 10_001)
    with pytest.raises(PictureError):
        check_pixel_count(0, 10)


def test_pillows_limit_is_put_back() -> None:
    before, inside = Image.MAX_IMAGE_PIXELS, []

    def broken() -> None:
        with decoding("file"):
            inside.append(Image.MAX_IMAGE_PIXELS)
            raise OSError("broken")

    with pytest.raises(PictureError):
        broken()
    assert inside == [None]
    assert before == Image.MAX_IMAGE_PIXELS


def test_what_a_decoder_says_is_kept() -> None:
    with decoding("file") as said:
        warnings.warn("odd\n tag", UserWarning, stacklevel=1)
    assert said == ["odd tag"]


def test_memory_that_runs_out_is_the_pictures_fault() -> None:
    with pytest.raises(PictureError, match="larger than the memory that is free"), decoding("file"):
        raise MemoryError


def test_a_fault_of_our_own_is_not_hidden() -> None:
    with pytest.raises(AssertionError), decoding("file"):
        raise AssertionError
