"""What a profile is: its kind, white, black, gamut and tables."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.colour.gamut.mesh import gamut_mesh
from pycore.colour.icc.device import CHANNELS, darkest_value, from_connection, to_connection
from pycore.colour.icc.endpoints import Standard
from pycore.colour.icc.header import ProfileClass
from pycore.colour.icc.profile import Profile, require_device
from pycore.colour.icc.texts import read_text
from pycore.colour.icc.transform import make_transform
from pycore.colour.icc.white import device_adaptation, media_white
from pycore.colour.spaces.arrays import FloatArray
from pycore.colour.spaces.lab import xyz_to_lab
from pycore.contract.job import Intent
from pycore.contract.record import Triple
from pycore.errors import ProfileError
from pycore.speech import say

_KINDS: Final = {
    ProfileClass.INPUT: say("a scanner's or camera's"),
    ProfileClass.DISPLAY: say("a display's or working space's"),
    ProfileClass.OUTPUT: say("a printer's"),
    ProfileClass.SPACE: say("a colour space's"),
}


@dataclass(frozen=True, kw_only=True, slots=True)
class ProfileReport:
    """A profile in figures. Lab is that of D50."""

    description: str
    kind: str
    version: str
    device: str
    channels: int
    pcs: str
    white_lab: Triple
    """The media white as it is, absolute."""
    device_white_lab: Triple
    """The same before its adaptation to D50 (the `chad` tag); equal where there is none."""
    black_lab: Triple
    """What asking for black gives, absolute; of the darkest device value where there is no way back."""
    gamut_volume: float
    """Cubic Lab units, relative to the media white; 0 for grey."""
    forward: dict[str, str]
    """For each intent, what leads from the device: a table's tag, a matrix, or a grey curve."""
    backward: dict[str, str]
    """The same to the device; empty where there is no way."""
    tags: tuple[str, ...]


def profile_report(profile: Profile) -> ProfileReport:
    """Describe a profile.

    Parameters
    ----------
    profile : Profile

    Returns
    -------
    ProfileReport

    Raises
    ------
    ProfileError
        Not of a device, or damaged.
    """
    device = require_device(profile)
    header = profile.header
    forward = {one.value: to_connection(profile, intent=one).source for one in Intent}
    has_way_back = any(tag.startswith("B2A") for tag in profile.tags) or "A2B0" not in profile.tags
    backward = {}
    if has_way_back:
        backward = {one.value: from_connection(profile, intent=one).source for one in Intent}
    white = media_white(profile)
    unadapted = np.linalg.inv(device_adaptation(profile)).astype(np.float64) @ white
    return ProfileReport(
        description=read_text(profile.tag("desc")),
        kind=_KINDS[header.profile_class],
        version=f"{header.version[0]}.{header.version[1]}",
        device=device,
        channels=CHANNELS[device],
        pcs=header.pcs,
        white_lab=_triple(xyz_to_lab(white)),
        device_white_lab=_triple(xyz_to_lab(unadapted)),
        black_lab=_triple(_black(profile, device, has_way_back)),
        gamut_volume=0.0 if device == "GRAY" else gamut_mesh(profile, intent=Intent.RELATIVE).volume,
        forward=forward,
        backward=backward,
        tags=tuple(profile.tags),
    )


def require_printer(profile: Profile) -> None:
    """Check that a profile can stand for a canvas on a printer.

    Parameters
    ----------
    profile : Profile

    Raises
    ------
    ProfileError
        It is of another kind of device, or grey, or lacks the tables of a printer.
    """
    device = require_device(profile)
    if profile.header.profile_class is not ProfileClass.OUTPUT or device == "GRAY":
        kind = _KINDS[profile.header.profile_class]
        raise ProfileError(
            field="profile class",
            expected=say("that of an RGB or CMYK printer"),
            got=say("{kind} profile ({device})", kind=kind, device=device),
            remedy=say("choose the profile of the canvas on its printer"),
        )
    for intent in Intent:
        to_connection(profile, intent=intent)
        from_connection(profile, intent=intent)
    media_white(profile)


def _black(profile: Profile, device: str, has_way_back: bool) -> FloatArray:
    to_lab = make_transform(profile, Standard.LAB, intent=Intent.ABSOLUTE, black_point_compensation=False)
    darkest = darkest_value(device)
    if has_way_back:
        to_device = make_transform(
            Standard.LAB, profile, intent=Intent.RELATIVE, black_point_compensation=False
        )
        darkest = to_device(np.zeros((1, 3)))
    return to_lab(darkest).ravel()


def _triple(values: FloatArray) -> Triple:
    first, second, third = (float(one) for one in values)
    return first, second, third
