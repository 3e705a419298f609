"""Kinks: how plainly lines that run into an edge go on another way past it."""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.edges.gradients import F64, local_mean, saturated, tensor

# Our own figures, set on photographs that the tests name.

#: The band on either side of the edge that is compared, as a share of the bar depth, and its bounds in
#: pixels.
_BAND: Final = 1 / 4
_LEAST_BAND_PX, _MOST_BAND_PX = 4, 14

#: The change across a line, in full scales a pixel (root of the mean over the window), that is half plain.
_HALF_PLAIN: Final = 0.02

#: How far a window must run one way before it counts at all, and when it counts in full.
_ONE_WAY_FROM, _ONE_WAY_FULL = 0.35, 0.8

#: The sine of the bend from which it is seen, and at which it counts in full: 9 and 30 degrees.
_BENT_FROM, _BENT_FULL = 0.15, 0.5


def kinks(side: F64, face: F64, *, depth_px: float) -> float:
    """How plainly the plainest line is bent at the edge.

    In a band on either side of the edge the structure tensor is averaged. Its double angle vector
    `(J_cc - J_rr, 2 J_rc)` points the way of the lines; seen from the edge, a line that goes on straight has
    the same first part on both sides and the opposite second. With 2 b the angle between the two vectors, b
    is the bend. It counts from 9 degrees on, in full from 30, weighed with how far both windows run one way
    and with the change across the lines. The result is the largest along the edge.

    A mirror bends every line by twice its angle from upright: `kinks(face, face)` finds its chevrons.

    Parameters
    ----------
    side, face : (rows, columns, channels) float64
        Both with the edge as their first row, going away from it; encoded values, 0 to 1.
    depth_px : float
        The bar depth.

    Returns
    -------
    float
        0 to 1.

    References
    ----------
    G. H. Granlund, In search of a general picture processing operator, Computer Graphics and Image Processing
    8 (1978): the double angle; from memory.

    Examples
    --------
    >>> rows, columns = np.mgrid[0:30, 0:90]
    >>> slanted = (rows < columns - 30).astype(float)[..., np.newaxis]
    >>> onwards = (-rows < columns - 30).astype(float)[..., np.newaxis]
    >>> kinks(slanted, slanted, depth_px=30) > 0.8, kinks(onwards, slanted, depth_px=30) < 0.1
    (True, True)
    """
    band = min(max(round(depth_px * _BAND), _LEAST_BAND_PX), _MOST_BAND_PX, len(side) - 1, len(face) - 1)
    first, second, plain, one_way = _windows(face, band)
    past_first, past_second, past_plain, past_one_way = _windows(side, band)
    lengths = np.hypot(first, second) * np.hypot(past_first, past_second)
    together = first * past_first - second * past_second
    cosine = np.divide(together, lengths, out=np.ones_like(lengths), where=lengths > 0)
    # The sine of half the angle between the vectors.
    bend = np.sqrt(np.clip((1 - cosine) / 2, 0, 1))
    bent = np.clip((bend - _BENT_FROM) / (_BENT_FULL - _BENT_FROM), 0, 1)
    sure = np.clip(
        (np.minimum(one_way, past_one_way) - _ONE_WAY_FROM) / (_ONE_WAY_FULL - _ONE_WAY_FROM), 0, 1
    )
    seen = saturated(np.minimum(plain, past_plain), _HALF_PLAIN)
    return float((bent * sure * seen).max())


def _windows(values: F64, band: int) -> tuple[F64, F64, F64, F64]:
    """Along the edge: the double angle's two parts, the change across lines, how far all runs one way."""
    # The row at the border has no true gradient.
    found = tensor(values[: band + 2])
    rr, rc, cc = (
        local_mean(part[1 : band + 1].mean(axis=0), max(1, band // 2), axis=0)
        for part in (found.rr, found.rc, found.cc)
    )
    energy = rr + cc
    first, second = cc - rr, 2 * rc
    length = np.hypot(first, second)
    one_way = np.divide(length, energy, out=np.zeros_like(energy), where=energy > 0)
    return first, second, np.sqrt(energy), one_way
