"""Least squares with few unknowns, by Levenberg and Marquardt's method."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.floating[Any]]
Residuals = Callable[[Floats], Floats]

_MOST_STEPS: Final = 100
#: Steps end when no unknown moves by more than this share of its size.
_STILL: Final = 1e-13
#: Where even the smallest step betters nothing, the fit has ended.
_MOST_DAMPING: Final = 1e12
#: Step of the central differences: the cube root of the double's precision, which balances their two errors.
_DIFFERENCE: Final = 6e-6


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Fitted:
    """Where a fit ended.

    Attributes
    ----------
    unknowns : (n,) float64
    residuals : (m,) float64
    jacobian : (m, n) float64
        The residuals' derivatives there.
    """

    unknowns: Floats
    residuals: Floats
    jacobian: Floats

    @property
    def covariance(self) -> Floats:
        """Of the unknowns, (n, n), where each residual has a standard deviation of 1."""
        return np.asarray(np.linalg.pinv(self.jacobian.T @ self.jacobian, hermitian=True, rcond=1e-14))


def derivatives(function: Residuals, at: Floats) -> Floats:
    """The derivatives of a function of several unknowns, by central differences.

    Parameters
    ----------
    function : callable
        From (n,) to (m,) float64.
    at : (n,) float64

    Returns
    -------
    (m, n) float64

    Examples
    --------
    >>> derivatives(lambda p: p**2, np.array([1.0, 3.0])).round(6).tolist()
    [[2.0, 0.0], [0.0, 6.0]]
    """
    columns = []
    for index, value in enumerate(at):
        step = np.zeros_like(at)
        step[index] = _DIFFERENCE * max(1.0, abs(value))
        columns.append((function(at + step) - function(at - step)) / (2 * step[index]))
    return np.stack(columns, axis=1)


def fit(function: Residuals, start: Floats) -> Fitted:
    """Find the unknowns that make the sum of squared residuals least, near a start.

    Parameters
    ----------
    function : callable
        Residuals (m,) of unknowns (n,); m is at least n.
    start : (n,) float64
        Unknowns of about unit size.

    Returns
    -------
    Fitted
        At the start, with derivatives of 0, where the residuals are not finite there.

    References
    ----------
    From memory: Hartley and Zisserman, Multiple View Geometry, the appendix on iterative estimation.

    Examples
    --------
    >>> fit(lambda p: p**2 - np.array([4.0, 9.0]), np.array([1.0, 1.0])).unknowns.round(6).tolist()
    [2.0, 3.0]
    """
    unknowns, damping = start.astype(np.float64), 1e-3
    residuals = function(unknowns)
    if not np.isfinite(residuals).all():
        return Fitted(
            unknowns=unknowns, residuals=residuals, jacobian=np.zeros((len(residuals), len(unknowns)))
        )
    jacobian = derivatives(function, unknowns)
    for _ in range(_MOST_STEPS):
        normal, slope = jacobian.T @ jacobian, jacobian.T @ residuals
        scale = np.diag(normal) + 1e-300
        moved = None
        while damping < _MOST_DAMPING:
            step = np.linalg.lstsq(normal + damping * np.diag(scale), -slope, rcond=None)[0]
            tried = function(unknowns + step)
            if np.isfinite(tried).all() and tried @ tried < residuals @ residuals:
                moved = step
                break
            damping *= 10
        if moved is None:
            break
        unknowns, residuals = unknowns + moved, tried
        damping = max(damping / 10, 1e-12)
        jacobian = derivatives(function, unknowns)
        if (np.abs(moved) <= _STILL * (1 + np.abs(unknowns))).all():
            break
    return Fitted(unknowns=unknowns, residuals=residuals, jacobian=jacobian)
