"""Which part of the face a piece of a grown side is taken from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

from pycore.fill.grown_cut import I32, I64

Index = npt.NDArray[np.intp]

#: Places that are compared at first, drawn at random from those near the piece.
_TRIED: Final = 240

#: How far away a place may lie along the side, in pieces.
_ALONG: Final = 4

#: Places that fit the best one's difference up to this share more are drawn from (Efros and Freeman: 0.1).
_NEARLY_PERCENT: Final = 10

#: How much each pixel that is compared counts: in the rows at the arris, of which every second one is, and
#: beside the piece before, of which every fourth one is.
_AT_ARRIS: Final = 4
_BESIDE: Final = 2

#: Each blurred pixel stands for those around it, and counts for half of them.
_COARSE: Final = 4
_COARSE_COUNTS: Final = 24

#: How many other places are handed on.
_FALL_BACK: Final = 40

#: How far the place that was drawn is moved to fit still better.
_MOVED: Final = 3


@dataclass(frozen=True, kw_only=True, eq=False)
class Choice:
    """What a piece must fit, and where it may come from.

    Attributes
    ----------
    pixels : (rows, columns, 3) int32
        The canvas, outwards by along.
    coarse : (rows, columns, 3) int32
        The same from `coarser`.
    rows : tuple of pairs of ints
        First and last row that a source may begin at, in the face and in its reflection.
    columns : tuple of 2 ints
        The same of its columns.
    shape : tuple of 2 ints
        Rows and columns of a piece.
    target : (context, columns, 3) int32
        The face's last rows at the arris where the piece goes; the rows before its source shall look so.
    beside : (rows, overlap, 3) int32
        What of the side the piece will overlap; no columns for the first piece.
    place : tuple of 2 ints
        The row and column at which the piece itself will lie. On the whole it shall look like what the
        reflection shows there.
    shown : int
        How many of its columns will be seen.
    """

    pixels: I32
    coarse: I32
    rows: tuple[tuple[int, int], tuple[int, int]]
    columns: tuple[int, int]
    shape: tuple[int, int]
    target: I32
    beside: I32
    place: tuple[int, int]
    shown: int


def coarser(pixels: I32) -> I32:
    """Each pixel replaced by the mean of the 4 x 4 around it, rounded down.

    Parameters
    ----------
    pixels : (rows, columns, channels) int32
        0 to 255.

    Returns
    -------
    (rows, columns, channels) int32
        0 to 255.

    Examples
    --------
    >>> coarser(np.full((5, 5, 3), 7, np.int32))[2, 2].tolist()
    [7, 7, 7]
    """
    around = np.pad(pixels, ((2, 2), (2, 2), (0, 0)), mode="edge")
    down = np.pad(np.cumsum(around, axis=0, dtype=np.int32), ((1, 0), (0, 0), (0, 0)))
    rows = down[_COARSE:] - down[:-_COARSE]
    across = np.pad(np.cumsum(rows, axis=1, dtype=np.int32), ((0, 0), (1, 0), (0, 0)))
    sums = across[:, _COARSE:] - across[:, :-_COARSE]
    means: I32 = sums[: pixels.shape[0], : pixels.shape[1]] // np.int32(_COARSE * _COARSE)
    return means


def fitting_sources(
    choice: Choice, *, taken: Sequence[tuple[int, int]], draws: np.random.PCG64
) -> list[tuple[int, int]]:
    """Find among random places one that fits best or nearly so, and others to fall back on.

    A place that shares more than half a piece with all the sources before it is passed over, and so is one
    that merely goes on from the source of the piece before; where there is no other, the places that share
    least are left.

    Parameters
    ----------
    choice : Choice
    taken : sequence of (row, column)
        The sources of this side's earlier pieces, in order.
    draws : numpy.random.PCG64
        Its next numbers are used up.

    Returns
    -------
    list of (row, column)
        The one to take first; the others after it by how well they fit.

    References
    ----------
    Efros and Freeman 2001, section 2, and section 3 for what a piece shall look like on the whole. Random
    places moved to fit: after C. Barnes et al., PatchMatch, SIGGRAPH 2009, section 3. Both from memory.
    """
    places = _unshared(_random_places(choice, draws), taken, choice.shape)
    costs = _costs(choice, places)
    bound = int(costs.min()) * (100 + _NEARLY_PERCENT) // 100
    good = np.flatnonzero(costs <= bound)
    drawn = places[good[int(draws.random_raw()) % len(good)]]
    around = _unshared(_moved(choice, drawn), taken, choice.shape)
    others = places[np.argsort(costs, kind="stable")[:_FALL_BACK]]
    found = [around[int(np.argmin(_costs(choice, around)))], *others]
    return [(int(row), int(column)) for row, column in found]


def shared_area(places: I64, taken: Sequence[tuple[int, int]], shape: tuple[int, int]) -> I64:
    """Count the pixels of each place that lie in sources already taken; those in two count twice.

    Parameters
    ----------
    places : (n, 2) int64
        Row and column of each place's first pixel.
    taken : sequence of (int, int)
        The same of each source.
    shape : (int, int)
        Rows and columns of them all.

    Returns
    -------
    (n,) int64

    Examples
    --------
    >>> shared_area(np.array([[0, 0], [0, 3]]), [(0, 2)], (4, 4)).tolist()
    [8, 12]
    """
    if not taken:
        return np.zeros(len(places), np.int64)
    apart = np.abs(places[:, np.newaxis] - np.array(taken, np.int64))
    both = np.maximum(np.array(shape, np.int64) - apart, 0)
    total: I64 = (both[..., 0] * both[..., 1]).sum(axis=1, dtype=np.int64)
    return total


def _random_places(choice: Choice, draws: np.random.PCG64) -> I64:
    width = choice.shape[1]
    column = choice.place[1]
    low, high = choice.columns
    middle = min(max(column, low), high)
    left, right = max(low, middle - _ALONG * width), min(high, middle + _ALONG * width)
    raw = draws.random_raw(2 * _TRIED)
    rows = np.concatenate(
        [
            top + (some % np.uint64(bottom - top + 1)).astype(np.int64)
            for (top, bottom), some in zip(choice.rows, np.split(raw[:_TRIED], 2), strict=True)
        ]
    )
    columns = left + (raw[_TRIED:] % np.uint64(right - left + 1)).astype(np.int64)
    return np.stack([rows, columns], axis=1)


def _moved(choice: Choice, place: npt.NDArray[np.int64]) -> I64:
    steps = np.arange(-_MOVED, _MOVED + 1)
    down, across = np.meshgrid(steps, steps, indexing="ij")
    moved = place + np.stack([down.ravel(), across.ravel()], axis=1)
    rows = next(rows for rows in choice.rows if rows[0] <= place[0] <= rows[1])
    low, high = np.array([rows, choice.columns]).T
    kept: I64 = moved[((moved >= low) & (moved <= high)).all(axis=1)]
    return kept


def _unshared(places: I64, taken: Sequence[tuple[int, int]], shape: tuple[int, int]) -> I64:
    """The places that repeat nothing of earlier pieces; if all do, those that repeat least."""
    if not taken:
        return places
    shared = shared_area(places, taken, shape)
    half = shape[0] * shape[1] // 2
    free = places[shared <= half]
    return free if len(free) else places[shared == shared.min()]


def _costs(choice: Choice, places: I64) -> I64:
    """The squared difference of each place from what it must fit, at some of its pixels."""
    stride = choice.pixels.shape[1]
    context, shown = choice.target.shape[:2]
    rows, columns = np.mgrid[0:context, 0:shown]
    before = (rows + columns) % 2 == 0
    offsets = [((rows - context) * stride + columns)[before]]
    wanted = [choice.target[before]]
    weights = [np.full(len(wanted[0]), _AT_ARRIS, np.int32)]
    rows, columns = np.mgrid[0 : choice.shape[0], 0 : choice.beside.shape[1]]
    half = (rows % 2 == 0) & (columns % 2 == 0)
    offsets.append((rows * stride + columns)[half])
    wanted.append(choice.beside[half])
    weights.append(np.full(len(wanted[1]), _BESIDE, np.int32))
    flat = choice.pixels.reshape(-1, 3)
    index = _index(places, stride) + np.concatenate(offsets)
    differs = flat.take(index, axis=0) - np.concatenate(wanted)
    differs *= differs
    total: I64 = (differs.sum(axis=2, dtype=np.int32) * np.concatenate(weights)).sum(axis=1, dtype=np.int64)
    rows, columns = np.mgrid[0 : choice.shape[0] : _COARSE, 0 : choice.shown : _COARSE]
    offset = (rows * stride + columns).ravel()
    blurred = choice.coarse.reshape(-1, 3)
    beneath = blurred.take(_index(np.array([choice.place], np.int64), stride) + offset, axis=0)
    differs = blurred.take(_index(places, stride) + offset, axis=0) - beneath
    total += _COARSE_COUNTS * (differs * differs).sum(axis=(1, 2), dtype=np.int64)
    return total


def _index(places: I64, stride: int) -> Index:
    """Where places lie in the flat array, as a column."""
    # Of the machine's own size for an index.
    found: Index = (places[:, 0] * stride + places[:, 1])[:, np.newaxis].astype(np.intp)
    return found
