"""Files that cannot be opened are named, with the way; a thumbnail is never taken without a word."""

from __future__ import annotations

import io
import struct

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from pycore.errors import PictureError
from pycore.picture.kinds import is_thumbnail_first, unread_kind
from pycore.picture.read import read_picture


def media(brand: bytes, *compatible: bytes) -> bytes:
    """The first box of such a file: size, `ftyp`, brand, minor version, compatible brands."""
    body = b"ftyp" + brand + bytes(4) + b"".join(compatible)
    return struct.pack(">I", 4 + len(body)) + body + bytes(64)


def tiff(*directories: dict[int, int], order: str = "<") -> bytes:
    """A TIFF of directories with SHORT values alone, one behind the other."""
    head = (b"II*\0" if order == "<" else b"MM\0*") + struct.pack(f"{order}I", 8)
    body = b""
    at = 8
    for number, one in enumerate(directories):
        end = at + 2 + 12 * len(one) + 4
        following = end if number < len(directories) - 1 else 0
        body += struct.pack(f"{order}H", len(one))
        for tag, value in sorted(one.items()):
            body += struct.pack(f"{order}HHIH2x", tag, 3, 1, value)
        body += struct.pack(f"{order}I", following)
        at = end
    return head + body


def bitmap() -> bytes:
    """A small BMP, as Pillow saves it."""
    file = io.BytesIO()
    Image.new("RGB", (8, 8), "red").save(file, "BMP")
    return file.getvalue()


# Published: the brands by ISO/IEC 23008-12 and the AV1 image format; the tags by TIFF 6.0, section 8, and the
# sensor's photometric interpretation by TIFF/EP (ISO 12234-2).
KINDS = [
    (b"GIF89a" + bytes(20), "a GIF"),
    (b"%PDF-1.7\n", "a PDF"),
    (bitmap(), "a BMP"),
    # Published: ISO/IEC 15444-1 and ISO/IEC 18181-2, the box of the signature and the naked codestream.
    (b"\0\0\0\x0cjP  \r\n\x87\n" + bytes(20), "a JPEG 2000"),
    (b"\xff\x4f\xff\x51" + bytes(20), "a JPEG 2000"),
    (b"\0\0\0\x0cJXL \r\n\x87\n" + bytes(20), "a JPEG XL"),
    (b"\xff\x0a" + bytes(20), "a JPEG XL"),
    # From memory.
    (b"8BPS\0\1" + bytes(20), "a PSD"),
    (b"BMW" + bytes(60), ""),
    (media(b"heic", b"mif1"), "a HEIC"),
    (media(b"mif1", b"heic"), "a HEIC"),
    (media(b"heic", b"MiHE"), "a HEIC"),
    (media(b"avif", b"mif1"), "an AVIF"),
    (media(b"mif1", b"avif"), "an AVIF"),
    (media(b"crx ", b"isom"), "a camera raw file"),
    (b"<?xml version='1.0'?>\n<!-- drawn -->\n<svg xmlns='http://www.w3.org/2000/svg'/>", "an SVG"),
    (b"\xef\xbb\xbf  <SVG/>", "an SVG"),
    (tiff({254: 1, 262: 2}, {262: 32803}), "a camera raw file"),
    (tiff({254: 1, 262: 2}, {262: 34892}, order=">"), "a camera raw file"),
    (tiff({262: 2, 50706: 1}), "a camera raw file"),
    (tiff({262: 2}), ""),
    (b"<html><body>words</body></html>", ""),
    (b"", ""),
]


@pytest.mark.parametrize(("data", "kind"), KINDS)
def test_a_kind_is_known_by_its_bytes(data: bytes, kind: str) -> None:
    assert unread_kind(data) == kind


@pytest.mark.parametrize(("data", "kind"), [one for one in KINDS if one[1]])
def test_such_a_file_is_refused_with_its_kind_and_the_way(data: bytes, kind: str) -> None:
    with pytest.raises(PictureError) as caught:
        read_picture(data, file="chosen.jpg")
    assert caught.value.got == kind
    assert str(caught.value).endswith("Export it as JPEG or TIFF.")


def test_a_thumbnail_s_raw_file_is_not_opened_as_the_thumbnail() -> None:
    """A whole picture in the first directory, and a sensor's in the one below it."""
    file = io.BytesIO()
    Image.new("RGB", (16, 12), (90, 120, 150)).save(file, "TIFF", tiffinfo={254: 1})
    plain = file.getvalue()
    assert unread_kind(plain) == ""
    (first,) = struct.unpack_from("<I", plain, 4)
    (count,) = struct.unpack_from("<H", plain, first)
    link = first + 2 + 12 * count
    sensor = struct.pack("<HHHIH2xI", 1, 262, 3, 1, 32803, 0)
    raw = plain[:link] + struct.pack("<I", len(plain)) + plain[link + 4 :] + sensor
    with pytest.raises(PictureError, match="it is a camera raw file"):
        read_picture(raw, file="raw.tif")


def test_a_thumbnail_before_a_larger_picture_is_noted() -> None:
    small, large = Image.new("RGB", (8, 6)), Image.new("RGB", (80, 60))
    file = io.BytesIO()
    small.save(file, "TIFF", save_all=True, append_images=[large], tiffinfo={254: 1})
    assert is_thumbnail_first(file.getvalue())
    codes = [note.code for note in read_picture(file.getvalue(), file="two.tif").info.notes]
    assert "picture-thumbnail" in codes
    assert "picture-frames" not in codes
    file = io.BytesIO()
    large.save(file, "TIFF", save_all=True, append_images=[small])
    assert not is_thumbnail_first(file.getvalue())


@given(st.sampled_from([b"II*\0", b"MM\0*", b"\0\0\0\x20ftyp", b"<", b""]), st.binary(max_size=400))
def test_no_bytes_are_too_odd(beginning: bytes, rest: bytes) -> None:
    assert isinstance(unread_kind(beginning + rest), str)
    assert isinstance(is_thumbnail_first(beginning + rest), bool)


def test_a_directory_that_leads_back_to_itself_ends() -> None:
    one = tiff({262: 2})
    looped = one[:-4] + struct.pack("<I", 8)
    assert unread_kind(looped) == ""


def test_cmyk_without_a_profile_is_said_one_way_only() -> None:
    file = io.BytesIO()
    Image.new("CMYK", (8, 6), (10, 20, 30, 40)).save(file, "TIFF")
    info = read_picture(file.getvalue(), file="inks.tif").info
    assert not info.profile_assumed
    assert info.profile_name == "no usable profile"
    assert [note.code for note in info.notes] == ["profile-missing"]
    assert "sRGB" not in info.notes[0].message
    file = io.BytesIO()
    Image.new("RGB", (8, 6), (10, 20, 30)).save(file, "TIFF")
    info = read_picture(file.getvalue(), file="plain.tif").info
    assert info.profile_assumed
    assert info.notes[0].message == "The picture has no usable profile, so sRGB is assumed."
