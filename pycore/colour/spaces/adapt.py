"""Chromatic adaptation by the linear Bradford transform, and RGB matrices from primaries."""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.colour.spaces.arrays import FloatArray

#: Published: ICC.1:2022, annex E.1 (linear Bradford); Lam (1985).
BRADFORD: Final = np.array(
    [
        [0.8951, 0.2664, -0.1614],
        [-0.7502, 1.7135, 0.0367],
        [0.0389, -0.0685, 1.0296],
    ]
)


def bradford(*, source_white: FloatArray, target_white: FloatArray) -> FloatArray:
    """The matrix that carries XYZ seen under one white to the other.

    Parameters
    ----------
    source_white, target_white : (3,) float64
        XYZ, every cone response above 0.

    Returns
    -------
    (3, 3) float64
        For column vectors.

    References
    ----------
    ICC.1:2022, annex E.2, equation (E.3).

    Examples
    --------
    >>> d65, d50 = np.array([0.9504, 1, 1.0889]), np.array([0.9642, 1, 0.8249])
    >>> (bradford(source_white=d65, target_white=d50) @ d65).round(4).tolist()
    [0.9642, 1.0, 0.8249]
    """
    gains = (BRADFORD @ target_white) / (BRADFORD @ source_white)
    result: FloatArray = np.linalg.solve(BRADFORD, gains[:, None] * BRADFORD)
    return result


def xy_to_xyz(xy: tuple[float, float]) -> FloatArray:
    """XYZ with Y = 1 of a chromaticity.

    Parameters
    ----------
    xy : two float
        y above 0.

    Returns
    -------
    (3,) float64
    """
    x, y = xy
    return np.array([x / y, 1.0, (1.0 - x - y) / y])


def rgb_matrix(
    *, primaries: tuple[tuple[float, float], ...], white: tuple[float, float], pcs_white: FloatArray
) -> FloatArray:
    """The matrix from linear RGB to XYZ, adapted to the white of the connection space.

    Parameters
    ----------
    primaries : three chromaticities
        Red, green, blue: x and y.
    white : two float
        x and y of the RGB space's own white.
    pcs_white : (3,) float64
        XYZ of the white to adapt to.

    Returns
    -------
    (3, 3) float64
        For column vectors; RGB of ones gives `pcs_white`.

    References
    ----------
    SMPTE RP 177; ICC.1:2022, annex E.
    """
    corners = np.stack([xy_to_xyz(one) for one in primaries], axis=1)
    own_white = xy_to_xyz(white)
    scaled = corners * np.linalg.solve(corners, own_white)
    result: FloatArray = bradford(source_white=own_white, target_white=pcs_white) @ scaled
    return result
