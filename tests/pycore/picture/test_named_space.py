"""Pictures without a profile whose file names their space: what a camera writes is believed."""

from __future__ import annotations

import io
import zlib
from typing import Any

import numpy as np
import pytest
from PIL import Image

from pycore.colour.icc.standard_profiles import adobe_rgb_profile
from pycore.picture.read import read_picture
from pycore.picture.source import SourcePicture

SRGB, ADOBE_RGB, ASSUMED = "sRGB (the file says so)", "Adobe RGB (the file says so)", "sRGB (assumed)"

#: Published: EXIF 2.32, ColorSpace, InteroperabilityIFDPointer and InteroperabilityIndex.
_EXIF, _SPACE, _INTEROPERABILITY, _INDEX = 0x8769, 0xA001, 0xA005, 0x0001


def _exif(space: int | None, index: str = "") -> Image.Exif:
    found = Image.Exif()
    tags = found.get_ifd(_EXIF)
    if space is not None:
        tags[_SPACE] = space
    if index:
        tags[_INTEROPERABILITY] = {_INDEX: index}
    found[_EXIF] = dict(tags)
    return found


def _read(kind: str, mode: str = "RGB", **more: Any) -> SourcePicture:
    out = io.BytesIO()
    values = np.random.default_rng(3).integers(0, 256, (20, 30, 3), dtype=np.uint8)
    Image.fromarray(values).convert(mode).save(out, kind, **more)
    return read_picture(out.getvalue(), file=f"tide.{kind.lower()}")


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "TIFF", "WEBP"])
@pytest.mark.parametrize(
    ("space", "index", "name"),
    [
        (1, "", SRGB),
        (65535, "R03", ADOBE_RGB),
        (2, "", ADOBE_RGB),
        (None, "R98", SRGB),
        (65535, "", ASSUMED),
        (None, "", ASSUMED),
    ],
)
def test_the_exif_block_names_the_space(kind: str, space: int | None, index: str, name: str) -> None:
    """Published: EXIF 2.32 and DCF 2.0; that 2 is Adobe RGB is common practice, no source."""
    found = _read(kind, exif=_exif(space, index))
    assert found.info.profile_name == name
    assert found.info.profile_assumed == (name == ASSUMED)
    assert [note.code for note in found.info.notes] == (["profile-assumed"] if name == ASSUMED else [])
    assert found.profile == (adobe_rgb_profile("RGB") if name == ADOBE_RGB else None)


def test_grey_has_the_named_spaces_curve() -> None:
    """Derived: Adobe RGB's 128 is (128 / 255) ** (563 / 256) of the light."""
    found = _read("JPEG", mode="L", exif=_exif(65535, "R03"))
    assert found.linear is not None
    assert found.linear.shape == (1, 256)
    assert found.linear[0, 128] == pytest.approx((128 / 255) ** (563 / 256), abs=1e-9)
    assert found.file_profile == adobe_rgb_profile("GRAY")


def test_inks_have_no_space_that_exif_could_name() -> None:
    assert _read("JPEG", mode="CMYK", exif=_exif(1)).info.profile_name == "no usable profile"


def test_a_profile_goes_before_what_the_exif_says() -> None:
    found = _read("JPEG", exif=_exif(1), icc_profile=adobe_rgb_profile("RGB"))
    assert found.info.profile_name == "Adobe RGB (1998)"


@pytest.mark.parametrize("cut", [0, 10, 26, 40, 60])
def test_a_damaged_block_names_nothing(cut: int) -> None:
    whole = _exif(65535, "R03").tobytes()
    assert _read("JPEG", exif=whole[:cut]).info.profile_assumed


def _with_chunk(data: bytes, kind: bytes, body: bytes) -> bytes:
    """A PNG with a chunk more behind its head, which takes 33 bytes."""
    chunk = len(body).to_bytes(4, "big") + kind + body
    return data[:33] + chunk + zlib.crc32(kind + body).to_bytes(4, "big") + data[33:]


def test_a_pngs_chunks_go_before_its_exif_block() -> None:
    """Published: PNG (third edition) 4.3: cICP, then iCCP, then sRGB, then gAMA and cHRM."""
    out = io.BytesIO()
    Image.new("RGB", (4, 4), (200, 30, 90)).save(out, "PNG", exif=_exif(65535, "R03"))

    def named(kind: bytes, body: bytes) -> tuple[str, list[str]]:
        found = read_picture(_with_chunk(out.getvalue(), kind, body), file="tide.png").info
        return found.profile_name, [note.code for note in found.notes]

    assert named(b"sRGB", b"\0") == (SRGB, [])
    assert named(b"cICP", bytes([1, 13, 0, 1])) == (SRGB, [])
    linear = (100_000).to_bytes(4, "big")
    assert named(b"gAMA", linear) == ("PNG gAMA 1.00000", [])
