"""A whole profile from its tags: header, tag table, data shared where tags are the same."""

from __future__ import annotations

import hashlib
import struct
from collections.abc import Mapping
from datetime import date

from pycore.colour.icc.header import ProfileClass
from pycore.colour.spaces.lab import D50_XYZ


def write_profile(
    *,
    version: tuple[int, int],
    profile_class: ProfileClass,
    device: str,
    pcs: str,
    made: date,
    tags: Mapping[str, bytes],
) -> bytes:
    """Put a profile together.

    Parameters
    ----------
    version : two int
        (2, 4) or (4, 4), for example. Version 4 profiles get their MD5 as an identifier.
    profile_class : ProfileClass
    device : str
        "RGB", "GRAY" or "CMYK".
    pcs : str
        "Lab" or "XYZ".
    made : date
        For the header; the core has no clock of its own.
    tags : mapping of str to bytes
        By signature of four characters; equal data is stored once.

    Returns
    -------
    bytes

    References
    ----------
    ICC.1:2022, 7.2 and 7.3; ICC.1:2001-04, 6.1 and 6.2.
    """
    start = 128 + 4 + 12 * len(tags)
    places: dict[bytes, int] = {}
    table, body = b"", b""
    for signature, data in tags.items():
        if data not in places:
            places[data] = start + len(body)
            # 7.1: every tag begins on a multiple of four bytes.
            body += data + bytes(-len(data) % 4)
        table += struct.pack(">4sII", signature.encode("latin-1"), places[data], len(data))
    white = b"".join(struct.pack(">i", round(value * 65536)) for value in D50_XYZ)
    header = (
        struct.pack(">I4sBBH", start + len(body), bytes(4), version[0], version[1] << 4, 0)
        + struct.pack(">4s4s4s", profile_class.value.encode(), _padded(device), _padded(pcs))
        + struct.pack(">6H", made.year, made.month, made.day, 0, 0, 0)
        + b"acsp"
        + bytes(28)
        + white
        + bytes(48)
    )
    profile = header + struct.pack(">I", len(tags)) + table + body
    if version[0] < 4:
        return profile
    # 7.2.18: over the whole profile, with flags, intent and identifier zero, which they are here.
    return profile[:84] + hashlib.md5(profile, usedforsecurity=False).digest() + profile[100:]


def _padded(signature: str) -> bytes:
    return signature.encode("latin-1").ljust(4)
