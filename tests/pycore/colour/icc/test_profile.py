"""The header and the tag table, right and wrong."""

import struct

import pytest

from pycore.colour.icc.header import ProfileClass
from pycore.colour.icc.profile import description, parse_profile, require_device
from pycore.errors import ProfileError


def changed(data: bytes, at: int, new: bytes) -> bytes:
    return data[:at] + new + data[at + len(new) :]


def test_header_fields(profiles: dict[str, bytes]) -> None:
    # derived: as `make_profiles.py` wrote them
    header = parse_profile(profiles["cmyk-v2"]).header
    assert header.version == (2, 1)
    assert header.profile_class is ProfileClass.OUTPUT
    assert (header.device, header.pcs, header.intent) == ("CMYK", "Lab", 0)
    assert header.size == len(profiles["cmyk-v2"])


def test_descriptions_of_both_versions(profiles: dict[str, bytes]) -> None:
    assert description(profiles["cmyk-v2"]) == "Test CMYK"
    assert description(profiles["matrix-v4"]) == "Test matrix"


def test_bytes_after_the_profile_are_left_alone(profiles: dict[str, bytes]) -> None:
    assert parse_profile(profiles["grey-v2"] + b"tail").header.size == len(profiles["grey-v2"])


@pytest.mark.parametrize(
    ("at", "new", "field", "message"),
    [
        (36, b"nope", "profile", "profile signature 'acsp'"),
        (0, struct.pack(">I", 2**31), "profile", "The profile is cut off"),
        (0, struct.pack(">I", 100), "profile", "a size from 132"),
        (8, b"\5", "profile", "of ICC version 5\\.4"),
        (12, b"what", "profile", "a known profile class, and has 'what'"),
        (64, b"\0\0\0\7", "profile", "a rendering intent from 0 to 3 in the header, and has 7"),
        (128, struct.pack(">I", 0), "profile", "1 to 1000 tags, and has 0"),
        (128, struct.pack(">I", 2**32 - 1), "profile", "1 to 1000 tags, and has 4294967295"),
        (128, struct.pack(">I", 900), "profile, tag table", "10800 bytes from byte 132"),
        (136, struct.pack(">I", 2**32 - 8), "tag desc", "bytes from byte 4294967288"),
        (136, struct.pack(">I", 16), "tag desc", "from byte 16"),
        (140, struct.pack(">I", 2**32 - 1), "tag desc", "has 4294967295 bytes"),
        (140, struct.pack(">I", 4), "tag desc", "at least 8 bytes"),
        (144, b"desc", "profile, tag table", "every tag once, and has tag desc twice"),
    ],
)
def test_lies_are_named(profiles: dict[str, bytes], at: int, new: bytes, field: str, message: str) -> None:
    with pytest.raises(ProfileError, match=message) as caught:
        parse_profile(changed(profiles["grey-v2"], at, new))
    assert caught.value.field == field
    assert caught.value.code == "profile"


@pytest.mark.parametrize("size", [0, 1, 127, 131])
def test_too_short_for_a_header(profiles: dict[str, bytes], size: int) -> None:
    with pytest.raises(ProfileError, match=f"The file is no ICC profile: it has {size} bytes"):
        parse_profile(profiles["grey-v2"][:size])


@pytest.mark.parametrize(
    ("kind", "said"),
    [(b"link", "a device link"), (b"nmcl", "a named-colour profile"), (b"abst", "an abstract profile")],
)
def test_kinds_without_a_device(profiles: dict[str, bytes], kind: bytes, said: str) -> None:
    with pytest.raises(ProfileError, match=said) as caught:
        require_device(parse_profile(changed(profiles["cmyk-v2"], 12, kind)))
    assert caught.value.field == "profile class"


def test_other_device_spaces(profiles: dict[str, bytes]) -> None:
    with pytest.raises(ProfileError, match="must be RGB, GRAY or CMYK; it is '6CLR'"):
        require_device(parse_profile(changed(profiles["cmyk-v2"], 16, b"6CLR")))


def test_other_connection_spaces(profiles: dict[str, bytes]) -> None:
    with pytest.raises(ProfileError, match="must be Lab or XYZ; it is 'Luv'"):
        require_device(parse_profile(changed(profiles["cmyk-v2"], 20, b"Luv ")))


def test_a_missing_tag_is_named(profiles: dict[str, bytes]) -> None:
    with pytest.raises(ProfileError, match="it has no tag") as caught:
        parse_profile(profiles["grey-v2"]).tag("A2B0")
    assert caught.value.field == "tag A2B0"
