"""PNGs that describe their colours by other chunks than an ICC profile's."""

from __future__ import annotations

import struct
import zlib
from pathlib import Path

import numpy as np
import numpy.typing as npt
import pytest

from pycore.colour.icc.endpoints import Standard
from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.transform import make_request
from pycore.colour.spaces.adapt import bradford
from pycore.colour.spaces.lab import D50_XYZ, xyz_to_lab
from pycore.colour.spaces.srgb import srgb_decode
from pycore.contract.job import Intent
from pycore.picture.png_colours import PngColours, png_colours
from pycore.picture.read import read_picture

_SRGB = ("sRGB", b"\0")
_CHROMATICITIES = (31270, 32900, 64000, 33000, 30000, 60000, 15000, 6000)
_MATRIX = Path(__file__).parents[1] / "colour" / "data" / "matrix-v4.icc"


def _gamma(value: int) -> tuple[str, bytes]:
    return "gAMA", struct.pack(">I", value)


def _primaries(*, green_x: int = 30000, green_y: int = 60000, white_y: int = 32900) -> tuple[str, bytes]:
    values = list(_CHROMATICITIES)
    values[1], values[4], values[5] = white_y, green_x, green_y
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
    ("chunks", "unread"),
    [
        # Published: ITU-T H.273: 16 is a transfer function of perceptual quantization.
        ((_codes(9, 16), _SRGB), "cICP"),
        ((_codes(2, 13),), "cICP"),
        ((("cICP", bytes([12, 13, 0, 0])),), "cICP"),
        ((_gamma(0),), "gAMA"),
        ((_primaries(green_x=64000, green_y=33000),), "cHRM"),
        ((_primaries(white_y=0),), "cHRM"),
        # A damaged one says nothing.
        ((("cICP", b""),), ""),
    ],
)
def test_what_cannot_be_read_is_named(chunks: tuple[tuple[str, bytes], ...], unread: str) -> None:
    assert png_colours(_png(*chunks)).unread == unread
    info = read_picture(_png(*chunks), file="colours.png").info
    assert [unread in note.message for note in info.notes if note.code == "picture-colours"] == [True] * bool(
        unread
    )
    assert info.profile_assumed


@pytest.mark.parametrize(
    ("chunks", "is_said"),
    [
        ((), False),
        ((_gamma(45455),), False),
        ((_gamma(45455), _primaries()), True),
        # Published: PNG 4.3, which of them goes first.
        ((_SRGB, _gamma(100000), _primaries(green_x=21000)), True),
        ((_codes(1, 13), _gamma(100000)), True),
        ((_codes(1, 13), _profile(_MATRIX.read_bytes())), True),
    ],
)
def test_srgb_is_what_they_say_or_what_is_assumed(
    chunks: tuple[tuple[str, bytes], ...], is_said: bool
) -> None:
    picture = read_picture(_png(*chunks), file="colours.png")
    assert picture.profile is None
    assert picture.info.profile_assumed is not is_said


def _light(chunks: tuple[tuple[str, bytes], ...], rgb: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """Lab of encoded values in the space that the chunks describe."""
    profile = read_picture(_png(*chunks), file="colours.png").profile
    assert profile is not None
    return make_request(
        parse_profile(profile), Standard.LAB, intent=Intent.RELATIVE, black_point_compensation=False
    )(rgb)


@pytest.mark.native
@pytest.mark.parametrize(
    ("name", "chunks"),
    [
        ("Display P3", (_codes(12, 13), _gamma(45455))),
        ("Adobe RGB (1998)", (_gamma(45471), _primaries(green_x=21000, green_y=71000))),
        ("ITU-R BT.2020", (_codes(9, 8),)),
    ],
)
def test_other_spaces_are_colour_sciences(name: str, chunks: tuple[tuple[str, bytes], ...]) -> None:
    """Reference library: colour-science's spaces; gAMA of 45471 is 256 / 563, of 45455 sRGB's own curve."""
    from colour import RGB_COLOURSPACES

    theirs = RGB_COLOURSPACES[name]
    rgb = np.random.default_rng(11).random((500, 3))
    linear = {"Display P3": theirs.cctf_decoding(rgb), "ITU-R BT.2020": rgb}.get(name, srgb_decode(rgb))
    to_d50 = bradford(source_white=theirs.matrix_RGB_to_XYZ @ np.ones(3), target_white=np.array(D50_XYZ))
    asked = xyz_to_lab(np.asarray(linear) @ theirs.matrix_RGB_to_XYZ.T @ to_d50.T)
    assert np.abs(_light(chunks, rgb) - asked).max() < 0.06


def test_a_linear_grey_is_read_by_its_gamma() -> None:
    """Derived: half the light is 76.07 L* (CIE 15:2018, 8.2.1: 116 * 0.5^(1/3) - 16)."""
    picture = read_picture(_png(_gamma(100000), colour_type=0), file="linear.png")
    assert picture.linear is not None
    assert np.abs(picture.linear[0] - np.arange(256) / 255).max() < 1e-9
    assert _light((_gamma(100000),), np.full((1, 3), 0.5))[0, 0] == pytest.approx(76.07, abs=0.01)
    assert picture.info.profile_name == "PNG gAMA 1.00000, grey"


def test_a_profile_goes_before_other_chunks() -> None:
    data = _png(_profile(_MATRIX.read_bytes()), _gamma(100000), _primaries(green_x=21000))
    picture = read_picture(data, file="colours.png")
    assert picture.profile == _MATRIX.read_bytes()
    assert "picture-colours" not in [note.code for note in picture.info.notes]
    # What cannot be read goes before nothing.
    assert (
        read_picture(_png(_codes(9, 16), _profile(_MATRIX.read_bytes())), file="a.png").profile
        == _MATRIX.read_bytes()
    )


def test_grey_has_no_primaries() -> None:
    assert png_colours(_png(_primaries(green_x=21000), colour_type=0)) == PngColours()
