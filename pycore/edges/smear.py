"""Smear: how far a side's detail is drawn out into streaks that the face beside it has not."""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.edges.gradients import F64, local_mean, saturated, square_mean, tensor

# Our own figures, set on photographs that the tests name.

#: Half the side of the square in which directions are compared, as a share of the bar depth.
_HALF: Final = 1 / 6

#: The change across streaks, in full scales a pixel, that is seen by half.
_HALF_SEEN: Final = 0.01


def smear(side: F64, face: F64, *, depth_px: float) -> float:
    """How much of the side is drawn out, weighed by how well it is seen.

    At each place the structure tensor, averaged over a square of a third of the depth, has two eigenvalues:
    the change across the lines there, squared, and the change along them. Detail along the lines against
    detail across is `q = sqrt(least / greatest)`: 1 for gravel, near 0 for a fence or for streaks. Over each
    stretch of the edge, all of the side's depth is taken together, each place weighed with how well change
    across is seen there, and the face beside it likewise. What `q` has lost, `1 - q_side / q_face`, is the
    stretch's smear; the side's is the mean over its stretches, weighed as before.

    Both are softened by 1 2 1 first: what mixing does to single pixels, or leaves undone, is no smear.

    A mirror moves every neighbourhood whole: 0. Rows that repeat the edge row: 1 where the face has detail
    that runs every way. A fence that goes on as a fence: 0.

    Parameters
    ----------
    side : (rows, columns, channels) float64
        The side's own pixels, the edge its first row; encoded values, 0 to 1.
    face : (rows, columns, channels) float64
        The face beside it, the edge its first row, as deep as the side or deeper.
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
    >>> rows, columns = np.mgrid[0:24, 0:60]
    >>> board = ((rows // 3 + columns // 3) % 2).astype(float)[..., np.newaxis]
    >>> smear(board, board, depth_px=24), smear(np.repeat(board[:1], 24, axis=0), board, depth_px=24)
    (0.0, 1.0)
    """
    half = max(1, round(depth_px * _HALF))
    of_side, seen = _along_against_across(side, half)
    of_face, _ = _along_against_across(face[: len(side)], half)
    if not seen.sum() > 0:
        return 0.0
    lost = 1 - np.divide(of_side, of_face, out=np.ones_like(of_side), where=of_face > 0)
    return float((np.clip(lost, 0, 1) * seen).sum() / seen.sum())


def _along_against_across(values: F64, half: int) -> tuple[F64, F64]:
    """`q` and how well change across is seen, for each stretch of the edge."""
    found = tensor(_softened(values))
    rr, rc, cc = (square_mean(part, half) for part in (found.rr, found.rc, found.cc))
    middle, swing = (rr + cc) / 2, np.sqrt(((rr - cc) / 2) ** 2 + rc * rc)
    greatest, least = middle + swing, np.maximum(middle - swing, 0.0)
    share = np.divide(least, greatest, out=np.ones_like(least), where=greatest > 0)
    seen = saturated(np.sqrt(greatest), _HALF_SEEN)
    weight = local_mean(seen.mean(axis=0), 2 * half, axis=0)
    mean = local_mean((np.sqrt(share) * seen).mean(axis=0), 2 * half, axis=0)
    return np.divide(mean, weight, out=np.ones_like(mean), where=weight > 0), weight


def _softened(values: F64) -> F64:
    """Weights 1 2 1 on both axes, the ends repeated."""
    for axis in (0, 1):
        across = values.swapaxes(0, axis)
        padded = np.concatenate([across[:1], across, across[-1:]])
        values = ((padded[:-2] + 2 * across + padded[2:]) / 4).swapaxes(0, axis)
    return values
