"""The strip beside an edge as a continued side looks at it: colours in steps of the eye, means, all whole."""

from __future__ import annotations

from typing import Any, Final, TypeVar

import numpy as np
import numpy.typing as npt

from pycore.fill.facing import U8

I32 = npt.NDArray[np.int32]
I64 = npt.NDArray[np.int64]
Numbers = TypeVar("Numbers", npt.NDArray[np.int32], npt.NDArray[np.int64])

#: Steps of colour to one ΔE76, roughly: the whole numbers that lightness and the two opponent pairs are in.
STEPS: Final = 16

#: What a sum of 32 bits holds.
_SUMMED: Final = 2**31 - 1


def colour_steps(encoded: U8) -> I32:
    """Lightness, red against green and yellow against blue, in about 1 / `STEPS` of a ΔE76.

    A stand-in for CIELAB on encoded values, linear and whole. The weights are our own: a step of 1 in all
    three of mid-grey is 0.4 of L*; the pairs are scaled so that common colours of photographs lie about as
    far apart as in CIELAB.

    Parameters
    ----------
    encoded : (rows, columns, 3) uint8

    Returns
    -------
    (rows, columns, 3) int32

    Examples
    --------
    >>> colour_steps(np.array([[[255, 255, 255], [10, 10, 10]]], np.uint8)).tolist()
    [[[1657, 0, 0], [65, 0, 0]]]
    """
    red, green, blue = (encoded[..., channel].astype(np.int32) for channel in range(3))
    steps = np.empty(encoded.shape, np.int32)
    steps[..., 0] = ((2 * red + 5 * green + blue) * 13) >> 4
    steps[..., 1] = ((red - green) * 92) >> 4
    steps[..., 2] = (red + green - 2 * blue) * 2
    return steps


def mean_along(values: I32, half: int, *, axis: int) -> I32:
    """The mean over `half` neighbours on either side, the ends reflected, rounded to the nearest.

    Parameters
    ----------
    values : int32
        Of any shape.
    half : int
        0 or more; no more are taken than the axis is long.
    axis : int

    Returns
    -------
    int32
        Of the same shape.

    Examples
    --------
    >>> mean_along(np.array([0, 3, 6], np.int32), 1, axis=0).tolist()
    [1, 3, 5]
    """
    size, width = values.shape[axis], 2 * min(half, values.shape[axis]) + 1
    half = width // 2
    if half < 1:
        return values
    before = (slice(None),) * axis

    def part(whole: npt.NDArray[Any], first: int, last: int) -> npt.NDArray[Any]:
        return whole[(*before, slice(first, last))]

    back = (*before, slice(None, None, -1))
    padded: npt.NDArray[Any] = np.concatenate(
        [part(values, 0, half)[back], values, part(values, size - half, size)[back]], axis=axis
    )
    if max(-int(values.min(initial=0)), int(values.max(initial=0))) > (_SUMMED - half) // width:
        padded = padded.astype(np.int64)
    # Sums of 1, 2, 4, ... neighbours, each from the one before; the width is made of some of them.
    total = part(padded, 0, size).copy()
    taken, long = 1, 1
    while long * 2 <= width:
        padded = part(padded, 0, padded.shape[axis] - long) + part(padded, long, padded.shape[axis])
        long *= 2
        if width & long:
            total += part(padded, taken, taken + size)
            taken += long
    total += half
    total //= width
    means: I32 = total.astype(np.int32, copy=False)
    return means


def over_channels(values: Numbers) -> Numbers:
    """The sum over three channels, added one by one: a sum along a short axis takes several times as long.

    Parameters
    ----------
    values : (..., 3) int32 or int64

    Returns
    -------
    (...) int32 or int64
        Of the same width; it must hold the sum.

    Examples
    --------
    >>> over_channels(np.array([[1, 2, 4], [1, 1, 1]], np.int32)).tolist()
    [7, 3]
    """
    return values[..., 0] + values[..., 1] + values[..., 2]


def smooth(values: I32, half: int) -> I32:
    """Two box means on each axis: a blur with a standard deviation of about 0.8 (half = 1) or 1.9 (2) pixels.

    Parameters
    ----------
    values : (rows, columns, ...) int32
    half : int

    Returns
    -------
    int32
        Of the same shape.
    """
    for _ in range(2):
        values = mean_along(mean_along(values, half, axis=0), half, axis=1)
    return values


def least_near(values: I32, half: int) -> I32:
    """The least value among `half` neighbours on either side; past the ends there are none.

    Parameters
    ----------
    values : (n,) int32
    half : int
        1 or more.

    Returns
    -------
    (n,) int32

    Examples
    --------
    >>> least_near(np.array([5, 4, 9, 9, 9], np.int32), 1).tolist()
    [4, 4, 4, 9, 9]
    """
    least = values.copy()
    for shift in range(1, min(half, len(values) - 1) + 1):
        np.minimum(least[shift:], values[:-shift], out=least[shift:])
        np.minimum(least[:-shift], values[shift:], out=least[:-shift])
    return least


def most_near(values: I32, half: int) -> I32:
    """The greatest value among `half` neighbours on either side.

    Parameters
    ----------
    values : (n,) int32
    half : int
        1 or more.

    Returns
    -------
    (n,) int32

    Examples
    --------
    >>> most_near(np.array([5, 4, 9, 1, 1], np.int32), 1).tolist()
    [5, 9, 9, 9, 1]
    """
    return -least_near(-values, half)


def along_lines(values: I32, slope: I32, depth: int) -> I32:
    """A strip read along its lines: row d of the result lies d into the face on the line of each column.

    Parameters
    ----------
    values : (rows, columns, ...) int32
        Row 0 at the edge.
    slope : (columns,) int32
        Columns per row outwards, in 1 / 256.
    depth : int
        Rows of the result, at most those of `values`.

    Returns
    -------
    (depth, columns, ...) int32
        Lines that leave the strip at an end go on reflected there.
    """
    columns = values.shape[1]
    rows = np.arange(depth)[:, np.newaxis]
    at = np.arange(columns) - ((slope * rows + 128) >> 8)
    read: I32 = values[rows, reflected(at, columns)]
    return read


def reflected(at: I64, size: int) -> I64:
    """Places past an end brought back by reflection, and past that to the end.

    Parameters
    ----------
    at : int64
        Places along an axis, of any shape.
    size : int
        How many there are on the axis.

    Returns
    -------
    int64
        From 0 to `size` - 1.

    Examples
    --------
    >>> reflected(np.array([-2, 0, 4, 6]), 5).tolist()
    [1, 0, 4, 3]
    """
    at = np.where(at < 0, -1 - at, at)
    at = np.where(at >= size, 2 * size - 1 - at, at)
    return np.clip(at, 0, size - 1)


def whole_root(squares: I32 | I64) -> I64:
    """The square root, rounded down, the same everywhere.

    Parameters
    ----------
    squares : int32 or int64
        Of any shape; under 2**53, so that they are exact as floats.

    Returns
    -------
    int64
        Of the same shape.

    Examples
    --------
    >>> whole_root(np.array([24, 25])).tolist()
    [4, 5]
    """
    return np.sqrt(squares.astype(np.float64)).astype(np.int64)
