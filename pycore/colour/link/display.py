"""A picture's own colours turned into sRGB for the screen."""

from __future__ import annotations

from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from pycore.colour.icc.device import CHANNELS
from pycore.colour.icc.endpoints import Standard
from pycore.colour.icc.profile import parse_profile, require_device
from pycore.colour.icc.transform import make_transform
from pycore.colour.link.make_map import make_pixel_map
from pycore.colour.link.pixel_map import PixelMap
from pycore.colour.spaces.arrays import ByteArray
from pycore.contract.job import Intent
from pycore.errors import FieldError, ProfileError
from pycore.speech import say

#: Steps of each channel at which a space is compared with sRGB.
_NODES: Final = 18

#: One step of 8 bits: what differs by less from sRGB everywhere is sRGB on the screen.
_SAME: Final = 1.0 / 255.0


def display_map(profile: bytes | None) -> PixelMap | None:
    """The map that turns RGB of a profile into sRGB.

    Relative colorimetric with black point compensation: the picture's white and black are the screen's.

    Parameters
    ----------
    profile : bytes or None
        The picture's ICC profile; None stands for sRGB.

    Returns
    -------
    PixelMap or None
        None where the picture can be shown as it is.

    Raises
    ------
    ProfileError
        The profile is damaged, or is none of an RGB space.

    Examples
    --------
    >>> display_map(None) is None
    True
    """
    if profile is None:
        return None
    parsed = parse_profile(profile)
    if require_device(parsed) != "RGB":
        raise ProfileError(
            field="profile colour space",
            expected=say("RGB"),
            got=parsed.header.device,
            remedy=say("turn its pixels into sRGB before they are shown"),
        )
    steps = np.linspace(0.0, 1.0, _NODES)
    values = np.stack([one.ravel() for one in np.meshgrid(steps, steps, steps)], axis=1)
    shown = make_transform(
        parsed, Standard.SRGB_UNBOUNDED, intent=Intent.RELATIVE, black_point_compensation=True
    )(values)
    if float(np.max(np.abs(shown - values))) < _SAME:
        return None
    return make_pixel_map(parsed, Standard.SRGB, intent=Intent.RELATIVE, black_point_compensation=True)


def to_srgb_pixels(pixels: NDArray[Any], *, profile: bytes) -> ByteArray:
    """Pixels of any grey, RGB or CMYK profile as sRGB; relative colorimetric with black point compensation.

    Parameters
    ----------
    pixels : (rows, columns, channels) uint8 or uint16
        One, three or four channels; for CMYK full scale is full ink.
    profile : bytes
        The profile of these pixels.

    Returns
    -------
    (rows, columns, 3) uint8
        srgb_encoded.

    Raises
    ------
    ProfileError
        The profile is damaged or of a kind that has no pixels.
    FieldError
        The pixels have another number of channels than the profile.
    """
    parsed = parse_profile(profile)
    count = CHANNELS[require_device(parsed)]
    if pixels.ndim != 3 or pixels.shape[2] != count:
        raise FieldError(
            field="pixels",
            expected=say("rows, columns and {count} channels", count=count),
            got=say("an array of shape {shape}", shape=pixels.shape),
            remedy=say("give the pixels the profile that belongs to them"),
        )
    to_srgb = make_pixel_map(parsed, Standard.SRGB, intent=Intent.RELATIVE, black_point_compensation=True)
    return to_srgb.to_bytes(pixels, row=0, column=0)
