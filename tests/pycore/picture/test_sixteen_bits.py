"""Sixteen bits a channel become eight by rounding."""

from __future__ import annotations

import io
import struct
import zlib
from typing import Any, Literal

import numpy as np
import pytest
import tifffile
from numpy.typing import NDArray
from PIL import Image

from pycore.errors import PictureError
from pycore.picture.read import read_picture
from pycore.picture.sixteen_bits import to_eight_bits

from .made_tiff import made_tiff


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
    # Its remedy is a field of the print file, which is where the note leads.
    assert picture.info.notes[0].field == "print.bits"


def test_a_tiff_of_16_bits_packed_by_packbits() -> None:
    wide = _wide(3)
    plain = io.BytesIO()
    tifffile.imwrite(plain, wide, photometric="rgb", metadata=None)
    packed = _repacked_bits(plain.getvalue())
    picture = read_picture(packed, file="wide.tif")
    assert (np.asarray(picture.image) == to_eight_bits(wide)).all()
    assert picture.deep is not None
    assert (picture.deep.read() == wide).all()


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


def _png(wide: np.ndarray[tuple[int, ...], np.dtype[np.uint16]], colour_type: int, **more: bytes) -> bytes:
    """A PNG whose rows are filtered by each of the five filters in turn (PNG third edition, 9.2)."""
    height, width, channels = wide.shape
    step = 2 * channels
    data = np.ascontiguousarray(wide, ">u2").view(np.uint8).reshape(height, -1).astype(int)
    rows = []
    above: NDArray[Any] = np.zeros(data.shape[1], int)
    for number, row in enumerate(data):
        left, corner = (np.concatenate([np.zeros(step, int), one[:-step]]) for one in (row, above))
        estimate = left + above - corner
        nearest = np.argmin([np.abs(estimate - one) for one in (left, above, corner)], axis=0)
        paeth = np.choose(nearest, [left, above, corner])
        kind = number % 5
        guess = [0 * row, left, above, (left + above) // 2, paeth][kind]
        rows.append(bytes([kind]) + ((row - guess) % 256).astype(np.uint8).tobytes())
        above = row
    file = b"\x89PNG\r\n\x1a\n"
    head = struct.pack(">IIBBBBB", width, height, 16, colour_type, 0, 0, 0)
    chunks = [(b"IHDR", head), *((name.encode(), body) for name, body in more.items())]
    chunks += [(b"IDAT", zlib.compress(b"".join(rows))), (b"IEND", b"")]
    for name, body in chunks:
        file += struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))
    return file


@pytest.mark.parametrize(("colour_type", "channels"), [(0, 1), (2, 3)])
def test_a_png_keeps_all_16_bits_and_is_rounded_not_cut(colour_type: int, channels: int) -> None:
    wide = _wide(channels)
    picture = read_picture(_png(wide, colour_type), file="wide.png")
    assert picture.deep is not None
    assert (picture.deep.read() == wide).all()
    assert (np.asarray(picture.image).reshape(wide.shape) == to_eight_bits(wide)).all()
    assert picture.info.mode == ("RGB, 16 bits" if channels == 3 else "grey, 16 bits")


@pytest.mark.parametrize(("colour_type", "channels"), [(4, 2), (6, 4)])
def test_a_png_with_transparency_lies_over_white(colour_type: int, channels: int) -> None:
    """Derived: colour a + white (1 - a), with the share of white rounded once."""
    wide = _wide(channels)
    picture = read_picture(_png(wide, colour_type), file="wide.png")
    share = wide[..., -1:] / 65535
    expected = wide[..., :-1] * share + 65535 * (1 - share)
    assert picture.deep is not None
    assert np.abs(picture.deep.read() - expected).max() <= 0.5 + 1e-6
    assert "picture-alpha" in [note.code for note in picture.info.notes]


def test_a_colour_that_a_png_calls_transparent_is_white_at_all_16_bits() -> None:
    """Derived: only the pixel whose 16 bits are the named ones; its neighbour has the same high bytes."""
    wide = np.array([[[1000, 2000, 3000], [1000, 2000, 3001]]], np.uint16)
    data = _png(wide, 2, tRNS=struct.pack(">3H", 1000, 2000, 3000))
    picture = read_picture(data, file="key.png")
    assert picture.deep is not None
    assert picture.deep.read().tolist() == [[[65535, 65535, 65535], [1000, 2000, 3001]]]


@pytest.mark.parametrize("compression", [1, 5, 8, 32946])
@pytest.mark.parametrize("order", ["<", ">"])
@pytest.mark.parametrize("predictor", [1, 2])
@pytest.mark.parametrize("layout", ["strips", "planes", "tiles"])
def test_every_way_of_storing_gives_the_same_values(
    compression: int, order: str, predictor: int, layout: str
) -> None:
    """Derived: predictor 2 stores each value less the one before it in its row, modulo 65536."""
    wide = np.random.default_rng(5).integers(0, 65536, (21, 18, 3), dtype=np.uint16)

    def stored(part: np.ndarray[tuple[int, ...], np.dtype[np.uint16]]) -> bytes:
        if predictor == 2:
            part = np.concatenate([part[:, :1], part[:, 1:] - part[:, :-1]], axis=1)
        return part.astype(f"{order}u2").tobytes()

    more: list[tuple[int, int, tuple[int, ...]]] = [(317, 3, (predictor,))]
    if layout == "tiles":
        padded = np.zeros((32, 32, 3), np.uint16)
        padded[:21, :18] = wide
        pieces = [stored(padded[y : y + 16, x : x + 16]) for y in (0, 16) for x in (0, 16)]
        more += [(322, 4, (16,)), (323, 4, (16,))]
    elif layout == "planes":
        pieces = [
            stored(wide[y : y + 8, :, channel : channel + 1]) for channel in range(3) for y in (0, 8, 16)
        ]
        more += [(278, 4, (8,)), (284, 3, (2,))]
    else:
        pieces = [stored(wide[y : y + 8]) for y in (0, 8, 16)]
        more += [(278, 4, (8,))]
    data = made_tiff(
        pieces, size=(18, 21), channels=3, order=order, compression=compression, more=tuple(more)
    )
    picture = read_picture(data, file="wide.tif")
    assert picture.deep is not None
    assert (picture.deep.read() == wide).all()
    assert (np.asarray(picture.image) == to_eight_bits(wide)).all()
    with pytest.raises(PictureError, match=r"cut off|damaged"):
        read_picture(
            made_tiff(
                [pieces[0][: len(pieces[0]) // 2], *pieces[1:]],
                size=(18, 21),
                channels=3,
                order=order,
                compression=compression,
                more=tuple(more),
            ),
            file="cut.tif",
        )


@pytest.mark.parametrize("orientation", range(1, 9))
def test_16_bits_are_set_upright_as_8_are(orientation: int) -> None:
    wide = np.random.default_rng(6).integers(0, 65536, (5, 7, 3), dtype=np.uint16)
    data = made_tiff([wide.tobytes()], size=(7, 5), channels=3, more=((274, 3, (orientation,)),))
    picture = read_picture(data, file="turned.tif")
    narrow = made_tiff(
        [to_eight_bits(wide).tobytes()], size=(7, 5), channels=3, bits=8, more=((274, 3, (orientation,)),)
    )
    twin = read_picture(narrow, file="turned.tif")
    assert picture.deep is not None
    assert (np.asarray(picture.image) == np.asarray(twin.image)).all()
    assert (to_eight_bits(picture.deep.read()) == np.asarray(twin.image)).all()
