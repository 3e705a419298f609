"""Where the pieces of a grown side come from and where they are cut, decided once for every resolution.

A side is grown from pieces of the face's own strip near the arris, as they are or reflected. They are laid
side by side along it as in image quilting (Efros and Freeman): each goes where the rows before it look as the
face's last rows at the arris, where it agrees with its neighbour, and where on the whole it has the light and
colour that the reflected picture has there. Two neighbours are cut along the path on which they differ least.
The plan is made on a small canvas whose resolution depends on the job's sizes alone, in whole numbers
throughout, so that screen and print, browser and command line show the same pieces.
"""

from __future__ import annotations

import math
from collections.abc import Generator
from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.contract.job import Job
from pycore.conventions import MM_PER_INCH, Side
from pycore.fill.facing import Facing
from pycore.fill.grown_cut import I32, least_cut
from pycore.fill.grown_repeats import known, likeness
from pycore.fill.grown_sources import Choice, coarser, fitting_sources
from pycore.layout.flat import flat_sizes

#: Pixels that the plan gives to a side's depth with its ink-over; a piece is as wide as it is deep.
_REACH_PX: Final = 36

#: The plan's canvas has at most so many pixels.
_MOST_PX: Final = 1_500_000

#: The smallest piece along the side, and how much of a piece lies over the one before it.
_LEAST_PX: Final = 12
_OVERLAP: Final = 3

#: How far into the face a piece may be taken from, in its own depths.
_INTO: Final = 2

#: A piece that is more like a part of its side than this (normalised correlation, blurred) is passed over.
_LIKE: Final = 0.75

#: Rows of the face that must look like the rows before a piece's source.
_CONTEXT_PX: Final = 8


@dataclass(frozen=True, kw_only=True, eq=False)
class Piece:
    """One piece of a side, in pixels of the plan.

    Attributes
    ----------
    along : int
        Its first column, from the side's first arris.
    source_row, source_along : int
        Where it is copied from: its first row counted from the arris, its first column from the first arris.
        Negative rows lie in the face; from 0 on, in the face's reflection past the arris.
    cut : (reach,) int32 or empty
        How many of its first columns the piece before it keeps, row by row; empty for the first piece.
    """

    along: int
    source_row: int
    source_along: int
    cut: I32


@dataclass(frozen=True, kw_only=True, eq=False)
class SidePlan:
    """All pieces of a side in the order in which they are laid.

    Attributes
    ----------
    ppi : float
        Pixels of the plan per inch of printed canvas.
    width : int
        Columns of each piece.
    reach : int
        Rows of each piece.
    pieces : tuple of Piece
    """

    ppi: float
    width: int
    reach: int
    pieces: tuple[Piece, ...]


def plan_ppi(job: Job) -> float:
    """The plan's resolution: a side's reach as some 36 pixels, but no very large canvas.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    float
        Pixels per inch.

    Examples
    --------
    >>> round(plan_ppi(Job()), 2)
    35.17
    """
    width, height = flat_sizes(job).canvas_mm
    most = math.sqrt(_MOST_PX / (width * height))
    return min(_REACH_PX / (job.bars.depth_mm + job.wrap.ink_over_mm), most) * MM_PER_INCH


def plan_side(side: Facing, *, ppi: float, seed: int) -> Generator[float, None, SidePlan]:
    """Choose and cut the pieces of one side.

    Parameters
    ----------
    side : Facing
        Of a canvas at `ppi` that holds the face, carried on past its edges by reflection.
    ppi : float
        From `plan_ppi`.
    seed : int
        Another one grows other pieces.

    Yields
    ------
    float
        The share that is done.

    Returns
    -------
    SidePlan

    References
    ----------
    A. A. Efros and W. T. Freeman, Image quilting for texture synthesis and transfer, SIGGRAPH 2001, section
    2; from memory.
    """
    start, first, second, stop = side.along
    reach = min(side.reach, side.arris - side.far_arris)
    arris = min(side.arris - side.far_arris, (1 + _INTO) * reach + _CONTEXT_PX)
    face = side.view[side.arris - arris : side.arris, :, :3]
    # The face near the arris and, past it, its reflection; in order, so that a flat view of it costs nothing.
    pixels = np.ascontiguousarray(np.concatenate([face, face[::-1]]), np.int32)
    coarse = coarser(pixels)
    width = min(max(reach, _LEAST_PX), second - first)
    overlap = max(1, width // _OVERLAP)
    context = min(_CONTEXT_PX, arris - reach)
    into = max(context, arris - (1 + _INTO) * reach)
    onto = min(reach // 2, arris - reach)
    strip = np.zeros((reach, stop - start, 3), np.int32)
    # Whole numbers from a generator whose stream is fixed by its definition, not by the platform.
    draws = np.random.PCG64(np.random.SeedSequence([seed, list(Side).index(side.side)]))
    pieces: list[Piece] = []
    sources: list[tuple[int, int]] = []
    at = start
    while True:
        kept = overlap if pieces else 0
        shown = min(width, stop - at)
        choice = Choice(
            pixels=pixels,
            coarse=coarse,
            rows=((into, arris - reach), (arris, arris + onto)),
            columns=(first, second - width),
            shape=(reach, width),
            target=pixels[arris - context : arris, at : at + shown],
            beside=strip[:, at - start : at - start + kept],
            place=(arris, at),
            shown=shown,
        )
        # A piece that merely reflects what lies at the arris beside it would be a mirror.
        fitting = fitting_sources(choice, taken=[*sources, (arris, at)], draws=draws)
        row, column = _least_known(fitting, pixels, strip[:, : at - start + kept], (reach, shown))
        source = pixels[row : row + reach, column : column + shown]
        laid = strip[:, at - start : at - start + shown]
        cut: I32 = np.zeros(0, np.int32)
        if kept:
            differs = laid[:, :kept] - source[:, :kept]
            cut = least_cut((differs * differs).sum(axis=2, dtype=np.int64))
        keeps = np.arange(shown) < cut[:, np.newaxis] if kept else np.zeros((reach, shown), np.bool_)
        laid[...] = np.where(keeps[..., np.newaxis], laid, source)
        pieces.append(Piece(along=at - first, source_row=row - arris, source_along=column - first, cut=cut))
        sources.append((row, column))
        if at + width >= stop:
            break
        yield (at + width - start) / (stop - start)
        at += width - overlap
    return SidePlan(ppi=ppi, width=width, reach=reach, pieces=tuple(pieces))


def _least_known(
    fitting: list[tuple[int, int]], pixels: I32, strip: I32, shape: tuple[int, int]
) -> tuple[int, int]:
    """The first source that shows nothing which the side shows already, or the least like it."""
    best, least = fitting[0], 2.0
    there = known(strip, columns=shape[1])
    for row, column in fitting:
        like = likeness(pixels[row : row + shape[0], column : column + shape[1]], there)
        if like < _LIKE:
            return row, column
        if like < least:
            best, least = (row, column), like
    return best
