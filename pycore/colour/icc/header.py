"""The header of an ICC profile: 128 bytes that say what the profile is for."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from pycore.colour.icc.block import Block
from pycore.errors import shown
from pycore.speech import say

HEADER_BYTES: Final = 128

#: Profiles for more than three or four channels stay well below this; nothing larger is read.
MAX_PROFILE_BYTES: Final = 64 * 1024 * 1024


class ProfileClass(StrEnum):
    """What a profile describes (ICC.1:2022, table 18)."""

    INPUT = "scnr"
    DISPLAY = "mntr"
    OUTPUT = "prtr"
    LINK = "link"
    SPACE = "spac"
    ABSTRACT = "abst"
    NAMED = "nmcl"


@dataclass(frozen=True, kw_only=True, slots=True)
class Header:
    """What the header says.

    Attributes
    ----------
    size : int
        Bytes of the whole profile.
    version : tuple of int
        Major and minor: (2, 1), (4, 4).
    profile_class : ProfileClass
    device : str
        Colour space of the device side, padding removed: "RGB", "GRAY", "CMYK".
    pcs : str
        Profile connection space: "Lab" or "XYZ" ("" and others for device links and the like).
    intent : int
        The header's rendering intent, 0 to 3.
    """

    size: int
    version: tuple[int, int]
    profile_class: ProfileClass
    device: str
    pcs: str
    intent: int


def read_header(whole: Block) -> Header:
    """Read and check the header.

    Parameters
    ----------
    whole : Block
        The profile's bytes.

    Returns
    -------
    Header

    Raises
    ------
    ProfileError
        Not a profile, truncated, of a version or class that is not known.

    References
    ----------
    ICC.1:2022, 7.2.
    """
    if len(whole) < HEADER_BYTES + 4:
        raise whole.wrong(
            expected=say("at least {header_bytes} bytes of ICC profile", header_bytes=HEADER_BYTES + 4),
            got=say("{whole_count} bytes", whole_count=len(whole)),
            remedy=say("choose an ICC profile (.icc or .icm)"),
            said=say("The file is no ICC profile: it has {whole_count} bytes.", whole_count=len(whole)),
        )
    if whole.signature(36) != "acsp":
        raise whole.wrong(
            expected=say("the profile signature 'acsp' at byte 36"),
            got=shown(whole.signature(36)),
            remedy=say("choose an .icc or .icm file"),
            said=say("The file is no ICC profile: the profile signature 'acsp' is missing."),
        )
    size = whole.u32(0)
    if size > len(whole):
        raise whole.wrong(
            expected=say("{size} bytes, as its header says", size=size),
            got=say("{whole_count} bytes", whole_count=len(whole)),
            remedy=say("get a fresh copy of the profile"),
            said=say(
                "The profile is cut off: it has {whole_count} bytes, and its header says {size}.",
                whole_count=len(whole),
                size=size,
            ),
        )
    if not HEADER_BYTES + 4 <= size <= MAX_PROFILE_BYTES:
        raise whole.wrong(
            expected=say(
                "a size from {header_bytes} to {max_profile_bytes} bytes in the header",
                header_bytes=HEADER_BYTES + 4,
                max_profile_bytes=MAX_PROFILE_BYTES,
            ),
            got=str(size),
        )
    version = (whole.u8(8), whole.u8(9) >> 4)
    if version[0] not in {2, 4}:
        raise whole.wrong(
            expected=say("ICC version 2 or 4"),
            got=f"{version[0]}.{version[1]}",
            remedy=say("save the profile as version 2 or 4"),
            said=say(
                "The profile is of ICC version {version0}.{version1}; versions 2 and 4 can be used.",
                version0=version[0],
                version1=version[1],
            ),
        )
    kind = whole.signature(12)
    if kind not in set(ProfileClass):
        raise whole.wrong(expected=say("a known profile class"), got=shown(kind))
    # 7.2.15: the intent is the low 16 bits. Old software wrote into the high ones (the sRGB profile inside
    # many cameras' and editors' JPEGs holds 0x01000000), so these are not looked at.
    intent = whole.u32(64) & 0xFFFF
    if intent > 3:
        raise whole.wrong(expected=say("a rendering intent from 0 to 3 in the header"), got=str(intent))
    return Header(
        size=size,
        version=version,
        profile_class=ProfileClass(kind),
        device=whole.signature(16).rstrip(" "),
        pcs=whole.signature(20).rstrip(" "),
        intent=intent,
    )
