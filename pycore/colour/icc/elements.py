"""The steps that a colour goes through inside one profile: curves, a matrix, a table, a change of space."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from pycore.colour.icc.curves import Curve
from pycore.colour.icc.interpolate import Interpolation, interpolate
from pycore.colour.spaces.arrays import FloatArray


@dataclass(frozen=True, kw_only=True, slots=True)
class Curves:
    """One curve per channel. Sampled ones hold what enters them to 0 to 1, powers go on beyond."""

    curves: tuple[Curve, ...]

    def __call__(self, values: FloatArray) -> FloatArray:
        """(n, channels) to (n, channels)."""
        return np.stack([curve(values[:, index]) for index, curve in enumerate(self.curves)], axis=1)


@dataclass(frozen=True, kw_only=True, slots=True)
class InverseCurves:
    """The same curves the other way round."""

    curves: tuple[Curve, ...]

    def __call__(self, values: FloatArray) -> FloatArray:
        """(n, channels) to (n, channels), 0 to 1."""
        return np.stack([curve.inverse(values[:, index]) for index, curve in enumerate(self.curves)], axis=1)


@dataclass(frozen=True, kw_only=True, slots=True)
class Affine:
    """A matrix and an offset: y = matrix x + offset. Nothing is clipped."""

    matrix: FloatArray
    offset: FloatArray

    def __call__(self, values: FloatArray) -> FloatArray:
        """(n, in) to (n, out)."""
        result: FloatArray = values @ self.matrix.T + self.offset
        return result


@dataclass(frozen=True, kw_only=True, slots=True)
class Grid:
    """A table of colours; values are clipped to 0 to 1."""

    table: FloatArray
    method: Interpolation

    def __call__(self, values: FloatArray) -> FloatArray:
        """(n, in) to (n, out)."""
        return interpolate(self.table, values, method=self.method)


Stage = Callable[[FloatArray], FloatArray]


def run(stages: Sequence[Stage], values: FloatArray) -> FloatArray:
    """Send colours through stages, one after the other.

    Parameters
    ----------
    stages : sequence of Stage
    values : (n, in) float64

    Returns
    -------
    (n, out) float64

    Examples
    --------
    >>> double = Affine(matrix=2 * np.eye(3), offset=np.zeros(3))
    >>> run([double, double], np.array([[0.1, 0.2, 0.25]])).tolist()
    [[0.4, 0.8, 1.0]]
    """
    for stage in stages:
        values = stage(values)
    return values
