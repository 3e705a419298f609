"""A side judged from its own pixels.

Mirrored (chevrons, repeated), continued (smeared, bent, severed) and drawn out (streaked, uneven).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.edges.gradients import F64
from pycore.edges.kinks import kinks
from pycore.edges.slants import slant_alone, slanted_shapes
from pycore.edges.smear import smear
from pycore.edges.streaks import streaked, uneven
from pycore.edges.things import CutThing, cut_things
from pycore.fill.continued_ground import colour_steps
from pycore.fill.continued_reach import first_other
from pycore.fill.facing import U8

# Our own figures, set on the photographs that the tests name as tuned on.

#: Things that are together as wide as this share of the bar depth cut the side short by half.
_HALF_WIDTH: Final = 0.5

#: Other things that take up this share of the bar depth along the edge, over plain ground, are seen by half.
_HALF_REPEATED: Final = 0.35

#: Rows that the last place of a thing lies short of the depth before it counts.
_SHORT: Final = 3

#: The bands in which bends are looked for, in bar depths, and how plain lines must be (see `kinks`): a mirror
#: shows its chevrons far and wide, a continued side bends lines at the edge alone.
_OF_MIRROR: Final = {"band": 0.5, "half_plain": 0.04}
_OF_CONTINUED: Final = {"band": 0.25, "half_plain": 0.05}


#: What a mirror is seen by, each taken alone: how much of the edge has bends, and how far one slanted outline
#: stands alone. Chevrons are one half there.
_BENDS_SEEN: Final = 0.66
_SLANT_SEEN: Final = 1.65

#: How much less of both is seen where the strip is busy all over.
_BUSY_HIDES: Final = 0.3

#: Slanted outlines of shapes, in ΔE a pixel, where they begin to count, are seen and count in full. Nothing
#: hides them.
_SHAPES: Final = (0.77, 0.82, 1.6)


@dataclass(frozen=True, kw_only=True, eq=False)
class LaidSide:
    """One side with its lines continued, and the face beside it, small.

    Attributes
    ----------
    side : (rows, columns, 3) uint8
        What the side shows, the edge its first row.
    face : (rows, columns, 3) uint8
        The face from the edge inwards, the edge its first row; the same columns.
    depth_px : int
        The bar depth in these pixels, about 30 to 40.
    band_px : int
        Rows of the face that are averaged where the edge is drawn out.
    """

    side: U8
    face: U8
    depth_px: int
    band_px: int


@dataclass(frozen=True, kw_only=True)
class LaidSideFigures:
    """How a side looks; each figure 0 to 1, to three decimals.

    Attributes
    ----------
    chevrons : float
        How plainly a mirror turns slanted lines back: along much of the edge, or one that stands alone,
        less where the strip is busy; or the slanted outlines of shapes, wherever they are.
    repeated : float
        How much of what is not at the edge itself a mirror shows again, over plain ground.
    smeared : float
        How much of a continued side's detail is drawn out into streaks.
    bent : float
        How much of the edge has lines that a continued side bends.
    severed : float
        How much of the edge cuts distinct things short.
    streaked : float
        How plainly the edge drawn out shows streaks.
    uneven : float
        How far the colours along the edge lie from their mean.
    things : tuple of CutThing
        Those things.
    mirrored : bool
        The continued side is a mirror.
    """

    chevrons: float = 0.0
    repeated: float = 0.0
    smeared: float = 0.0
    bent: float = 0.0
    severed: float = 0.0
    streaked: float = 0.0
    uneven: float = 0.0
    things: tuple[CutThing, ...] = ()
    mirrored: bool = False


def judge_laid(laid: LaidSide, *, busy: float) -> LaidSideFigures:
    """Judge one side from its own pixels.

    Parameters
    ----------
    laid : LaidSide
    busy : float
        How busy the face is beside the edge: where much is going on, a thing repeated is not seen.

    Returns
    -------
    LaidSideFigures

    Examples
    --------
    >>> grey = np.full((60, 90, 3), 90, np.uint8)
    >>> found = judge_laid(LaidSide(side=grey[:30], face=grey, depth_px=30, band_px=3), busy=0.0)
    >>> found.chevrons, found.smeared, found.streaked, found.mirrored
    (0.0, 0.0, 0.0, True)
    """
    depth = laid.depth_px
    side, face = _values(laid.side[:depth]), _values(laid.face)
    things = cut_things(laid.face, depth_px=depth)
    found = (
        _chevrons(laid, face, busy=busy),
        _repeated(laid, busy=busy),
        smear(side, face, depth_px=depth),
        kinks(side, face, depth_px=depth, **_OF_CONTINUED),
        severed(things, depth_px=depth),
        streaked(face[: laid.band_px], depth_px=depth),
        uneven(np.ascontiguousarray(laid.face[: laid.band_px])),
    )
    # Three decimals: what two platforms' sums differ by is far below.
    return LaidSideFigures(
        **dict(zip(_NAMES, (round(one, 3) for one in found), strict=True)),
        things=things,
        mirrored=bool(np.array_equal(laid.side[:depth], laid.face[:depth])),
    )


_NAMES: Final = ("chevrons", "repeated", "smeared", "bent", "severed", "streaked", "uneven")


def _chevrons(laid: LaidSide, face: F64, *, busy: float) -> float:
    bends = kinks(face, face, depth_px=laid.depth_px, **_OF_MIRROR)
    slant = slant_alone(laid.face, depth_px=laid.depth_px)
    lines = min(1.0, math.hypot(bends / _BENDS_SEEN, slant / _SLANT_SEEN) / 2) - _BUSY_HIDES * busy
    outlines = slanted_shapes(laid.face, depth_px=laid.depth_px)
    shapes = float(np.interp(outlines, _SHAPES, (0, 0.5, 1)))
    return max(0.0, lines, shapes)


def _repeated(laid: LaidSide, *, busy: float) -> float:
    depth = laid.depth_px
    other = first_other(colour_steps(np.ascontiguousarray(laid.face[: depth + 6])), depth=depth)
    seen = int((other < depth - _SHORT).sum()) / depth * (1 - busy) ** 2
    return seen / (seen + _HALF_REPEATED)


def severed(things: tuple[CutThing, ...], *, depth_px: int) -> float:
    """How much of an edge cuts things short: their width against the bar depth, saturated.

    Parameters
    ----------
    things : tuple of CutThing
    depth_px : int

    Returns
    -------
    float
        0 to 1.

    Examples
    --------
    >>> severed((CutThing(begin=5, end=20, inwards=9, outwards=None),), depth_px=30)
    0.5
    """
    width = sum(thing.end - thing.begin for thing in things)
    return width / (width + _HALF_WIDTH * depth_px)


def _values(pixels: U8) -> F64:
    return pixels.astype(np.float64) / 255
