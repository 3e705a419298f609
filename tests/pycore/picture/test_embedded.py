"""The embedded profile: kept where it fits, left out with a note where it does not."""

from __future__ import annotations

import struct

import numpy as np
import pytest
from PIL import ImageCms

from pycore.picture.embedded import embedded_profile


def _srgb() -> bytes:
    return bytes(ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes())


@pytest.mark.native
def test_a_profile_that_fits_is_kept_byte_for_byte() -> None:
    found = embedded_profile(_srgb(), mode="RGB")
    assert found.profile == _srgb()
    assert "sRGB" in found.name
    assert found.notes == []
    assert found.linear is not None
    assert found.linear.shape == (3, 256)


@pytest.mark.native
def test_srgb_is_decoded_as_published() -> None:
    """Published: IEC 61966-2-1: V / 12.92 up to 0.04045, else ((V + 0.055) / 1.055) ** 2.4.

    Derived: at 10, 128 and 255: 0.0030353, 0.2158605 and 1 (to half of the last digit).
    """
    for profile in (None, _srgb()):
        linear = embedded_profile(profile, mode="RGB").linear
        assert linear is not None
        # The profile keeps its curve's constants to 1 / 65536.
        assert linear[0, [10, 128, 255]] == pytest.approx([0.0030353, 0.2158605, 1.0], abs=2e-5)


def test_no_profile_means_srgb_with_a_warning() -> None:
    found = embedded_profile(None, mode="RGB")
    assert found.profile is None
    assert [(note.code, note.severity) for note in found.notes] == [("profile-assumed", "watch")]


@pytest.mark.native
@pytest.mark.parametrize(("mode", "then"), [("L", "sRGB is assumed"), ("CMYK", "a plain formula")])
def test_a_profile_of_another_kind_is_left_out(mode: str, then: str) -> None:
    found = embedded_profile(_srgb(), mode=mode)
    assert found.profile is None
    assert found.is_assumed
    assert [note.code for note in found.notes] == ["profile-mismatch"]
    assert "RGB" in found.notes[0].message
    assert then in found.notes[0].message


@pytest.mark.native
@pytest.mark.parametrize("size", [1, 64, 130, 400])
def test_a_damaged_profile_is_left_out(size: int) -> None:
    found = embedded_profile(_srgb()[:size], mode="RGB")
    assert found.profile is None
    assert [note.code for note in found.notes] == ["profile-damaged"]
    assert "sRGB is assumed" in found.notes[0].message


def test_grey_without_a_profile_has_srgbs_curve_once() -> None:
    found = embedded_profile(None, mode="L")
    assert found.linear is not None
    assert found.linear.shape == (1, 256)


def _smallest_profile(space: bytes, name: bytes) -> bytes:
    """A header and a description, nothing else (ICC.1:2001-04, 6.1 and 6.5.17)."""
    text = b"desc" + bytes(4) + struct.pack(">I", len(name) + 1) + name + b"\0" + bytes(78)
    table = struct.pack(">I4sII", 1, b"desc", 144, len(text))
    header = struct.pack(">I4s4B4s4s4s", 144 + len(text), b"", 2, 0x40, 0, 0, b"prtr", space, b"Lab ")
    header += bytes(12) + b"acsp"
    return header + bytes(128 - len(header)) + table + text


def test_cmyk_keeps_its_profile_and_has_no_curves() -> None:
    profile = _smallest_profile(b"CMYK", b"Invented press")
    found = embedded_profile(profile, mode="CMYK")
    assert found.profile == profile
    assert found.linear is None
    assert found.name == "Invented press"
    assert found.notes == []


@pytest.mark.native
def test_linear_light_never_falls() -> None:
    linear = embedded_profile(_srgb(), mode="RGB").linear
    assert linear is not None
    assert (np.diff(linear, axis=1) > 0).all()
