"""A side judged as it looks when its lines are continued: smeared, bent at the edge, things cut."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.edges.gradients import F64
from pycore.edges.kinks import kinks
from pycore.edges.smear import smear
from pycore.edges.things import CutThing, cut_things
from pycore.fill.facing import U8

#: Things that are together as wide as this share of the bar depth cut the side short by half.
_HALF_WIDTH: Final = 0.5


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
    """

    side: U8
    face: U8
    depth_px: int


@dataclass(frozen=True, kw_only=True)
class ContinuedFigures:
    """How a continued side looks; each figure 0 to 1, to three decimals.

    Attributes
    ----------
    smeared : float
        How much of its detail is drawn out into streaks.
    bent : float
        How plainly a line that runs into the edge goes on another way.
    severed : float
        How much of the edge cuts distinct things short.
    things : tuple of CutThing
        Those things.
    """

    smeared: float = 0.0
    bent: float = 0.0
    severed: float = 0.0
    things: tuple[CutThing, ...] = ()


def judge_continued(laid: LaidSide) -> ContinuedFigures:
    """Judge one side from its own pixels.

    Parameters
    ----------
    laid : LaidSide

    Returns
    -------
    ContinuedFigures

    Examples
    --------
    >>> grey = np.full((60, 90, 3), 90, np.uint8)
    >>> judge_continued(LaidSide(side=grey[:30], face=grey, depth_px=30))
    ContinuedFigures(smeared=0.0, bent=0.0, severed=0.0, things=())
    """
    side, face = _values(laid.side[: laid.depth_px]), _values(laid.face)
    things = cut_things(laid.face, depth_px=laid.depth_px)
    # Three decimals: what two platforms' sums differ by is far below.
    return ContinuedFigures(
        smeared=round(smear(side, face, depth_px=laid.depth_px), 3),
        bent=round(kinks(side, face, depth_px=laid.depth_px), 3),
        severed=round(severed(things, depth_px=laid.depth_px), 3),
        things=things,
    )


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
