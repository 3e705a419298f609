"""Blues that are too vivid for light: the nearest that three lights of one wavelength each can make."""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.colour.spaces.adapt import rgb_matrix
from pycore.colour.spaces.arrays import FloatArray
from pycore.colour.spaces.lab import D50_XYZ, lab_to_xyz, xyz_to_lab
from pycore.colour.spaces.srgb import D65_XY

#: x and y of light of 630, 532 and 467 nm. Published: Rec. ITU-R BT.2020-2, table 3.
SPECTRAL_PRIMARIES: Final = ((0.708, 0.292), (0.170, 0.797), (0.131, 0.046))

#: Less of a primary than this, of white's 1, is rounding.
_NONE: Final = -1e-9

_TO_XYZ: Final = rgb_matrix(primaries=SPECTRAL_PRIMARIES, white=D65_XY, pcs_white=np.array(D50_XYZ))
_FROM_XYZ: Final = np.linalg.inv(_TO_XYZ)


def as_light(lab_d50: FloatArray) -> FloatArray:
    """Make light of blues that ask for less than none of another primary.

    The blue of a very wide space is no light: it asks the eye's cones for less than nothing, and what a
    formula calls its hue is green. What is asked for below none is left out, all of it of a pure blue, and
    the less the nearer a colour is to cyan or magenta, whose hue such formulas tell.

    Parameters
    ----------
    lab_d50 : (n, 3) float64

    Returns
    -------
    (n, 3) float64
        What is light already comes back as it is, to the last bit.

    Examples
    --------
    >>> as_light(np.array([[17.0, 48.0, -144.0], [40.0, 30.0, -60.0]])).round(0).tolist()
    [[28.0, 67.0, -125.0], [40.0, 30.0, -60.0]]
    """
    primaries = lab_to_xyz(lab_d50) @ _FROM_XYZ.T
    none = np.flatnonzero((primaries.min(axis=1) < _NONE) & (primaries.argmax(axis=1) == 2))
    part = primaries[none]
    pure = 1.0 - np.maximum(part[:, :2].max(axis=1), 0.0) / part[:, 2]
    light = xyz_to_lab(np.maximum(part, 0.0) @ _TO_XYZ.T)
    result = lab_d50.copy()
    result[none] += pure[:, None] * (light - lab_d50[none])
    return result
