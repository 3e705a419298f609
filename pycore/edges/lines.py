"""Broken: how plainly a line that runs aslant into the front edge would be bent there by a mirror."""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.edges.gradients import F64, Tensor, local_mean, saturated

# Our own figures, set on drawn lines and on photographs.

#: The band beside the edge in which a line must run, as a share of the bar depth, and its bounds in pixels.
_BAND: Final = 1 / 3
_LEAST_BAND_PX, _MOST_BAND_PX = 6, 16

#: The contrast of an edge, in full scales, that is half plain.
_HALF_CONTRAST: Final = 0.12

#: How far the neighbourhood must run one way and aslant before it counts at all, and when it counts in full.
#: 1 is a line at 45 degrees and nothing else; texture that runs no way stays under 0.4.
_ASLANT_FROM, _ASLANT_FULL = 0.4, 0.8


def broken(strip: Tensor, *, depth_px: float) -> float:
    """How plainly the plainest aslant line is bent.

    Beside the edge the structure tensor is averaged over a window as wide as twice the band is deep. With J
    its means, `2 |J_rc| / (J_rr + J_cc)` is the window's coherence times the sine of twice the angle between
    its lines and the edge: 0 for lines across the front edge or along it, which a mirror leaves straight, and
    largest at 45 degrees, where it turns them by a right angle. That, from `_ASLANT_FROM` to `_ASLANT_FULL`,
    is weighed with the contrast of the edges in the window. The result is the largest along the edge: one
    broken line is seen however long the side is.

    Parameters
    ----------
    strip : Tensor
        Of the strip, the front edge its first row (see `from_edge`).
    depth_px : float
        The bar depth.

    Returns
    -------
    float
        0 to 1.

    References
    ----------
    J. Bigun and G. H. Granlund, Optimal orientation detection of linear symmetry, ICCV (1987).

    Examples
    --------
    >>> from pycore.edges.gradients import tensor
    >>> rows, columns = np.mgrid[0:30, 0:90]
    >>> slanted = (rows < columns - 30).astype(float)[..., np.newaxis]
    >>> broken(tensor(slanted), depth_px=30) > 0.8
    True
    >>> upright = (columns < 45).astype(float)[..., np.newaxis]
    >>> broken(tensor(upright), depth_px=30)
    0.0
    """
    band = min(max(round(depth_px * _BAND), _LEAST_BAND_PX), _MOST_BAND_PX, len(strip.rr))
    # Less and less with distance from the front edge: a line must reach it.
    weights = 1 - np.arange(band) / band
    weights = (weights / weights.sum())[:, np.newaxis]
    rr, rc, cc = (
        local_mean((part[:band] * weights).sum(axis=0), band, axis=0)
        for part in (strip.rr, strip.rc, strip.cc)
    )
    energy = rr + cc
    aslant = np.divide(2 * np.abs(rc), energy, out=np.zeros_like(energy), where=energy > 0)
    counted = np.clip((aslant - _ASLANT_FROM) / (_ASLANT_FULL - _ASLANT_FROM), 0, 1)
    return float((counted * saturated(_contrast(energy, band), _HALF_CONTRAST)).max())


def _contrast(energy: F64, band: int) -> F64:
    """The contrast of the edge that has so much energy in its window.

    A step of contrast C has two pixels of gradient C / 2 in each row that it crosses, which is C2 / 2.
    """
    window = 2 * band + 1
    return np.sqrt(2 * energy * window)
