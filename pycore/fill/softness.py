"""Blur that grows with the distance from the front edge: none at it, the full radius at the back edge.

The band beside the front edge is halved again and again by the kernel 1 3 3 1 / 8. Halved l times and brought
back by linear interpolation, its blur has a variance of (4**l - 1) / 2 squared pixels on each axis; smoothed
once more by 1 2 1 / 4 before it is brought back, of 4**l - 1 / 2. Going back from the coarsest level to the
finest, each row is mixed from the two of these blurs between which its own lies, in the shares that give it
the right variance. So a row costs the same whatever its radius, and all arithmetic is in whole numbers.

A mixture of two blurs half an octave apart is no exact Gaussian: at an edge from 0 to 1 in linear light it is
off by up to about 0.045 (0.03 from a blur of 1.5 pixels on). Where the blur is about as wide as the band is,
the coarse levels' last rows reach past the band's outer end, which is reflected a little late there.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import numpy.typing as npt

from pycore.picture.tones import Light

U16 = npt.NDArray[np.uint16]
U32 = npt.NDArray[np.uint32]

#: Weights are whole numbers of 1 / 65536.
ONE = 65536


def soften(light: Light, *, radius: float, depth: int) -> Light:
    """Blur one channel of a band more and more with the distance from its first row.

    The band is taken to be reflected at all of its borders. At the edge that is what it is: a mirror fill.

    Parameters
    ----------
    light : (rows, columns) uint16 or float32
        Linear light; row 0 lies at the front edge.
    radius : float
        Standard deviation of the blur at the back edge, in pixels; beyond it, it grows on.
    depth : int
        Rows from the front edge to the back edge.

    Returns
    -------
    (rows, columns) uint16 or float32
        As given.

    References
    ----------
    P. J. Burt and E. H. Adelson, The Laplacian pyramid as a compact image code, IEEE Trans. Commun. 31
    (1983).

    Examples
    --------
    >>> flat = np.full((8, 8), 1234, np.uint16)
    >>> bool((soften(flat, radius=3.0, depth=8) == flat).all())
    True
    """
    rows = len(light)
    slope = radius / depth
    levels = [light]
    # The last row's centre lies half a pixel before the band's end.
    while level_variance(len(levels) - 1) < (slope * (rows - 0.5)) ** 2:
        levels.append(_halve(_halve(levels[-1]).T).T)
    soft = levels.pop()
    while levels:
        fine = levels.pop()
        level = len(levels)
        distance = (np.arange(len(fine)) + 0.5) * 2.0**level
        soft = _towards(fine, soft, wanted=(slope * distance) ** 2, level=level)
    return soft


def level_variance(level: int) -> float:
    """Variance, in pixels squared, of the blur by halving `level` times and interpolating back.

    One halving and return spreads by 3/4 + 3/4 pixels squared at its own scale, so that the sum over the
    levels is 3/2 (1 + 4 + 16 + ...).

    Parameters
    ----------
    level : int
        How often it is halved, 0 and more.

    Returns
    -------
    float

    Examples
    --------
    >>> [level_variance(level) for level in range(4)]
    [0.0, 1.5, 7.5, 31.5]
    """
    return (4.0**level - 1.0) / 2.0


def mix(first: Light, second: Light | np.uint16 | np.float32, weight: U32 | np.uint32) -> Light:
    """`first` where the weight is 0, `second` where it is `ONE`, and between them in between.

    Parameters
    ----------
    first, second : uint16 or float32
        Linear light, of one shape or broadcast to one.
    weight : uint32
        0 to `ONE`.

    Returns
    -------
    uint16 or float32 array

    Examples
    --------
    >>> mix(np.array([0, 100], np.uint16), np.uint16(200), np.uint32(ONE // 4)).tolist()
    [50, 125]
    """
    if first.dtype == np.float32:
        share = (weight * (1.0 / ONE)).astype(np.float32)
        blend: npt.NDArray[np.float32] = first * (np.float32(1) - share) + second * share
        return blend
    # 65535 * 65536 + 32768 still fits in 32 bits.
    total = first * (np.uint32(ONE) - weight)
    total += second * weight
    total += np.uint32(ONE // 2)
    total >>= np.uint32(16)
    return total.astype(np.uint16)


def _towards(fine: Light, coarse: Light, *, wanted: npt.NDArray[np.float64], level: int) -> Light:
    """A level with each row given the variance that is wanted, from itself and the coarser one.

    The wanted variances never fall, so that each kind of row is a slice.
    """
    low, middle, high = level_variance(level), 4.0**level - 0.5, level_variance(level + 1)
    first, half, full = (int(np.searchsorted(wanted, bound)) for bound in (low, middle, high))
    rows, columns = fine.shape
    up = _expand(coarse, rows=rows, columns=columns)
    if full > first:
        smoothed = _smooth(fine, first, full)
        weights = _shares(wanted[half:full], middle, high)
        up[half:full] = mix(smoothed[half - first :], up[half:full], weights)
        weights = _shares(wanted[first:half], low, middle)
        up[first:half] = mix(fine[first:half], smoothed[: half - first], weights)
    up[:first] = fine[:first]
    return up


def _shares(wanted: npt.NDArray[np.float64], low: float, high: float) -> U32:
    """How much of the wider of two blurs gives each row the wanted variance; a column."""
    shares: U32 = np.floor((wanted - low) / (high - low) * ONE).astype(np.uint32)
    return shares[:, np.newaxis]


def _sums(values: Light) -> npt.NDArray[Any]:
    """A copy in which some of the values can be added up."""
    return values.astype(np.float32 if values.dtype == np.float32 else np.uint32)


def _shared(total: npt.NDArray[Any], bits: int, *, half: int) -> Light:
    """Sums divided by a power of two; of whole numbers after adding `half`."""
    if total.dtype == np.float32:
        total *= np.float32(0.5**bits)
        return total
    total += np.uint32(half)
    total >>= np.uint32(bits)
    return total.astype(np.uint16)


def _smooth(values: Light, first: int, last: int) -> Light:
    """Rows `first` to `last` by 1 2 1 / 4 on both axes, the ends reflected."""
    rows = _sums(values[max(first - 1, 0) : last + 1])
    above = rows[:1] if first == 0 else rows[:0]
    below = rows[-1:] if last == len(values) else rows[:0]
    rows = np.concatenate([above, rows, below])
    total = rows[:-2] + 2 * rows[1:-1] + rows[2:]
    across = 2 * total
    across[:, 1:] += total[:, :-1]
    across[:, 0] += total[:, 0]
    across[:, :-1] += total[:, 1:]
    across[:, -1] += total[:, -1]
    # Sixteen times 65535 and a half still fits; rounded once for both axes.
    return _shared(across, 4, half=8)


def _halve(values: Light) -> Light:
    """Half the rows, by 1 3 3 1 / 8, the ends reflected."""
    if len(values) % 2:
        values = np.concatenate([values, values[-1:]])
    even, odd = values[0::2], values[1::2]
    total = _sums(even)
    total += odd
    total *= total.dtype.type(3)
    total[1:] += odd[:-1]
    total[0] += even[0]
    total[:-1] += even[1:]
    total[-1] += odd[-1]
    return _shared(total, 3, half=4)


def _expand(values: Light, *, rows: int, columns: int) -> Light:
    return _double(_double(values.T, columns).T, rows)


def _double(values: Light, size: int) -> Light:
    """Twice the rows by linear interpolation (1 3 / 4), the ends reflected, cut to `size` rows."""
    three = _sums(values)
    three *= three.dtype.type(3)
    out = np.empty((2 * len(values), values.shape[1]), values.dtype)
    before = three.copy()
    before[1:] += values[:-1]
    before[0] += values[0]
    out[0::2] = _shared(before, 2, half=2)
    three[:-1] += values[1:]
    three[-1] += values[-1]
    out[1::2] = _shared(three, 2, half=2)
    return out[:size]
