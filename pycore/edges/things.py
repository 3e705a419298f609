"""Distinct things that an edge cuts: where they are, how far in they reach, how far the crop must move."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np
import numpy.typing as npt

from pycore.fill.continued_ground import I32, STEPS, colour_steps, over_channels, smooth
from pycore.fill.facing import U8

Marks = npt.NDArray[np.bool_]

# Our own figures, set on photographs that the tests name.

#: A step of colour along the edge, in ΔE over four pixels, that ends one thing and begins another.
_STEP: Final = 12

#: A thing differs by this much from the ground on both of its sides; so does each of its pixels, less
#: strictly.
_DISTINCT: Final = 16
_APART: Final = 12

#: Widths along the edge that are looked at, in shares of the depth.
_NARROWEST, _WIDEST = 0.15, 4.0

#: How far in a thing is followed, in depths; what goes on further runs through the picture and is not cut
#: short.
_FOLLOWED: Final = 2.5

#: A thing as much wider inside than at the edge is cut at a blunt angle.
_BLUNT: Final = 1.4


@dataclass(frozen=True, kw_only=True)
class CutThing:
    """One thing that the edge cuts, in pixels of what was searched.

    Attributes
    ----------
    begin, end : int
        Its columns at the edge.
    inwards : int or None
        Rows by which the edge must move inwards so that it leaves the thing off; None where the thing
        reaches further than it is followed.
    outwards : int or None
        Rows by which the edge must move outwards so that it holds all of it; None where the picture ends
        before or nothing is known beyond the edge.
    """

    begin: int
    end: int
    inwards: int | None
    outwards: int | None


def cut_things(strip: U8, *, depth_px: int, beyond: U8 | None = None) -> tuple[CutThing, ...]:
    """Find the distinct things that an edge cuts at a blunt angle or near their end.

    Along the edge, colour steps part stretches from each other. A stretch that differs from both of its
    neighbours is followed inwards, row by row, as what touches it and has none of the neighbours' colours.
    When it ends within two and a half depths, or when it widens inwards, a continued side would show it as a
    stub. A trunk or a road, as wide inside as at the edge and without an end, is no such thing.

    Parameters
    ----------
    strip : (rows, columns, 3) uint8
        The face from the edge inwards, the edge its first row; about 40 pixels to a depth.
    depth_px : int
        The bar depth in these pixels.
    beyond : (rows, columns, 3) uint8, optional
        What the picture has past the edge, going outwards from it.

    Returns
    -------
    tuple of CutThing
        In their order along the edge.

    Examples
    --------
    >>> rows, columns = np.mgrid[0:100, 0:160]
    >>> bowl = ((rows - 10) ** 2 + (columns - 80) ** 2 < 30 * 30)[..., np.newaxis] * np.uint8(200)
    >>> [thing.inwards for thing in cut_things(np.repeat(bowl, 3, axis=2), depth_px=40)]
    [41]
    """
    steps = smooth(colour_steps(strip[: int(_FOLLOWED * depth_px) + 2]), 1)
    past = None if beyond is None else smooth(colour_steps(beyond), 1)
    edge = steps[:3].sum(axis=0, dtype=np.int32) // 3
    found = []
    for begin, end in _stretches(edge, depth_px):
        ground = _ground(steps, begin, end, depth_px)
        if ground is None or not _stands_out(edge, begin, end, ground):
            continue
        inside, widest = _follow(steps, begin, end, ground, depth_px)
        width = end - begin
        if inside is None and widest < _BLUNT * width:
            continue
        outside = None if past is None else _follow(past, begin, end, ground, depth_px)[0]
        found.append(CutThing(begin=begin, end=end, inwards=inside, outwards=outside))
    return tuple(found)


def _stretches(edge: I32, depth_px: int) -> list[tuple[int, int]]:
    """Columns between two neighbouring colour steps."""
    change = np.zeros(len(edge), np.int64)
    change[2:-2] = np.sqrt(((edge[4:] - edge[:-4]).astype(np.float64) ** 2).sum(axis=1)).astype(np.int64)
    # The ridge of each step: the largest of nine.
    padded = np.pad(change, 4)
    largest = np.lib.stride_tricks.sliding_window_view(padded, 9).max(axis=1)
    ridges = np.flatnonzero((change == largest) & (change > _STEP * STEPS))
    ends = [0, *ridges.tolist(), len(edge)]
    least, most = _NARROWEST * depth_px, _WIDEST * depth_px
    return [(left, right) for left, right in pairwise(ends[1:-1]) if least <= right - left <= most]


def _ground(steps: I32, begin: int, end: int, depth_px: int) -> I32 | None:
    """Colours on both sides of a stretch, at the edge; None where there is no room for them."""
    # A thing widens inwards: only what lies at the edge itself is surely not of it.
    wide, deep = depth_px // 2, 3
    left = steps[:deep:2, max(0, begin - wide) : max(0, begin - 2) : 3]
    right = steps[:deep:2, end + 3 : end + wide : 3]
    if left.shape[1] < 2 or right.shape[1] < 2:
        return None
    return np.concatenate([left.reshape(-1, 3), right.reshape(-1, 3)])


def _stands_out(edge: I32, begin: int, end: int, ground: I32) -> bool:
    middle = edge[begin + 2 : end - 1]
    if not len(middle):
        return False
    # So few places are compared with all colours at once.
    apart = middle[:, np.newaxis] - ground
    gaps = over_channels(apart * apart).min(axis=1)
    return int((gaps > (_DISTINCT * STEPS) ** 2).sum()) * 4 > 3 * len(middle)


def _gaps(steps: I32, ground: I32) -> I32:
    """Squared distance of each place from the nearest colour of the ground."""
    least = np.full(steps.shape[:2], 2**30, np.int32)
    # One channel after another: a sum over three neighbours in memory would take most of the time.
    channels = [np.ascontiguousarray(steps[..., channel]) for channel in range(3)]
    for colour in ground:
        total, *others = (channel - value for channel, value in zip(channels, colour, strict=True))
        total *= total
        for gap in others:
            gap *= gap
            total += gap
        np.minimum(least, total, out=least)
    return least


def _follow(steps: I32, begin: int, end: int, ground: I32, depth_px: int) -> tuple[int | None, int]:
    """How many rows the thing has from here on, and its greatest width; None where it does not end."""
    first, last = max(0, begin - 2 * depth_px), min(steps.shape[1], end + 2 * depth_px)
    apart = _gaps(steps[:, first:last], ground) > (_APART * STEPS) ** 2
    row: Marks = np.zeros(last - first, np.bool_)
    row[begin + 1 - first : end - 1 - first] = True
    widest = 0
    for number, here in enumerate(apart):
        row = _connected(row, here)
        width = int(row.sum())
        widest = max(widest, width)
        if width < max(2, (end - begin) // 8):
            return number, widest
    return None, widest


def _connected(above: Marks, here: Marks) -> Marks:
    """The marked runs of a row that touch the marks of the row before."""
    touched = above.copy()
    touched[1:] |= above[:-1]
    touched[:-1] |= above[1:]
    touched &= here
    if not touched.any():
        return touched
    begins = here.copy()
    begins[1:] &= ~here[:-1]
    # Runs are counted from one; what is not marked is run nought, which nothing touches.
    runs = np.cumsum(begins) * here
    is_joined = np.zeros(len(here) + 1, np.bool_)
    is_joined[runs[touched]] = True
    joined: Marks = is_joined[runs]
    return joined
