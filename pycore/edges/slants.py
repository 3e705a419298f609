"""Slants: how far one slanted outline stands alone beside an edge, which a mirror turns back."""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.edges.gradients import local_mean, square_mean, tensor
from pycore.fill.continued_ground import STEPS, colour_steps
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
    found = tensor(colour_steps(np.ascontiguousarray(strip[: depth_px + 2])) / STEPS)
    # The row at the border has no true gradient.
    rc, cc = (part[1 : depth_px + 1] for part in (found.rc, found.cc))
    slant = np.sqrt(np.abs(square_mean(rc, max(1, round(depth_px * _HALF)))))
    near = 1 - _LESS_INSIDE * np.arange(len(slant))[:, np.newaxis] / depth_px
    beside = local_mean(cc[: max(1, round(depth_px * _BESIDE))].mean(axis=0), depth_px // 3, axis=0)
    usual = slant.mean() + _HIDES * np.sqrt(beside).mean() + _UNSEEN
    return float((slant * near).max() / usual)
