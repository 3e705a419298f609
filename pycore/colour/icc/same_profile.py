"""Whether two profiles say the same, however they were saved."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from pycore.colour.icc.profile import Profile

#: Tags that name a profile, its owner, its device and when and from what it was made, and are no part of any
#: colour (ICC.1:2022, 9.2; dscm: common practice).
_WORDS: Final = frozenset({"desc", "dscm", "cprt", "dmnd", "dmdd", "vued", "targ", "calt", "meta"})


def is_same_profile(one: Profile, other: Profile) -> bool:
    """Compare two profiles by what they say of their device.

    The order of the tags, the header's date, identifier, creator and platform, and the tags that hold a name,
    a copyright or the patches that were measured tell when, by whom and from what a profile was made; they
    may differ.

    Parameters
    ----------
    one, other : Profile

    Returns
    -------
    bool
        True where the tags of colour are the same and hold the same bytes for the same kind of device.

    References
    ----------
    ICC.1:2022, 7.2.
    """
    # Tags in another order are padded otherwise, and then the size differs too.
    return replace(one.header, size=0) == replace(other.header, size=0) and _tags(one) == _tags(other)


def _tags(profile: Profile) -> dict[str, bytes]:
    return {
        name: bytes(block.data).rstrip(b"\0") for name, block in profile.tags.items() if name not in _WORDS
    }
