"""Kinks: how much of an edge has lines that go on another way past it."""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.edges.gradients import F64, local_mean, saturated, tensor

# Our own figures, set on photographs that the tests name.

#: The least band on either side of the edge that is compared, and the most, in pixels.
_LEAST_BAND_PX, _MOST_BAND_PX = 4, 20

#: So much of the edge, in bar depths, with plain kinks all along it counts by half.
_HALF_WIDTH: Final = 1 / 4

#: How far a window must run one way before it counts at all, and when it counts in full.
_ONE_WAY_FROM, _ONE_WAY_FULL = 0.35, 0.8

#: The sine of the bend from which it is seen, and at which it counts in full: 9 and 30 degrees.
_BENT_FROM, _BENT_FULL = 0.15, 0.5


def kinks(side: F64, face: F64, *, depth_px: float, band: float, half_plain: float) -> float:
    """How much of the edge has lines that are bent there.

    In a band on either side of the edge the structure tensor is averaged. Its double angle vector
    `(J_cc - J_rr, 2 J_rc)` points the way of the lines; seen from the edge, a line that goes on straight has
    the same first part on both sides and the opposite second. With 2 b the angle between the two vectors, b
    is the bend. It counts from 9 degrees on, in full from 30, weighed with how far both windows run one way
    and with the change across the lines. The sum along the edge is set against a quarter of the bar depth.

    A mirror bends every line by twice its angle from upright: `kinks(face, face)` finds its chevrons.

    Parameters
    ----------
    side, face : (rows, columns, channels) float64
        Both with the edge as their first row, going away from it; encoded values, 0 to 1.
    depth_px : float
        The bar depth.
    band : float
        How deep the band is, in bar depths.
    half_plain : float
        The change across a line, in full scales a pixel (root of the mean over the window), that is half
        plain.

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
    >>> options = {"depth_px": 30, "band": 0.25, "half_plain": 0.05}
    >>> round(kinks(slanted, slanted, **options), 1), round(kinks(onwards, slanted, **options), 1)
    (0.7, 0.0)
    """
    rows = min(max(round(depth_px * band), _LEAST_BAND_PX), _MOST_BAND_PX, len(side) - 1, len(face) - 1)
    first, second, plain, one_way = _windows(face, rows)
    past_first, past_second, past_plain, past_one_way = (
        (first, second, plain, one_way) if side is face else _windows(side, rows)
    )
    lengths = np.hypot(first, second) * np.hypot(past_first, past_second)
    together = first * past_first - second * past_second
    cosine = np.divide(together, lengths, out=np.ones_like(lengths), where=lengths > 0)
    # The sine of half the angle between the vectors.
    bend = np.sqrt(np.clip((1 - cosine) / 2, 0, 1))
    bent = np.clip((bend - _BENT_FROM) / (_BENT_FULL - _BENT_FROM), 0, 1)
    sure = np.clip(
        (np.minimum(one_way, past_one_way) - _ONE_WAY_FROM) / (_ONE_WAY_FULL - _ONE_WAY_FROM), 0, 1
    )
    kinked = float((bent * sure * saturated(np.minimum(plain, past_plain), half_plain)).sum())
    return kinked / (kinked + _HALF_WIDTH * depth_px)


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
