"""Profiles of published spaces, of our own making, for pictures and files that name a space and have none."""

from __future__ import annotations

from datetime import date
from functools import lru_cache
from typing import Final

import numpy as np

from pycore.colour.icc.header import ProfileClass
from pycore.colour.icc.write_profile import write_profile
from pycore.colour.icc.write_tags import curve_tag, description_tag, gamma_tag, text_tag, xyz_tag
from pycore.colour.spaces.adapt import rgb_matrix
from pycore.colour.spaces.lab import D50_XYZ
from pycore.colour.spaces.srgb import D65_XY, SRGB_PRIMARIES, srgb_decode

#: Entries of sRGB's curve. Between two of them a straight line misses the standard's by 4e-7 of full scale.
_ENTRIES: Final = 1024

#: Published: Adobe RGB (1998) Color Image Encoding (2005), 4.3.1.1 and 4.3.4.2, and as opRGB IEC 61966-2-5.
_ADOBE_RGB_PRIMARIES: Final = ((0.64, 0.33), (0.21, 0.71), (0.15, 0.06))
_ADOBE_RGB_GAMMA: Final = 563 / 256

_RIGHTS: Final = "In the public domain."


@lru_cache(maxsize=2)
def srgb_profile(device: str) -> bytes:
    """Make sRGB's profile, version 2, which every program reads.

    Parameters
    ----------
    device : str
        "RGB", or "GRAY" for one channel with the same curve.

    Returns
    -------
    bytes
        Always the same.

    References
    ----------
    IEC 61966-2-1:1999 (primaries, white and curve).

    Examples
    --------
    >>> from pycore.colour.icc.profile import description
    >>> description(srgb_profile("RGB")), len(srgb_profile("RGB")) < 3000
    ('sRGB', True)
    """
    return space_profile("sRGB", device, curve=srgb_curve_tag(), primaries=SRGB_PRIMARIES)


@lru_cache(maxsize=2)
def adobe_rgb_profile(device: str) -> bytes:
    """Make the profile of Adobe RGB (1998), version 2.

    Parameters
    ----------
    device : str
        "RGB", or "GRAY" for one channel with the same curve.

    Returns
    -------
    bytes
        Always the same.

    References
    ----------
    Adobe RGB (1998) Color Image Encoding (2005); IEC 61966-2-5:2007 (opRGB).

    Examples
    --------
    >>> from pycore.colour.icc.profile import description
    >>> description(adobe_rgb_profile("RGB"))
    'Adobe RGB (1998)'
    """
    curve = gamma_tag(_ADOBE_RGB_GAMMA)
    return space_profile("Adobe RGB (1998)", device, curve=curve, primaries=_ADOBE_RGB_PRIMARIES)


def srgb_curve_tag() -> bytes:
    """Make the tag of sRGB's curve.

    Returns
    -------
    bytes
    """
    return curve_tag(srgb_decode(np.linspace(0.0, 1.0, _ENTRIES, dtype=np.float64)))


def space_profile(
    name: str,
    device: str,
    *,
    curve: bytes,
    primaries: tuple[tuple[float, float], ...],
    white: tuple[float, float] = D65_XY,
) -> bytes:
    """Make the profile of a space with three primaries and one curve, version 2.

    Parameters
    ----------
    name : str
        ASCII.
    device : str
        "RGB", or "GRAY" for the curve alone.
    curve : bytes
        A `curv` tag.
    primaries : three chromaticities
        x and y of red, green and blue; none may lie on a line with the other two.
    white : two float
        x and y; y above 0.

    Returns
    -------
    bytes

    References
    ----------
    ICC.1:2001-04, 6.3.1.1 and 6.3.2.1 (the tags that it must have); ICC.1:2022, annex E (the primaries under
    D50).
    """
    grey = device == "GRAY"
    tags = {
        "desc": description_tag(f"{name}, grey" if grey else name),
        "cprt": text_tag(_RIGHTS),
        "wtpt": xyz_tag(D50_XYZ),
    }
    if grey:
        tags["kTRC"] = curve
    else:
        matrix = rgb_matrix(primaries=primaries, white=white, pcs_white=np.array(D50_XYZ))
        for channel, xyz in zip("rgb", matrix.T, strict=True):
            tags[f"{channel}XYZ"] = xyz_tag(xyz.tolist())
            tags[f"{channel}TRC"] = curve
    return write_profile(
        version=(2, 4),
        profile_class=ProfileClass.DISPLAY,
        device=device,
        pcs="XYZ",
        made=date(2026, 1, 1),
        tags=tags,
    )
