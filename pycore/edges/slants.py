"""Slants beside an edge, which a mirror turns back: one outline that stands alone, and those of shapes."""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.edges.gradients import F64, channel_mean, gradient, local_mean, square_mean, tensor
from pycore.fill.continued_ground import I32, STEPS, colour_steps, smooth
from pycore.fill.facing import U8

# Our own figures, set on photographs that were rated by eye.

#: Half the side of the square over which slants are averaged, as a share of the bar depth.
_HALF: Final = 1 / 5

#: How much less a slant counts as far in as the side is deep: its twin is then farthest from it.
_LESS_INSIDE: Final = 0.6

#: Rows beside the edge whose change along the edge hides slants, as a share of the bar depth, and how much of
#: it counts.
_BESIDE: Final = 1 / 4
_HIDES: Final = 0.4

#: Change that is not seen, in ΔE a pixel.
_UNSEEN: Final = 0.6

#: Half the side of the square of the two means that take out what is finer than a shape, as a share of the
#: bar depth.
_FINE: Final = 1 / 20

#: The share of an edge that has less of shapes' outlines than what counts.
_MOST: Final = 0.7


def slant_alone(strip: U8, *, depth_px: int) -> float:
    """How plainly the plainest slanted outline beside an edge stands alone.

    A mirror leaves alone what runs straight into the edge, and shows as a pair what lies along it; what lies
    at a slant comes back at the opposite slant, as a chevron at the edge and as a twin further in. One such
    outline in calm surroundings is seen at once; among many, in grass and in fur, none is.

    At each place the product of the changes down and across is averaged over a square: the structure tensor's
    mixed part, nought for outlines across the edge and along it and greatest at 45 degrees. Its root is a
    change a pixel. The greatest of all places counts, less with distance from the edge, against what is usual
    over the whole side and against the change along the edge next to it.

    Parameters
    ----------
    strip : (rows, columns, 3) uint8
        The face from the edge inwards, the edge its first row; about 40 pixels to a depth.
    depth_px : int
        The bar depth in these pixels.

    Returns
    -------
    float
        0 and more: how many times plainer than its surroundings; texture has about 1, what is seen at once
        1.5 and more.

    References
    ----------
    J. Bigun and G. H. Granlund, Optimal orientation detection of linear symmetry, ICCV (1987).

    Examples
    --------
    >>> rows, columns = np.mgrid[0:60, 0:200]
    >>> grey = np.full((60, 200, 3), 90, np.uint8)
    >>> one, upright = grey.copy(), grey.copy()
    >>> one[np.abs(rows + columns - 100) < 4] = upright[np.abs(columns - 100) < 4] = 180
    >>> slant_alone(one, depth_px=40) > 3, slant_alone(upright, depth_px=40) < 0.1
    (True, True)
    """
    found = tensor(_steps(strip, depth_px) / STEPS)
    slant = _slant(found.rc, depth_px)
    # The row at the border has no true gradient.
    cc = found.cc[1 : depth_px + 1]
    beside = local_mean(cc[: max(1, round(depth_px * _BESIDE))].mean(axis=0), depth_px // 3, axis=0)
    usual = slant.mean() + _HIDES * np.sqrt(beside).mean() + _UNSEEN
    return float((slant * _near(slant, depth_px)).max() / usual)


def slanted_shapes(strip: U8, *, depth_px: int) -> float:
    """How plain the slanted outlines of shapes are beside an edge, however much else is going on.

    Detail hides a mirror, but not where it is gathered in shapes: rocks, folds of cloth, clumps of leaves
    come back as figures that are symmetric about the edge. What is finer than a shape is averaged away
    first; then slants are taken as in `slant_alone`, in ΔE and against nothing. What three tenths of the edge
    reaches counts.

    It misses figures that are as small as detail, such as pebbles and splashes, and faces among them.

    Parameters
    ----------
    strip : (rows, columns, 3) uint8
        The face from the edge inwards, the edge its first row; about 40 pixels to a depth.
    depth_px : int
        The bar depth in these pixels.

    Returns
    -------
    float
        ΔE a pixel; grass and gravel have about 0.6, rocks that are seen 0.85 and more.

    Examples
    --------
    >>> rows, columns = np.mgrid[0:60, 0:200]
    >>> fine, coarse = (
    ...     (((rows + columns) // wide % 2)[..., np.newaxis] * np.full(3, 90)).astype(np.uint8)
    ...     for wide in (2, 20)
    ... )
    >>> slanted_shapes(fine, depth_px=40) < 0.5, slanted_shapes(coarse, depth_px=40) > 1
    (True, True)
    """
    soft = smooth(_steps(strip, depth_px), max(1, round(depth_px * _FINE))) / STEPS
    down, across = gradient(soft)
    slant = _slant(channel_mean(down * across), depth_px)
    return float(np.quantile((slant * _near(slant, depth_px)).max(axis=0), _MOST))


def _steps(strip: U8, depth_px: int) -> I32:
    return colour_steps(np.ascontiguousarray(strip[: depth_px + 2]))


def _slant(mixed: F64, depth_px: int) -> F64:
    # The row at the border has no true gradient.
    inside = mixed[1 : depth_px + 1]
    result: F64 = np.sqrt(np.abs(square_mean(inside, max(1, round(depth_px * _HALF)))))
    return result


def _near(slant: F64, depth_px: int) -> F64:
    """Weights of its rows, less with distance from the edge."""
    return 1 - _LESS_INSIDE * np.arange(len(slant))[:, np.newaxis] / depth_px
