"""The media white of a profile, which ties relative to absolute colorimetry, and its adaptation."""

from __future__ import annotations

import numpy as np

from pycore.colour.icc.header import ProfileClass
from pycore.colour.icc.profile import Profile
from pycore.colour.spaces.arrays import FloatArray
from pycore.colour.spaces.lab import D50_XYZ
from pycore.speech import say


def media_white(profile: Profile) -> FloatArray:
    """XYZ of the media white, as seen under D50.

    Parameters
    ----------
    profile : Profile

    Returns
    -------
    (3,) float64
        Y is 1 for a perfect diffuser.

    Raises
    ------
    ProfileError
        `wtpt` is missing, damaged or not above 0.

    References
    ----------
    ICC.1:2022, 6.3.2 and 9.2.36. In version 2 a display's `wtpt` is the screen's own white, to which its
    viewer has adapted; it stands for D50 (ICC.1:2001-04, annex E.1), as it does in version 4 by rule.
    """
    header = profile.header
    if header.version[0] < 4 and header.profile_class is ProfileClass.DISPLAY:
        return np.array(D50_XYZ)
    block = profile.tag("wtpt")
    white = read_xyz(profile, "wtpt")
    if not np.all(white > 0.0):
        raise block.wrong(expected=say("a white above 0 in X, Y and Z"), got=_numbers(white))
    return white


def read_xyz(profile: Profile, signature: str) -> FloatArray:
    """The first triple of an XYZType tag.

    Parameters
    ----------
    profile : Profile
    signature : str
        "wtpt", "bkpt", "rXYZ" and the like.

    Returns
    -------
    (3,) float64

    Raises
    ------
    ProfileError
        The tag is missing, of another type or too short.

    References
    ----------
    ICC.1:2022, 10.31.
    """
    block = profile.tag(signature)
    block.require_type("XYZ ")
    return block.fixeds(8, 3)


def device_adaptation(profile: Profile) -> FloatArray:
    """The matrix from the device's own white to D50: the `chad` tag, or none.

    Parameters
    ----------
    profile : Profile

    Returns
    -------
    (3, 3) float64
        The identity where the profile has no such tag.

    Raises
    ------
    ProfileError
        The tag is damaged or cannot be turned round.

    References
    ----------
    ICC.1:2022, 9.2.15 and annex E.
    """
    if "chad" not in profile.tags:
        return np.eye(3)
    block = profile.tag("chad")
    block.require_type("sf32")
    matrix = block.fixeds(8, 9).reshape(3, 3)
    # A chromatic adaptation has a determinant near 1; one near 0 would lose a dimension of colour.
    if abs(float(np.linalg.det(matrix))) < 1e-6:
        raise block.wrong(expected=say("a matrix that can be inverted"), got=_numbers(matrix.ravel()))
    return matrix


def _numbers(values: FloatArray) -> str:
    return ", ".join(f"{value:g}" for value in values)
