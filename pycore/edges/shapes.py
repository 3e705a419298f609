"""Doubled: what stands out beside the edge as a shape by itself."""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.edges.gradients import F64, channel_mean, saturated, square_mean, tensor
from pycore.edges.symmetry import unlike_reflection

# Our own figures, set on drawn shapes and on photographs.

#: What stands out: a mean over a small square against one over a large square, half their sides as shares of
#: the bar depth. Shapes from a quarter of the depth to all of it stand out most.
_SMALL: Final = 1 / 12
_LARGE: Final = 1 / 2.5

#: The difference, in full scales, that stands out by half.
_HALF_DIFFERENCE: Final = 0.1

#: So many times what stands out on average in the strip does not count: where everything does, nothing does.
_USUAL: Final = 2.5

#: A shape at the far end of the strip counts for this much of one at the front edge, where the twins touch.
_FAR: Final = 0.4


def blurred(values: F64, *, depth_px: float) -> F64:
    """The picture without what is finer than a shape.

    Parameters
    ----------
    values : (rows, columns, channels) float64
    depth_px : float
        The bar depth.

    Returns
    -------
    float64
        Of the same shape.
    """
    half = max(1, round(depth_px * _SMALL))
    return square_mean(square_mean(values, half), half)


def standing_out(values: F64, soft: F64, *, depth_px: float) -> F64:
    """How much each place of the face differs from what is round about it.

    Parameters
    ----------
    values : (rows, columns, channels) float64
        Of the face.
    soft : float64
        The same from `blurred`.
    depth_px : float
        The bar depth.

    Returns
    -------
    (rows, columns) float64
        Full scales.

    Examples
    --------
    >>> plain = np.full((20, 30, 3), 0.25)
    >>> float(standing_out(plain, plain, depth_px=10).max())
    0.0
    """
    difference = soft - square_mean(values, max(2, round(depth_px * _LARGE)))
    result: F64 = np.sqrt(channel_mean(difference * difference))
    return result


def doubled(out: F64, soft: F64, *, depth_px: float) -> float:
    """How plainly a mirror would show a shape twice.

    The plainest place of the strip that stands out beyond what is usual there, is compact, and is near. How
    compact: `1 - c2`, with c the coherence of the structure tensor over a square of about the depth. The
    outline of a shape, whole or cut in half, runs every way (0); a line's runs one way (1). It counts for
    less where the strip is alike its own reflection (see `unlike_reflection`).

    Parameters
    ----------
    out : (rows, columns) float64
        From `standing_out`, the strip alone, the front edge its first row.
    soft : (rows or more, columns, channels) float64
        From `blurred`, likewise, going on inwards.
    depth_px : float
        The bar depth.

    Returns
    -------
    float
        0 to 1.

    Examples
    --------
    >>> rows, columns = np.mgrid[0:60, 0:120]
    >>> disc = ((rows - 12) ** 2 + (columns - 60) ** 2 < 81).astype(float)[..., np.newaxis]
    >>> soft = blurred(disc, depth_px=30)
    >>> doubled(standing_out(disc, soft, depth_px=30)[:30], soft, depth_px=30) > 0.6
    True
    """
    depth = len(out)
    half = max(2, round(depth_px / 3))
    edges = tensor(soft[: depth + half])
    rr, rc, cc = (square_mean(part, half)[:depth] for part in (edges.rr, edges.rc, edges.cc))
    energy = rr + cc
    one_way = np.divide(
        (rr - cc) ** 2 + 4 * rc * rc, energy * energy, out=np.ones_like(energy), where=energy > 0
    )
    beyond = np.maximum(out - _USUAL * out.mean(), 0.0)
    # Texture is unlike its reflection by one half; what is more alike than that shows less of a twin.
    unlike = np.minimum(1.0, 2 * unlike_reflection(soft[:depth], half=half))
    near = 1 - (1 - _FAR) * np.arange(depth)[:, np.newaxis] / depth
    return float(np.clip((1 - one_way) * unlike * near * saturated(beyond, _HALF_DIFFERENCE), 0, 1).max())
