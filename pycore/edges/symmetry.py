"""How much a strip is unlike its own reflection: where it is alike, a mirror shows nothing new."""

from __future__ import annotations

import numpy as np

from pycore.edges.gradients import F64, channel_mean, local_mean

#: Parts of the strip, each compared with its reflection: no shape is symmetric about the middle of
#: all three, and posts, which run straight in from the front edge, are.
_PARTS = ((0, 2), (0, 3), (1, 3))


def unlike_reflection(strip: F64, *, half: int) -> F64:
    """The share of what varies in a strip that changes sign when the strip is reflected.

    A strip is the sum of its even part, which its reflection leaves as it is, and its odd part. For a strip
    of posts the odd part is nothing (0), for texture without an order both have the same energy (0.5), for a
    shape at one end of a plain strip nearly so, and for a slope towards the edge all is odd (1). Three parts
    of the strip are looked at, each about its own middle, and the largest share is given.

    Parameters
    ----------
    strip : (rows, columns, channels) float64
        The front edge its first row.
    half : int
        How many columns on either side count as well.

    Returns
    -------
    (columns,) float64
        0 to 1; 0 where nothing varies.

    Examples
    --------
    >>> posts = np.tile((np.arange(12) % 4 < 2).astype(float), (9, 1))[..., np.newaxis]
    >>> float(unlike_reflection(posts, half=3).max())
    0.0
    """
    shares: list[F64] = [np.zeros(strip.shape[1])]
    for first, last in _PARTS:
        part = strip[len(strip) * first // 3 : max(1, len(strip) * last // 3)]
        if not len(part):
            continue
        reflected = part[::-1]
        mean = local_mean(part.mean(axis=0), half, axis=0)
        odd = _energy((part - reflected) / 2, half)
        even = _energy((part + reflected) / 2 - mean, half)
        whole = odd + even
        shares.append(np.divide(odd, whole, out=np.zeros_like(whole), where=whole > 0))
    result: F64 = np.max(shares, axis=0)
    return result


def _energy(values: F64, half: int) -> F64:
    return local_mean(channel_mean(values * values).mean(axis=0), half, axis=0)
