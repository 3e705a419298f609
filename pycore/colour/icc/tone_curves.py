"""From encoded pixel values to linear light by a profile's tone curves alone, for resampling pictures."""

from __future__ import annotations

import numpy as np

from pycore.colour.icc.curves import read_curve
from pycore.colour.icc.profile import Profile, parse_profile
from pycore.colour.spaces.arrays import FloatArray
from pycore.colour.spaces.lightness import to_light
from pycore.colour.spaces.srgb import srgb_decode

_CHANNELS = {"RGB": ("rTRC", "gTRC", "bTRC"), "GRAY": ("kTRC",)}


def decode_table(profile: bytes | None, *, entries: int = 256) -> FloatArray | None:
    """Linear light of every 8-bit value, or of evenly spaced values, channel by channel.

    Parameters
    ----------
    profile : bytes or None
        The picture's ICC profile; None stands for sRGB.
    entries : int
        256 for 8 bits, 65536 for 16.

    Returns
    -------
    (channels, entries) float64 or None
        Linear light, 0 to 1, never falling; three channels for RGB, one for grey. None where the profile has
        no tone curves (tables only, CMYK): its values cannot be made linear one channel at a time.

    Raises
    ------
    ProfileError
        The profile, or one of its curves, is damaged.

    References
    ----------
    ICC.1:2022, 9.2 (the TRC tags) and annex F.3; IEC 61966-2-1.

    Examples
    --------
    >>> decode_table(None).shape
    (3, 256)
    """
    levels = np.arange(entries, dtype=np.float64) / (entries - 1.0)
    if profile is None:
        return np.tile(srgb_decode(levels), (3, 1))
    parsed = parse_profile(profile)
    signatures = _CHANNELS.get(parsed.header.device, ())
    if not signatures or not all(one in parsed.tags for one in signatures):
        return None
    table = np.stack([_linear(parsed, one, levels) for one in signatures])
    # A table that falls somewhere could not be turned round after resampling.
    result: FloatArray = np.maximum.accumulate(np.clip(table, 0.0, 1.0), axis=1)
    return result


def _linear(profile: Profile, signature: str, levels: FloatArray) -> FloatArray:
    curve, _ = read_curve(profile.tag(signature))
    values = curve(levels)
    if signature == "kTRC" and profile.header.pcs == "Lab":
        # With Lab as the connection space a grey curve gives lightness: turned into luminance, CIE 15, 8.2.1.
        values = to_light(np.clip(values, 0.0, 1.0))
    return values
