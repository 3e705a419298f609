"""CIE XYZ and CIELAB, both for the white of the connection space, D50."""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.colour.spaces.arrays import FloatArray

#: The white of the connection space. Published: ICC.1:2022, 6.3.1 (D50 = 0.9642, 1, 0.8249).
D50_XYZ: Final = (0.9642, 1.0, 0.8249)

#: Below this ratio the cube root gives way to a straight line: (6/29)^3. Published: CIE 15:2018, 8.2.1.
JOINT: Final = 216.0 / 24389.0
#: The slope of that line, (29/6)^2 / 3.
_SLOPE: Final = 841.0 / 108.0


def xyz_to_lab(xyz_d50: FloatArray) -> FloatArray:
    """CIELAB of XYZ.

    Parameters
    ----------
    xyz_d50 : (..., 3) float64
        Y of the white is 1. Negative values follow the straight line.

    Returns
    -------
    (..., 3) float64
        L* 0 to 100, a*, b*.

    References
    ----------
    CIE 15:2018, 8.2.1; ISO/CIE 11664-4.

    Examples
    --------
    >>> xyz_to_lab(np.array([0.9642, 1.0, 0.8249])).tolist()
    [100.0, 0.0, 0.0]
    """
    ratio = xyz_d50 / np.array(D50_XYZ)
    root = np.where(ratio > JOINT, np.cbrt(ratio), _SLOPE * ratio + 4.0 / 29.0)
    result: FloatArray = np.empty_like(root)
    result[..., 0] = 116.0 * root[..., 1] - 16.0
    result[..., 1] = 500.0 * (root[..., 0] - root[..., 1])
    result[..., 2] = 200.0 * (root[..., 1] - root[..., 2])
    return result


def lab_to_xyz(lab_d50: FloatArray) -> FloatArray:
    """XYZ of CIELAB.

    Parameters
    ----------
    lab_d50 : (..., 3) float64

    Returns
    -------
    (..., 3) float64
        Y of the white is 1.

    References
    ----------
    CIE 15:2018, annex D.

    Examples
    --------
    >>> lab_to_xyz(np.array([100.0, 0.0, 0.0])).tolist()
    [0.9642, 1.0, 0.8249]
    """
    root = np.empty(lab_d50.shape, dtype=np.float64)
    root[..., 1] = (lab_d50[..., 0] + 16.0) / 116.0
    root[..., 0] = root[..., 1] + lab_d50[..., 1] / 500.0
    root[..., 2] = root[..., 1] - lab_d50[..., 2] / 200.0
    result: FloatArray = _ratio(root) * np.array(D50_XYZ)
    return result


def lightness_to_y(lightness: FloatArray) -> FloatArray:
    """Y of L*, the middle of what `lab_to_xyz` gives.

    Parameters
    ----------
    lightness : (...) float64
        L*.

    Returns
    -------
    (...) float64
        1 for white.

    Examples
    --------
    >>> float(lightness_to_y(np.array(100.0)))
    1.0
    """
    return _ratio((lightness + 16.0) / 116.0)


def _ratio(root: FloatArray) -> FloatArray:
    """The share of the white that a cube root, or the straight line below it, stands for."""
    # A product: a power costs ten times as much.
    return np.where(root > 6.0 / 29.0, root * root * root, (root - 4.0 / 29.0) / _SLOPE)


def chroma_hue(lab_d50: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Chroma C*ab and hue angle hab.

    Parameters
    ----------
    lab_d50 : (..., 3) float64

    Returns
    -------
    tuple of two (...) float64
        Chroma, and hue in radians, -pi to pi.

    Examples
    --------
    >>> [float(one) for one in chroma_hue(np.array([50.0, 3.0, 4.0]))]
    [5.0, 0.9272952180016122]
    """
    return np.hypot(lab_d50[..., 1], lab_d50[..., 2]), np.arctan2(lab_d50[..., 2], lab_d50[..., 1])
