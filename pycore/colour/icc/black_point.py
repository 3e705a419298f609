"""Black points of profiles, and the scaling that carries one on to the other (ISO 18619)."""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.colour.icc.device import Direction, darkest_value, from_connection, to_connection
from pycore.colour.icc.elements import Affine, run
from pycore.colour.icc.header import ProfileClass
from pycore.colour.icc.profile import Profile, require_device
from pycore.colour.spaces.arrays import FloatArray
from pycore.colour.spaces.lab import D50_XYZ, lab_to_xyz, xyz_to_lab
from pycore.contract.job import Intent

#: The black of the perceptual reference medium. Published: ICC.1:2022, annex D.1 (table for XYZ).
_REFERENCE_BLACK: Final = (0.00336, 0.0034731, 0.00287)

#: No black is taken to be lighter than this. Published: ISO 18619:2015, 4.2.
_LIGHTEST_BLACK: Final = 50.0


def source_black(profile: Profile, *, intent: Intent) -> FloatArray:
    """The black of a profile that colours come from.

    Parameters
    ----------
    profile : Profile
    intent : Intent
        Not absolute.

    Returns
    -------
    (3,) float64
        XYZ, of neutral colour, relative to the media white.

    Raises
    ------
    ProfileError
        The profile cannot be evaluated.

    References
    ----------
    ISO 18619:2015, 4.2 (from memory; checked against LittleCMS).
    """
    if _is_reference_medium(profile, intent, "A2B"):
        return np.array(_REFERENCE_BLACK)
    device = require_device(profile)
    if device == "CMYK" and intent is Intent.RELATIVE and profile.header.profile_class is ProfileClass.OUTPUT:
        # Full ink in all four channels is no black that such a printer lays down: what the perceptual table
        # makes of black is, and in version 4 that table's black is the reference medium's.
        asked: FloatArray = np.zeros((1, 3))
        if _is_reference_medium(profile, Intent.PERCEPTUAL, "B2A"):
            asked = xyz_to_lab(np.array([_REFERENCE_BLACK]))
        trip = _round_trip(profile, intent=Intent.PERCEPTUAL)
        return _neutral(float(trip(asked)[0, 0]))
    lab = _to_lab(to_connection(profile, intent=intent), darkest_value(device))
    return _neutral(float(lab[0, 0]))


def target_black(profile: Profile, *, intent: Intent) -> FloatArray:
    """The black of a profile that colours go to.

    Parameters
    ----------
    profile : Profile
    intent : Intent
        Not absolute.

    Returns
    -------
    (3,) float64
        XYZ, relative to the media white.

    Raises
    ------
    ProfileError
        The profile cannot be evaluated.

    References
    ----------
    ISO 18619:2015, 4.3 (from memory; checked against LittleCMS): where a table leads to the device, the
    lightness of a grey ramp sent there and back tells where the table really ends.
    """
    if _is_reference_medium(profile, intent, "B2A"):
        return np.array(_REFERENCE_BLACK)
    if from_connection(profile, intent=intent).source[:3] != "B2A":
        return source_black(profile, intent=intent)
    start: FloatArray = np.zeros(3)
    if intent is Intent.RELATIVE:
        start = xyz_to_lab(source_black(profile, intent=intent))
    trip = _round_trip(profile, intent=intent)
    ramp = np.tile(np.clip(start, -50.0, 50.0), (256, 1))
    ramp[:, 0] = np.linspace(0.0, 100.0, 256)
    lightness = ramp[:, 0]
    reached = np.minimum.accumulate(trip(ramp)[::-1, 0])[::-1]
    lowest, highest = float(reached[0]), float(reached[-1])
    if not lowest < highest:
        return np.zeros(3)
    if intent is Intent.RELATIVE:
        # A table whose midtones are kept as they are is scaled from its own black alone.
        midtones = lightness > lowest + 0.2 * (highest - lowest)
        if np.all(np.abs(lightness - reached)[midtones] < 4.0):
            return lab_to_xyz(start)
    part = (reached - lowest) / (highest - lowest)
    low, high = (0.1, 0.5) if intent is Intent.RELATIVE else (0.03, 0.25)
    shadows = (part >= low) & (part < high)
    if np.count_nonzero(shadows) < 3:
        return np.zeros(3)
    start[0] = _foot(lightness[shadows], part[shadows])
    return lab_to_xyz(start)


def compensation(*, source: FloatArray, target: FloatArray) -> Affine:
    """The scaling of XYZ that keeps the white and carries one black to the other.

    Parameters
    ----------
    source, target : (3,) float64
        XYZ of the two blacks.

    Returns
    -------
    Affine
        On XYZ relative to the media white.

    References
    ----------
    ISO 18619:2015, 5.

    Examples
    --------
    >>> stage = compensation(source=np.zeros(3), target=np.array([0.00964, 0.01, 0.00825]))
    >>> stage(np.array([[0.0, 0.0, 0.0], [0.9642, 1.0, 0.8249]])).round(6).tolist()
    [[0.00964, 0.01, 0.00825], [0.9642, 1.0, 0.8249]]
    """
    white = np.array(D50_XYZ)
    scale = (white - target) / (white - source)
    return Affine(matrix=np.diag(scale), offset=white * (target - source) / (white - source))


def _is_reference_medium(profile: Profile, intent: Intent, stem: str) -> bool:
    """Version 4's perceptual and saturation tables meet in one agreed medium, with an agreed black.

    A matrix says the same thing for every intent, and so keeps its own black (ICC.1:2022, 6.3.3 and annex D).
    """
    return (
        profile.header.version[0] >= 4
        and intent in {Intent.PERCEPTUAL, Intent.SATURATION}
        and f"{stem}0" in profile.tags
    )


def _neutral(lightness: float) -> FloatArray:
    return lab_to_xyz(np.array([min(max(lightness, 0.0), _LIGHTEST_BLACK), 0.0, 0.0]))


def _to_lab(direction: Direction, values: FloatArray) -> FloatArray:
    result = run(direction.stages, values)
    return result if direction.pcs == "Lab" else xyz_to_lab(result)


class _RoundTrip:
    """Lab to the device by one intent, and from there to Lab by the relative one."""

    def __init__(self, there: Direction, back: Direction) -> None:
        self._there, self._back = there, back

    def __call__(self, lab_d50: FloatArray) -> FloatArray:
        values = lab_d50 if self._there.pcs == "Lab" else lab_to_xyz(lab_d50)
        return _to_lab(self._back, np.clip(run(self._there.stages, values), 0.0, 1.0))


def _round_trip(profile: Profile, *, intent: Intent) -> _RoundTrip:
    return _RoundTrip(
        from_connection(profile, intent=intent),
        to_connection(profile, intent=Intent.RELATIVE),
    )


def _foot(lightness: FloatArray, part: FloatArray) -> float:
    """Where a parabola through the shadows meets zero, clipped to 0 to 50."""
    c, b, a = np.polynomial.polynomial.polyfit(lightness, part, 2)[[2, 1, 0]]
    if abs(c) < 1e-10:
        root = -a / b if b != 0.0 else 0.0
    else:
        inside = b * b - 4.0 * a * c
        root = (-b + np.sqrt(inside)) / (2.0 * c) if inside > 0.0 else 0.0
    return float(min(max(root, 0.0), _LIGHTEST_BLACK))
