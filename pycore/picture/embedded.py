"""The ICC profile inside a picture: kept byte for byte where it fits the picture, left out with a note."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pycore.colour.icc.profile import description, parse_profile, require_device
from pycore.colour.icc.standard_profiles import adobe_rgb_profile
from pycore.colour.icc.tone_curves import decode_table
from pycore.contract.notes import Note, Place, Severity
from pycore.errors import ProfileError
from pycore.picture.named_space import NamedSpace
from pycore.picture.source import CHANNELS
from pycore.speech import say

_SPACES = {"L": "GRAY", "RGB": "RGB", "CMYK": "CMYK"}


@dataclass(frozen=True, kw_only=True)
class EmbeddedProfile:
    """What came of a picture's profile.

    Attributes
    ----------
    profile : bytes or None
        Byte for byte; one of our own making where the file names another space than sRGB; None where there
        is none that can be used.
    name : str
        What it calls itself; what the file says, or what is assumed in its place.
    linear : (channels, 256) float64 or None
        Linear light by its tone curves, where it has such.
    notes : list of Note
    is_assumed : bool
        Neither a profile nor the file says which colours are meant.
    """

    profile: bytes | None
    name: str
    linear: npt.NDArray[np.float64] | None
    notes: list[Note]
    is_assumed: bool = False


def embedded_profile(raw: object, *, mode: str, named: NamedSpace | None = None) -> EmbeddedProfile:
    """Check a picture's profile against the picture.

    Parameters
    ----------
    raw : object
        What the decoder found: bytes, or something else where there is none.
    mode : str
        The flat picture's mode: L, RGB or CMYK.
    named : NamedSpace, optional
        The space that the file names otherwise, which counts where it has no profile.

    Returns
    -------
    EmbeddedProfile

    Examples
    --------
    >>> embedded_profile(None, mode="RGB").notes[0].code
    'profile-assumed'
    """
    if not isinstance(raw, bytes) or not raw:
        return _without(mode, _none(mode)) if named is None or mode == "CMYK" else _named(named, mode)
    try:
        space = require_device(parse_profile(raw))
        if space != _SPACES[mode]:
            return _without(mode, _mismatch(space, mode))
        linear = decode_table(raw)
        name = description(raw)
    except ProfileError as damage:
        return _without(mode, _damaged(damage, mode))
    return EmbeddedProfile(profile=raw, name=name or say("unnamed profile"), linear=linear, notes=[])


def _named(space: NamedSpace, mode: str) -> EmbeddedProfile:
    """A picture that names its space and has no profile of it."""
    if space is NamedSpace.SRGB:
        return EmbeddedProfile(
            profile=None, name=say("sRGB (the file says so)"), linear=_srgb_light(mode), notes=[]
        )
    made = adobe_rgb_profile(_SPACES[mode])
    name = say("Adobe RGB (the file says so)")
    return EmbeddedProfile(profile=made, name=name, linear=decode_table(made), notes=[])


def _srgb_light(mode: str) -> npt.NDArray[np.float64] | None:
    table = decode_table(None)
    return None if table is None else table[: CHANNELS[mode]]


def _without(mode: str, note: Note) -> EmbeddedProfile:
    """A picture without a usable profile; the note says why, and what comes of it."""
    if mode == "CMYK":
        name, linear = say("no usable profile"), None
    else:
        name, linear = say("sRGB (assumed)"), _srgb_light(mode)
    return EmbeddedProfile(profile=None, name=name, linear=linear, notes=[note], is_assumed=True)


def _none(mode: str) -> Note:
    if mode == "CMYK":
        return _note(
            "profile-missing",
            say(
                "The picture is CMYK and has no usable profile, so its colours are unknown: the screen "
                "and a converted print file take them from a plain formula."
            ),
            say("Export the picture with its profile, or as sRGB."),
        )
    return _note(
        "profile-assumed",
        say("The picture has no usable profile, so sRGB is assumed."),
        say("If it is not sRGB, export it again with its profile embedded."),
    )


def _left_out(mode: str) -> str:
    """What comes of a profile that cannot be used."""
    if mode == "CMYK":
        return say(
            "It is left out, so the picture's colours are unknown: the screen and a converted print file "
            "take them from a plain formula."
        )
    return say("It is left out, and sRGB is assumed.")


def _mismatch(space: str, mode: str) -> Note:
    return _note(
        "profile-mismatch",
        say(
            "The embedded profile is for {space}, but the picture is {picture_space}. {left_out}",
            space=space,
            picture_space=_SPACES[mode],
            left_out=_left_out(mode),
        ),
        say("Export the picture again with a profile of its own kind."),
    )


def _damaged(damage: ProfileError, mode: str) -> Note:
    return _note(
        "profile-damaged",
        say(
            "The embedded profile cannot be used. {damage} {left_out}",
            damage=damage.message,
            left_out=_left_out(mode),
        ),
        say("Export the picture again with a sound profile."),
    )


def _note(code: str, message: str, remedy: str) -> Note:
    return Note(
        code=code,
        severity=Severity.WATCH,
        place=Place.PICTURE,
        message=message,
        remedy=remedy,
        field="picture.file",
    )
