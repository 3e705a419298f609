"""A colour given as sRGB in a picture's own values, so that a plain side looks as it was chosen."""

from __future__ import annotations

import numpy as np

from pycore.colour.icc.endpoints import Standard
from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.transform import make_transform
from pycore.colour.spaces.srgb import SRGB_LUMINANCE, srgb_decode, srgb_encode
from pycore.contract.job import Intent
from pycore.fill.colour import PlainColour, srgb_values
from pycore.picture.source import SourcePicture


def plain_values(source: SourcePicture, *, bits: int = 8) -> PlainColour:
    """Find the way from '#rrggbb' (sRGB) to a picture's own values.

    With a profile: relative colorimetric with black point compensation. Without one: RGB as it is; grey by
    luminance; CMYK as the ink that each of red, green and blue lacks, since its inks are unknown.

    Parameters
    ----------
    source : SourcePicture
    bits : int
        8 or 16, of the values.

    Returns
    -------
    callable
        From '#rrggbb' to one value per channel; raises `ProfileError` where the profile has no way in.
    """
    profile, mode, top = source.profile, source.image.mode, 2**bits - 1
    if profile is not None:
        return lambda colour: _by_profile(colour, profile, top)
    if mode == "L":
        return lambda colour: _by_luminance(colour, top)
    wide = top // 255
    if mode == "CMYK":
        return lambda colour: (*(wide * (255 - value) for value in srgb_values(colour)), 0)
    return lambda colour: tuple(wide * value for value in srgb_values(colour))


def _by_profile(colour: str, profile: bytes, top: int) -> tuple[int, ...]:
    to_device = make_transform(
        Standard.SRGB, parse_profile(profile), intent=Intent.RELATIVE, black_point_compensation=True
    )
    device = to_device(np.array([srgb_values(colour)]) / 255.0)[0]
    return tuple(int(value) for value in np.floor(np.clip(device, 0.0, 1.0) * top + 0.5))


def _by_luminance(colour: str, top: int) -> tuple[int, ...]:
    light = srgb_decode(np.array(srgb_values(colour)) / 255.0)
    grey = sum(weight * float(one) for weight, one in zip(SRGB_LUMINANCE, light, strict=True))
    return (int(float(srgb_encode(np.array([grey]))[0]) * top + 0.5),)
