"""Whether two profiles say the same, however they were saved."""

from __future__ import annotations

from dataclasses import replace

from pycore.colour.icc.profile import Profile


def is_same_profile(one: Profile, other: Profile) -> bool:
    """Compare two profiles by what they say of their device.

    The order of the tags and the header's date, identifier, creator and platform tell when and by whom a profile
    was saved; they may differ.

    Parameters
    ----------
    one, other : Profile

    Returns
    -------
    bool
        True where the same tags hold the same bytes for the same kind of device.

    References
    ----------
    ICC.1:2022, 7.2.
    """
    # Tags in another order are padded otherwise, and then the size differs too.
    return replace(one.header, size=0) == replace(other.header, size=0) and _tags(one) == _tags(other)


def _tags(profile: Profile) -> dict[str, bytes]:
    return {name: bytes(block.data).rstrip(b"\0") for name, block in profile.tags.items()}
