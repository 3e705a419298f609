"""PNGs that describe their colours without an ICC profile: read as sRGB, and what is not sRGB is said."""

from __future__ import annotations

import struct
import zlib
from pathlib import Path

import pytest

from pycore.picture.png_colours import foreign_chunk
from pycore.picture.read import read_picture

_SRGB = ("sRGB", b"\0")
_CHROMATICITIES = (31270, 32900, 64000, 33000, 30000, 60000, 15000, 6000)
_MATRIX = Path(__file__).parents[1] / "colour" / "data" / "matrix-v4.icc"


def _gamma(value: int) -> tuple[str, bytes]:
    return "gAMA", struct.pack(">I", value)


def _primaries(*, green_x: int = 30000) -> tuple[str, bytes]:
    values = list(_CHROMATICITIES)
    values[4] = green_x
    return "cHRM", struct.pack(">8I", *values)


def _codes(primaries: int, transfer: int) -> tuple[str, bytes]:
    return "cICP", bytes([primaries, transfer, 0, 1])


def _profile(data: bytes) -> tuple[str, bytes]:
    return "iCCP", b"own\0\0" + zlib.compress(data)


def _png(*chunks: tuple[str, bytes], colour_type: int = 2) -> bytes:
    def chunk(kind: str, body: bytes) -> bytes:
        named = kind.encode() + body
        return struct.pack(">I", len(body)) + named + struct.pack(">I", zlib.crc32(named))

    head = struct.pack(">IIBBBBB", 2, 1, 8, colour_type, 0, 0, 0)
    pixels = zlib.compress(bytes(1 + 2 * (3 if colour_type == 2 else 1)))
    parts = [("IHDR", head), *chunks, ("IDAT", pixels), ("IEND", b"")]
    return b"\x89PNG\r\n\x1a\n" + b"".join(chunk(*part) for part in parts)


@pytest.mark.parametrize(
    ("chunks", "named"),
    [
        ((), ""),
        ((_gamma(45455),), ""),
        ((_gamma(45455), _primaries()), ""),
        ((_gamma(100000),), "gAMA"),
        ((_gamma(55556), _primaries()), "gAMA"),
        ((_gamma(45455), _primaries(green_x=21000)), "cHRM"),
        # Published: PNG 4.3, which of them goes first.
        ((_SRGB, _gamma(100000), _primaries(green_x=21000)), ""),
        ((_codes(1, 13), _gamma(100000)), ""),
        ((_codes(9, 16), _SRGB), "cICP"),
        # A damaged one says nothing.
        ((("cICP", b""),), ""),
    ],
)
def test_what_is_not_srgb_is_named(chunks: tuple[tuple[str, bytes], ...], named: str) -> None:
    assert foreign_chunk(_png(*chunks)) == named
    notes = read_picture(_png(*chunks), file="colours.png").info.notes
    assert [named in note.message for note in notes if note.code == "picture-colours"] == [True] * bool(named)


def test_a_profile_goes_before_other_chunks() -> None:
    data = _png(_profile(_MATRIX.read_bytes()), _gamma(100000), _primaries(green_x=21000))
    picture = read_picture(data, file="colours.png")
    assert picture.profile == _MATRIX.read_bytes()
    assert "picture-colours" not in [note.code for note in picture.info.notes]


def test_grey_has_no_primaries() -> None:
    assert foreign_chunk(_png(_primaries(green_x=21000), colour_type=0)) == ""
    assert foreign_chunk(_png(_gamma(100000), colour_type=0)) == "gAMA"
