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


def derivatives(function: Residuals, at: Floats, *, at_once: bool = False) -> Floats:
    """The derivatives of a function of several unknowns, by central differences.

    Parameters
    ----------
    function : callable
        From (n,) to (m,) float64; from (k, n) to (k, m) where it takes many at once.
    at : (n,) float64
    at_once : bool
        Whether it does.

    Returns
    -------
    (m, n) float64

    Examples
    --------
    >>> derivatives(lambda p: p**2, np.array([1.0, 3.0])).round(6).tolist()
    [[2.0, 0.0], [0.0, 6.0]]
    """
    sizes = _DIFFERENCE * np.maximum(1.0, np.abs(at))
    steps = np.diag(sizes)
    either = np.concatenate([at + steps, at - steps])
    found = function(either) if at_once else np.stack([function(one) for one in either])
    return np.asarray((found[: len(at)] - found[len(at) :]).T / (2 * sizes))


def fit(function: Residuals, start: Floats, *, at_once: bool = False) -> Fitted:
    """Find the unknowns that make the sum of squared residuals least, near a start.

    Parameters
    ----------
    function : callable
        Residuals (m,) of unknowns (n,); m is at least n. Residuals (k, m) of unknowns (k, n) where it takes
        many at once.
    start : (n,) float64
        Unknowns of about unit size.
    at_once : bool
        Whether it does.

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

    def residuals_at(unknowns: Floats) -> Floats:
        return function(unknowns[np.newaxis])[0] if at_once else function(unknowns)

    unknowns, damping = start.astype(np.float64), 1e-3
    residuals = residuals_at(unknowns)
    if not np.isfinite(residuals).all():
        return Fitted(
            unknowns=unknowns, residuals=residuals, jacobian=np.zeros((len(residuals), len(unknowns)))
        )
    jacobian = derivatives(function, unknowns, at_once=at_once)
    for _ in range(_MOST_STEPS):
        normal, slope = jacobian.T @ jacobian, jacobian.T @ residuals
        scale = np.diag(normal) + 1e-300
        moved = None
        while damping < _MOST_DAMPING:
            step = np.linalg.lstsq(normal + damping * np.diag(scale), -slope, rcond=None)[0]
            tried = residuals_at(unknowns + step)
            if np.isfinite(tried).all() and tried @ tried < residuals @ residuals:
                moved = step
                break
            damping *= 10
        if moved is None:
            break
        unknowns, residuals = unknowns + moved, tried
        damping = max(damping / 10, 1e-12)
        jacobian = derivatives(function, unknowns, at_once=at_once)
        if (np.abs(moved) <= _STILL * (1 + np.abs(unknowns))).all():
            break
    return Fitted(unknowns=unknowns, residuals=residuals, jacobian=jacobian)
