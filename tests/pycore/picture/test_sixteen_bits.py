"""Sixteen bits a channel become eight by rounding."""

from __future__ import annotations

import io
import struct
import zlib
from typing import Literal

import numpy as np
import pytest
import tifffile
from PIL import Image

from pycore.picture.read import read_picture
from pycore.picture.sixteen_bits import to_eight_bits


def _wide(channels: int) -> np.ndarray[tuple[int, ...], np.dtype[np.uint16]]:
    return np.random.default_rng(11).integers(0, 65536, (300, 20, channels), dtype=np.uint16)


def test_every_value_goes_to_the_nearest() -> None:
    """Derived: 65535 / 255 = 257 exactly, so the nearest is round(v / 257)."""
    every = np.arange(65536, dtype=np.uint16)[np.newaxis]
    assert (to_eight_bits(every)[0] == np.floor(every[0] / 257 + 0.5)).all()


@pytest.mark.parametrize("compression", [None, "zlib"])
@pytest.mark.parametrize("planar", ["contig", "separate"])
@pytest.mark.parametrize("byteorder", ["<", ">"])
def test_a_tiff_of_16_bits(compression: str | None, planar: str, byteorder: Literal["<", ">"]) -> None:
    wide = _wide(3)
    stored = wide if planar == "contig" else np.moveaxis(wide, 2, 0)
    out = io.BytesIO()
    tifffile.imwrite(
        out, stored, photometric="rgb", planarconfig=planar, compression=compression, byteorder=byteorder
    )
    picture = read_picture(out.getvalue(), file="wide.tif")
    assert (np.asarray(picture.image) == to_eight_bits(wide)).all()
    assert picture.info.mode == "RGB, 16 bits"
    assert [note.code for note in picture.info.notes] == ["picture-bits", "profile-assumed"]


def test_a_tiff_of_16_bits_with_a_compression_that_only_pillow_reads() -> None:
    """Derived: without rounding the high byte alone is kept, at most one value lower than the nearest."""
    wide = _wide(3)
    plain = io.BytesIO()
    tifffile.imwrite(plain, wide, photometric="rgb", metadata=None)
    packed = _repacked_bits(plain.getvalue())
    picture = read_picture(packed, file="wide.tif")
    difference = np.asarray(picture.image).astype(int) - to_eight_bits(wide)
    assert set(np.unique(difference)) <= {-1, 0, 1}
    assert "picture-bits" in [note.code for note in picture.info.notes]


def _repacked_bits(data: bytes) -> bytes:
    """The same TIFF with its one strip as PackBits (TIFF 6.0, section 9): literal runs of up to 128 bytes."""
    with tifffile.TiffFile(io.BytesIO(data)) as file:
        page = file.pages.first
        strips = [
            data[start : start + size]
            for start, size in zip(page.dataoffsets, page.databytecounts, strict=True)
        ]
        rows = page.rowsperstrip
    packed = []
    for strip in strips:
        row_bytes = 20 * 3 * 2
        lines = [strip[at : at + row_bytes] for at in range(0, len(strip), row_bytes)]
        packed.append(b"".join(bytes([len(line) - 1]) + line for line in lines))
    entries = [
        (256, 3, 1, 20), (257, 3, 1, 300), (258, 3, 3, None), (259, 3, 1, 32773), (262, 3, 1, 2),
        (273, 4, len(packed), None), (277, 3, 1, 3), (278, 3, 1, rows), (279, 4, len(packed), None),
    ]  # fmt: skip
    at = 8 + 2 + 12 * len(entries) + 4
    bits, at = at, at + 6
    offsets, at = at, at + 4 * len(packed)
    counts, at = at, at + 4 * len(packed)
    starts = np.cumsum([at, *map(len, packed)])[:-1].tolist()
    if len(packed) == 1:
        values = {258: bits, 273: starts[0], 279: len(packed[0])}
    else:
        values = {258: bits, 273: offsets, 279: counts}
    out = struct.pack("<2sHIH", b"II", 42, 8, len(entries))
    for tag, kind, count, value in entries:
        out += struct.pack("<HHII", tag, kind, count, values[tag] if value is None else value)
    out += struct.pack("<I3H", 0, 16, 16, 16)
    out += struct.pack(f"<{len(packed)}I", *starts) + struct.pack(f"<{len(packed)}I", *map(len, packed))
    return out + b"".join(packed)


@pytest.mark.parametrize("photometric", ["minisblack", "miniswhite"])
def test_grey_tiffs_both_ways_round(photometric: str) -> None:
    """Derived: where white is zero (TIFF 6.0, PhotometricInterpretation 0) light is 65535 less the value."""
    wide = _wide(1)[..., 0]
    out = io.BytesIO()
    tifffile.imwrite(out, wide, photometric=photometric)
    light = 65535 - wide if photometric == "miniswhite" else wide
    picture = read_picture(out.getvalue(), file="grey.tif")
    assert (np.asarray(picture.image) == to_eight_bits(light)).all()


def test_a_cmyk_tiff_of_16_bits() -> None:
    wide = _wide(4)
    out = io.BytesIO()
    tifffile.imwrite(out, wide, photometric="separated")
    picture = read_picture(out.getvalue(), file="inks.tif")
    assert picture.image.mode == "CMYK"
    assert (np.asarray(picture.image) == to_eight_bits(wide)).all()


def test_a_grey_png_of_16_bits() -> None:
    wide = _wide(1)[..., 0]
    out = io.BytesIO()
    Image.fromarray(wide).save(out, "PNG")
    picture = read_picture(out.getvalue(), file="grey.png")
    assert (np.asarray(picture.image) == to_eight_bits(wide)).all()
    assert picture.info.mode == "grey, 16 bits"


def test_an_rgb_png_of_16_bits() -> None:
    """Pillow keeps the high byte; derived: at most one value from the nearest."""
    wide = _wide(3)
    rows = b"".join(b"\0" + row.astype(">u2").tobytes() for row in wide)
    data = b"\x89PNG\r\n\x1a\n"
    for kind, body in (
        (b"IHDR", struct.pack(">IIBBBBB", 20, 300, 16, 2, 0, 0, 0)),
        (b"IDAT", zlib.compress(rows)),
        (b"IEND", b""),
    ):
        data += struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))
    picture = read_picture(data, file="wide.png")
    difference = np.asarray(picture.image).astype(int) - to_eight_bits(wide)
    assert np.abs(difference).max() <= 1
    assert picture.info.mode == "RGB, 16 bits"
