"""Lightness of CIELAB with the opponent pair of IPT, in which a hue that the eye holds is a straight line.

In CIELAB a line of constant hue turns from blue to purple on its way to grey. IPT was made so that such lines
keep their hue. Lightness stays that of CIELAB, because that is what canvases and black points are measured
in.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.colour.spaces.adapt import bradford, xy_to_xyz
from pycore.colour.spaces.arrays import FloatArray
from pycore.colour.spaces.lab import D50_XYZ, lab_to_xyz, lightness_to_y, xyz_to_lab
from pycore.colour.spaces.srgb import D65_XY

#: From XYZ under D65 to cone responses, and from their powers to I, P and T; the power between the two.
#: Published: F. Ebner and M. D. Fairchild, Development and testing of a color space (IPT) with improved hue
#: uniformity, 6th Color Imaging Conference (1998), equations 1 to 3.
_TO_LMS: Final = np.array([[0.4002, 0.7075, -0.0807], [-0.2280, 1.1500, 0.0612], [0.0, 0.0, 0.9184]])
_TO_IPT: Final = np.array([[0.4000, 0.4000, 0.2000], [4.4550, -4.8510, 0.3960], [0.8056, 0.3572, -1.1628]])
_POWER: Final = 0.43

#: The white that the equations are for, CIE D65.
_D65_XYZ: Final = xy_to_xyz(D65_XY)

#: P and T are counted in hundredths, so that strong colours have a chroma of about 100, as in CIELAB.
_SCALE: Final = 100.0

#: Newton steps for I at most, and the step after which no other is needed: what it leaves is far below 1e-15,
#: as each step squares what the one before left. Most colours need four; those that no light has take all.
_STEPS: Final = 8
_ARRIVED: Final = 1e-9


def _from_d50() -> FloatArray:
    """XYZ under D50 to cone responses that are exactly 1 for white, so that greys have no P and T."""
    to_lms = _TO_LMS @ bradford(source_white=np.array(D50_XYZ), target_white=_D65_XYZ)
    white = to_lms @ np.array(D50_XYZ)
    result: FloatArray = to_lms / white[:, None]
    return result


_D50_TO_LMS: Final = _from_d50()
_Y_OF_LMS: Final = np.linalg.inv(_D50_TO_LMS)
_LMS_OF_IPT: Final = np.linalg.inv(_TO_IPT)


def lab_to_lpt(lab_d50: FloatArray) -> FloatArray:
    """L* with P and T of IPT.

    Parameters
    ----------
    lab_d50 : (..., 3) float64

    Returns
    -------
    (..., 3) float64
        L*, 100 P, 100 T; greys have P = T = 0.

    Examples
    --------
    >>> bool(np.abs(lab_to_lpt(np.array([50.0, 0.0, 0.0])) - [50.0, 0.0, 0.0]).max() < 1e-12)
    True
    """
    lms = lab_to_xyz(lab_d50) @ _D50_TO_LMS.T
    ipt = _signed_power(lms, _POWER) @ _TO_IPT.T
    result: FloatArray = ipt * _SCALE
    result[..., 0] = lab_d50[..., 0]
    return result


def lpt_to_lab(lpt: FloatArray) -> FloatArray:
    """CIELAB of what `lab_to_lpt` gives.

    Parameters
    ----------
    lpt : (..., 3) float64
        L*, 100 P, 100 T.

    Returns
    -------
    (..., 3) float64

    Examples
    --------
    >>> lpt_to_lab(lab_to_lpt(np.array([40.0, 30.0, -60.0]))).round(6).tolist()
    [40.0, 30.0, -60.0]
    """
    luminance = lightness_to_y(lpt[..., 0])
    pair = lpt.copy()
    pair[..., 0] = 0.0
    beside = pair @ (_LMS_OF_IPT.T / _SCALE)
    intensity = _intensity(luminance.ravel(), beside.reshape(-1, 3)).reshape(luminance.shape)
    xyz = _signed_power(intensity[..., None] + beside, 1.0 / _POWER) @ _Y_OF_LMS.T
    result = xyz_to_lab(xyz)
    result[..., 0] = lpt[..., 0]
    return result


def _intensity(luminance: FloatArray, beside: FloatArray) -> FloatArray:
    """I at which the cone responses have the luminance that L* asks for. Luminance rises with it."""
    by_lms = _Y_OF_LMS[1]
    result = _signed_power(luminance, _POWER)
    going, intensity = np.arange(len(result)), result
    for _ in range(_STEPS):
        powers = intensity[:, None] + beside
        steepness = np.abs(powers) ** (1.0 / _POWER - 1.0)
        off = (powers * steepness) @ by_lms - luminance
        slope = steepness @ by_lms / _POWER
        step = off / np.maximum(slope, 1e-4)
        result[going] = intensity = intensity - step
        far = np.abs(step) > _ARRIVED
        if not far.all():
            going, intensity, beside, luminance = going[far], intensity[far], beside[far], luminance[far]
    return result


def _signed_power(values: FloatArray, power: float) -> FloatArray:
    """Negative values, of colours that no light has, mirrored about 0."""
    result: FloatArray = np.copysign(np.abs(values) ** power, values)
    return result
