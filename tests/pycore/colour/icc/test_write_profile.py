"""Profiles that are made here, read by this engine and by LittleCMS."""

import hashlib
import io
from datetime import date

import numpy as np
import pytest
from PIL import ImageCms

from pycore.colour.icc.header import ProfileClass
from pycore.colour.icc.profile import description, parse_profile
from pycore.colour.icc.white import read_xyz
from pycore.colour.icc.write_profile import write_profile
from pycore.colour.icc.write_tags import description_tag, text_tag, xyz_tag
from pycore.errors import FieldError

from ..make_profiles import localised_tag


def small(version: tuple[int, int], describe: bytes) -> bytes:
    grey = xyz_tag([0.25, 0.5, 0.125])
    return write_profile(
        version=version,
        profile_class=ProfileClass.DISPLAY,
        device="RGB",
        pcs="XYZ",
        made=date(2026, 2, 3),
        tags={"desc": describe, "rXYZ": grey, "gXYZ": grey, "cprt": text_tag("x")},
    )


def test_what_is_written_is_read() -> None:
    data = small((2, 4), description_tag("A name"))
    profile = parse_profile(data)
    assert description(data) == "A name"
    assert profile.header.version == (2, 4)
    assert profile.header.size == len(data)
    assert read_xyz(profile, "rXYZ").tolist() == [0.25, 0.5, 0.125]
    assert len(data) % 4 == 0
    # published: ICC.1:2001-04 has no identifier; its header ends with 44 bytes of zeros.
    assert data[84:128] == bytes(44)


def test_equal_tags_are_stored_once() -> None:
    data = small((2, 4), description_tag("A name"))
    # derived: the table's second and third entries have the same offset
    assert data[132 + 12 + 4 : 132 + 12 + 8] == data[132 + 24 + 4 : 132 + 24 + 8]


def test_version_4_has_its_identifier() -> None:
    data = small((4, 4), localised_tag("Größe"))
    assert description(data) == "Größe"
    # published: ICC.1:2022, 7.2.18: MD5 with flags, intent and identifier zero
    blank = data[:84] + bytes(16) + data[100:]
    assert data[84:100] == hashlib.md5(blank, usedforsecurity=False).digest()


def test_version_2_texts_are_ascii() -> None:
    with pytest.raises(FieldError, match="must be ASCII"):
        description_tag("Größe")


@pytest.mark.native
@pytest.mark.parametrize("name", ["matrix-v4", "cmyk-v2", "curves-lab-v4", "illustrative-matte"])
def test_littlecms_reads_them(profiles: dict[str, bytes], name: str) -> None:
    opened = ImageCms.ImageCmsProfile(io.BytesIO(profiles[name]))
    assert ImageCms.getProfileDescription(opened).strip() == description(profiles[name])
    white = parse_profile(profiles[name])
    theirs = opened.profile.media_white_point
    assert theirs is not None
    assert np.abs(np.array(theirs[0]) - read_xyz(white, "wtpt")).max() < 1e-5
