"""An ICC profile as a header and checked blocks of tags. Nothing is decoded here before it is asked for."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from pycore.colour.icc.block import Block
from pycore.colour.icc.header import HEADER_BYTES, MAX_PROFILE_BYTES, Header, ProfileClass, read_header
from pycore.colour.icc.texts import read_text
from pycore.errors import ProfileError, shown
from pycore.speech import say

#: More tags than any standard or vendor defines; a count beyond it is a lie.
_MAX_TAGS = 1000

_KIND_NAMES = {
    ProfileClass.LINK: say("a device link, which has no connection space of its own"),
    ProfileClass.NAMED: say("a named-colour profile"),
    ProfileClass.ABSTRACT: say("an abstract profile, which describes no device"),
}


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Profile:
    """A parsed profile.

    Attributes
    ----------
    header : Header
    tags : mapping of str to Block
        By signature, padding kept ("A2B0", "wtpt", "rTRC").
    """

    header: Header
    tags: Mapping[str, Block]

    def tag(self, signature: str) -> Block:
        """Find the tag with a signature.

        Parameters
        ----------
        signature : str
            Four characters.

        Returns
        -------
        Block

        Raises
        ------
        ProfileError
            The profile has none.
        """
        try:
            return self.tags[signature]
        except KeyError:
            raise ProfileError(
                field=f"tag {signature}",
                expected=say("present, as this kind of profile needs it"),
                got=say("no such tag"),
                remedy=say("choose another profile"),
                said=say("The profile is incomplete: it has no tag {signature}.", signature=signature),
            ) from None


def parse_profile(data: bytes) -> Profile:
    """Read the header and the tag table, and check that every tag lies inside the profile.

    Parameters
    ----------
    data : bytes
        The whole file. Bytes after the size that the header gives are left alone.

    Returns
    -------
    Profile

    Raises
    ------
    ProfileError
        Naming the tag and what is wrong.

    References
    ----------
    ICC.1:2022, 7.2 and 7.3.

    Examples
    --------
    >>> parse_profile(b"hello")
    Traceback (most recent call last):
    pycore.errors.ProfileError: The file is no ICC profile: it has 5 bytes. Choose ...
    """
    if len(data) > 2 * MAX_PROFILE_BYTES:
        raise ProfileError(
            field="profile",
            expected=say("at most {max_profile_bytes} bytes", max_profile_bytes=MAX_PROFILE_BYTES),
            got=say("{data_count} bytes", data_count=len(data)),
            remedy=say("choose an ICC profile (.icc or .icm)"),
        )
    file = Block(name="profile", data=memoryview(data))
    header = read_header(file)
    whole = file.part(0, header.size)
    count = whole.u32(HEADER_BYTES)
    if not 1 <= count <= _MAX_TAGS:
        raise whole.wrong(expected=say("1 to {max_tags} tags", max_tags=_MAX_TAGS), got=str(count))
    table = whole.part(HEADER_BYTES + 4, 12 * count, name=say("tag table"))
    tags: dict[str, Block] = {}
    for index in range(count):
        signature = table.signature(12 * index)
        offset, size = table.u32(12 * index + 4), table.u32(12 * index + 8)
        name = (
            say("tag {signature}", signature=signature)
            if signature.isprintable()
            else say("tag {signature}", signature=shown(signature))
        )
        if signature in tags:
            raise table.wrong(expected=say("every tag once"), got=say("{name} twice", name=name))
        if offset < HEADER_BYTES + 4 + 12 * count or size < 8 or offset + size > header.size:
            raise ProfileError(
                field=name,
                expected=say(
                    "at least 8 bytes between {header_bytes} and {size}",
                    header_bytes=HEADER_BYTES + 4 + 12 * count,
                    size=header.size,
                ),
                got=say("{size} bytes from byte {offset}", size=size, offset=offset),
                remedy=say("get a fresh copy of the profile"),
                said=say(
                    "The profile is damaged: its {name} should have at least 8 bytes between "
                    "{header_bytes} and {size}, and has {size2} bytes from byte {offset}.",
                    name=name,
                    header_bytes=HEADER_BYTES + 4 + 12 * count,
                    size=header.size,
                    size2=size,
                    offset=offset,
                ),
            )
        tags[signature] = Block(name=name, data=whole.data[offset : offset + size])
    return Profile(header=header, tags=MappingProxyType(tags))


def require_device(profile: Profile) -> str:
    """The device space, for profiles that connect a device to the connection space.

    Parameters
    ----------
    profile : Profile

    Returns
    -------
    str
        "RGB", "GRAY" or "CMYK".

    Raises
    ------
    ProfileError
        A device link, named-colour or abstract profile, or a device of another kind.
    """
    header = profile.header
    if header.profile_class in _KIND_NAMES:
        raise ProfileError(
            field="profile class",
            expected=say("that of a printer, a display, a scanner or a working space"),
            got=_KIND_NAMES[header.profile_class],
            remedy=say("choose the profile of the canvas on its printer, or of the picture"),
        )
    if header.device not in {"RGB", "GRAY", "CMYK"}:
        raise ProfileError(
            field="profile colour space",
            expected=say("RGB, GRAY or CMYK"),
            got=shown(header.device),
            remedy=say("choose a profile of such a device"),
        )
    if header.pcs not in {"Lab", "XYZ"}:
        raise ProfileError(
            field="profile connection space",
            expected=say("Lab or XYZ"),
            got=shown(header.pcs),
            remedy=say("get a fresh copy of the profile"),
        )
    return header.device


def description(profile: bytes) -> str:
    """The name that a profile gives itself.

    Parameters
    ----------
    profile : bytes
        The whole file.

    Returns
    -------
    str
        Maybe empty.

    Raises
    ------
    ProfileError
        The profile is damaged or has no description.
    """
    return read_text(parse_profile(profile).tag("desc"))
