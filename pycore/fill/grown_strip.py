"""A grown side's pixels at any resolution, copied from the face piece by piece as its plan says."""

from __future__ import annotations

import math
from collections.abc import Generator
from typing import Final

import numpy as np
import numpy.typing as npt

from pycore.conventions import round_half_up
from pycore.fill.facing import U8, Facing
from pycore.fill.grown_plan import Piece, SidePlan
from pycore.fill.membrane import STEP, U16, begin_with
from pycore.fill.shade import shade

#: Over how many of the plan's pixels one piece turns into the next, across the cut.
_FEATHER: Final = 1.5

#: Shares of two pieces are whole numbers of 1 / 256.
_WHOLE: Final = 256


def grown_strip(side: Facing, plan: SidePlan, *, ppi: float, channels: int) -> Generator[float, None, U8]:
    """Lay and join the pieces of one side, its corner squares and its ink-over with it.

    Parameters
    ----------
    side : Facing
        Of a canvas that holds the face and, where the side goes, its reflection; not written to.
    plan : SidePlan
    ppi : float
        Of that canvas.
    channels : int
        Of the picture.

    Yields
    ------
    float
        The share that is done, after each piece.

    Returns
    -------
    (reach, along, channels) uint8
        Encoded values; row 0 at the arris.
    """
    scale = ppi / plan.ppi
    start, first, second, stop = side.along
    strip = np.zeros((channels, side.reach, stop - start), np.uint16)
    width = math.ceil(plan.width * scale) + 1
    for number, piece in enumerate(plan.pieces):
        left = max(start, first + round_half_up(piece.along * scale))
        # The last piece goes to the end, whatever its width was rounded to.
        right = stop if piece is plan.pieces[-1] else min(stop, left + width)
        source = _source(side, piece, scale=scale, width=right - left)
        beneath = side.view[side.arris : side.end, left:right]
        _lay(
            strip[:, :, left - start : right - start], source, beneath, _kept(piece, side.reach, scale=scale)
        )
        yield (number + 1) / (len(plan.pieces) + 1)
    out = np.empty((side.reach, stop - start, channels), np.uint8)
    for channel in range(channels):
        begin_with(side.view[side.arris - 1, first:second, channel], strip[channel], first=first - start)
        out[..., channel] = (strip[channel] + np.uint16(STEP // 2)) // np.uint16(STEP)
    return out


def _source(side: Facing, piece: Piece, *, scale: float, width: int) -> U8:
    """The piece's pixels; where rounding puts it a pixel past the face, the face's last ones again."""
    _, first, second, _ = side.along
    top = side.arris + round_half_up(piece.source_row * scale)
    left = first + round_half_up(piece.source_along * scale)
    rows = np.arange(top, top + side.reach)
    # Past the arris lies the face's reflection.
    rows = np.clip(np.minimum(rows, 2 * side.arris - 1 - rows), side.far_arris, side.arris - 1)
    columns = np.clip(np.arange(left, left + width), first, second - 1)
    piece_pixels: U8 = side.view[rows[:, np.newaxis], columns]
    return piece_pixels


def _kept(piece: Piece, reach: int, *, scale: float) -> npt.NDArray[np.uint32]:
    """How much of the piece before stays in this one's first columns, (reach, columns), 0 to `_WHOLE`."""
    if len(piece.cut) == 0:
        return np.zeros((reach, 0), np.uint32)
    # Between the plan's rows the cut is a line: +, - and x alone, the same on every machine.
    at = np.clip((np.arange(reach) + 0.5) / scale - 0.5, 0.0, len(piece.cut) - 1.0)
    below = np.minimum(at.astype(np.int64), max(len(piece.cut) - 2, 0))
    above = np.minimum(below + 1, len(piece.cut) - 1)
    cut = piece.cut[below] + (at - below) * (piece.cut[above] - piece.cut[below])
    last = math.ceil((int(piece.cut.max()) + _FEATHER) * scale) + 1
    columns = (np.arange(last) + 0.5) / scale
    share = np.clip((cut[:, np.newaxis] - columns) / _FEATHER + 0.5, 0.0, 1.0)
    # As 3 t**2 - 2 t**3, so that the turn has no visible beginning.
    kept: npt.NDArray[np.uint32] = np.floor(share * share * (3.0 - 2.0 * share) * _WHOLE + 0.5).astype(
        np.uint32
    )
    return kept


def _lay(strip: U16, source: U8, beneath: U8, kept: npt.NDArray[np.uint32]) -> None:
    """Lay a piece over its part of the strip, but for what the piece before keeps."""
    joined = min(kept.shape[1], strip.shape[2])
    kept = kept[:, :joined]
    for channel in range(len(strip)):
        light = source[..., channel] + shade(source[..., channel], beneath[..., channel])
        one = np.floor(np.clip(light, 0.0, 255.0) * STEP + 0.5).astype(np.uint16)
        old = strip[channel, :, :joined] * kept
        old += one[:, :joined] * (np.uint32(_WHOLE) - kept)
        one[:, :joined] = (old + np.uint32(_WHOLE // 2)) // np.uint32(_WHOLE)
        strip[channel] = one
