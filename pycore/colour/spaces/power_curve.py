"""A power with a straight line below it: the shape of every parametric tone curve."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.colour.spaces.arrays import FloatArray

#: No power is let past this.
_HIGHEST: Final = 65536.0


@dataclass(frozen=True, kw_only=True, slots=True)
class PowerCurve:
    """The functions of `para`: a power on one side of `d`, a straight line on the other.

    y = (a x + b)^g + e where x >= d, and y = c x + f below (ICC.1:2022, table 68, type 4); the other types
    are this one with some of its parameters fixed.
    """

    g: float
    a: float = 1.0
    b: float = 0.0
    c: float = 0.0
    d: float = -np.inf
    e: float = 0.0
    f: float = 0.0

    def __call__(self, values: FloatArray) -> FloatArray:
        """The curve at `values`, any shape."""
        power = _power(self.a * values + self.b, self.g) + self.e
        return np.where(values >= self.d, power, self.c * values + self.f)

    def inverse(self, values: FloatArray) -> FloatArray:
        """Find where the curve reaches `values`.

        Parameters
        ----------
        values : (n,) float64

        Returns
        -------
        (n,) float64
            Places, clipped to 0 to 1.
        """
        result = (_power(values - self.e, 1.0 / self.g) - self.b) / self.a
        if self.d > 0.0:
            # What the power gives at the joint tells which side a value comes from.
            joint = float(_power(np.array(self.a * self.d + self.b), self.g)) + self.e
            line = (values - self.f) / self.c if self.c != 0.0 else np.full_like(values, self.d)
            result = np.where(values >= joint, np.maximum(result, self.d), np.minimum(line, self.d))
        return np.clip(result, 0.0, 1.0)


def _power(base: FloatArray, exponent: float) -> FloatArray:
    """A power of what is above 0; below, nothing but a straight line goes on."""
    if exponent == 1.0:
        return base
    # A profile may give any exponent up to 32768; no curve of a device comes near the limit.
    with np.errstate(over="ignore", under="ignore"):
        result: FloatArray = np.minimum(np.power(np.maximum(base, 0.0), exponent), _HIGHEST)
    return result
