"""An edge beside which another begins: a line of shadow along a sheet, or a wallpaper's stripe.

Blur mixes the two, so that the steepest place lies between them. Across such an edge light changes by two
steps of opposite sign and of the photograph's own blur.
"""

from __future__ import annotations

import math
from typing import Final

import numpy as np

from pycore.wall.least_squares import Floats

#: Where light is read across an edge, pixels.
REACH_PX: Final = 7.0
STEP_PX: Final = 0.25
#: Standard deviations of the blur that are tried, pixels.
_BLURS: Final = np.arange(0.8, 2.65, 0.1)
#: The edge lies so near to where it was found; the other one begins so far outside of it.
_NEAR_PX: Final = 1.0
_LEAST_GAP, _MOST_GAP = 0.9, 6.0
#: Two steps are believed where they leave less than this share of what one leaves, where that is more than
#: noise (as a share of the whole change, squared, summed), and where the other has this share of the edge's.
_BETTER: Final = 0.3
_NOISE: Final = 2e-3
_LEAST_OTHER, _MOST_OTHER = 0.08, 0.9

_TABLE: Final = np.linspace(-8, 8, 3201)
_NORMAL: Final = np.array([0.5 * (1 + math.erf(value / math.sqrt(2))) for value in _TABLE])


def across_px() -> Floats:
    """The places across an edge that a profile is read at, pixels from it, inwards.

    Returns
    -------
    (n,) float64
    """
    return np.arange(-REACH_PX, REACH_PX + STEP_PX / 2, STEP_PX)


def single_step(profile: Floats) -> tuple[float, float]:
    """How well one blurred step explains a profile, and how blurred it is.

    Parameters
    ----------
    profile : (n,) float64
        Light at `across_px`.

    Returns
    -------
    float
        What is left, squared and summed, of a change of 1.
    float
        The blur's standard deviation, pixels.

    Examples
    --------
    >>> left, blur = single_step(blurred_step(across_px(), blur_px=1.5))
    >>> left < 1e-9, round(blur, 1)
    (True, 1.5)
    """
    scaled, places = _scaled(profile), np.arange(-1.5, 1.55, 0.1)
    found = []
    for blur in _BLURS:
        steps = _free_of_slope(blurred_step(across_px() - places[:, None], blur_px=float(blur)))
        left = scaled @ scaled - (steps @ scaled) ** 2 / (steps**2).sum(axis=1)
        found.append((float(left.min()), float(blur)))
    return min(found)


def place_beside(profile: Floats, *, blur_px: float) -> float | None:
    """Where the edge lies that another one begins beside.

    Parameters
    ----------
    profile : (n,) float64
        Light at `across_px`.
    blur_px : float
        The photograph's blur.

    Returns
    -------
    float or None
        Pixels inwards from where it was found; None where one step explains the profile.

    Examples
    --------
    >>> across = across_px()
    >>> shadow = blurred_step(across - 0.4, blur_px=1.5) - 0.4 * blurred_step(across + 2.6, blur_px=1.5)
    >>> round(place_beside(shadow, blur_px=1.5), 2)
    0.4
    >>> place_beside(blurred_step(across, blur_px=1.5), blur_px=1.5) is None
    True
    """
    one, _ = single_step(profile)
    if one <= _NOISE:
        return None
    gaps = np.arange(_LEAST_GAP * blur_px, _MOST_GAP, 0.4)
    left, place, gap, other = _two_steps(profile, np.arange(-_NEAR_PX, _NEAR_PX + 0.05, 0.1), gaps, blur_px)
    fine = place + np.arange(-0.08, 0.09, 0.02)
    left, place, _, other = _two_steps(profile, fine, gap + np.arange(-0.25, 0.26, 0.05), blur_px)
    is_better = left < _BETTER * one and _LEAST_OTHER <= -other <= _MOST_OTHER
    return place if is_better else None


def blurred_step(across: Floats, *, blur_px: float) -> Floats:
    """A step from 0 to 1 at 0 that is blurred by a normal distribution.

    Parameters
    ----------
    across : (...) float64
        Pixels.
    blur_px : float
        Its standard deviation.

    Returns
    -------
    (...) float64

    Examples
    --------
    >>> blurred_step(np.array([-9.0, 0.0, 9.0]), blur_px=1.0).tolist()
    [0.0, 0.5, 1.0]
    """
    return np.asarray(np.interp(across / blur_px, _TABLE, _NORMAL).round(12))


def _two_steps(
    profile: Floats, places: Floats, gaps: Floats, blur_px: float
) -> tuple[float, float, float, float]:
    """What the best pair of steps leaves; its place and gap, and the other step as a share of the edge's."""
    scaled = _scaled(profile)
    place, gap = (one.ravel() for one in np.meshgrid(places, gaps))
    edge, other = (
        _free_of_slope(blurred_step(across_px() - at[:, None], blur_px=blur_px))
        for at in (place, place - gap)
    )
    # Two unknowns by their normal equations, for every pair at once.
    aa, bb, ab = (edge**2).sum(axis=1), (other**2).sum(axis=1), (edge * other).sum(axis=1)
    a, b = edge @ scaled, other @ scaled
    whole = np.maximum(aa * bb - ab**2, 1e-12)
    height, beside = (bb * a - ab * b) / whole, (aa * b - ab * a) / whole
    left = scaled @ scaled - height * a - beside * b
    best = int(np.argmin(left))
    share = float(beside[best] / height[best]) if height[best] else 0.0
    return float(left[best]), float(place[best]), float(gap[best]), share


def _scaled(profile: Floats) -> Floats:
    """A profile whose whole change is 1, without what runs evenly across it."""
    change = abs(float(profile[-8:].mean() - profile[:8].mean()))
    return _free_of_slope(profile / max(change, 1e-9))


def _free_of_slope(values: Floats) -> Floats:
    """Values (..., n) without their mean and their slope."""
    slope = across_px() / np.linalg.norm(across_px())
    centred = values - values.mean(axis=-1, keepdims=True)
    return np.asarray(centred - (centred @ slope)[..., None] * slope)
