"""Which part of the face and which piece of a side a proof strip shows."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from pycore.colour.mapping.picture_colours import Region
from pycore.conventions import Side, mm_to_px
from pycore.layout.grid import Box, PixelGrid
from pycore.proofing.proof_input import canvas_tops, seen_regions
from pycore.render.box_sums import box_sums
from pycore.speech import say

#: Of the face: how much is shown, mm.
DETAIL_HIGH_MM: Final = 45.0
#: Of the side's piece: how much of the face and of the turn-over's ink goes with it, mm.
_FACE_MM, _INK_MM = 10.0, 6.0


@dataclass(frozen=True, kw_only=True, slots=True)
class Piece:
    """A part of the flat canvas.

    Attributes
    ----------
    name : str
    box : Box
        Of the print file's pixels.
    turns : int
        Quarter turns counter-clockwise until the canvas's outer edge is above.
    folds : tuple of int
        Rows, from the top of the piece as it is turned, at which the canvas folds.
    """

    name: str
    box: Box
    turns: int
    folds: tuple[int, ...]


def worst_canvas(labels: NDArray[np.uint8], shown: PixelGrid) -> int:
    """Find the panel of a group of whose face and sides most clips; without any the first.

    Parameters
    ----------
    labels : (rows, columns) uint8
        The group of each pixel, 0 where it does not clip, of canvases stacked from the top down.
    shown : PixelGrid
        The lines of one canvas.

    Returns
    -------
    int
        Its place from the top, from 0.
    """
    regions = seen_regions(shown)
    found = [
        sum(_clipped(labels[top : top + shown.height_px], one) for one in regions)
        for top in canvas_tops(labels, shown)
    ]
    return found.index(max(found))


def strip_pieces(
    labels: NDArray[np.uint8],
    shown: PixelGrid,
    grid: PixelGrid,
    *,
    width_px: int,
) -> list[Piece]:
    """Find the piece of the face, and that of the side, in which most clips; without any the middle.

    Parameters
    ----------
    labels : (rows, columns) uint8
        The group of each pixel of the canvas, 0 where it does not clip.
    shown : PixelGrid
        The lines of those pixels.
    grid : PixelGrid
        The lines of the print file.
    width_px : int
        How much of the canvas the strip can show across, in pixels of the print file.

    Returns
    -------
    list of Piece
        The face's and the side's.
    """
    high_px = mm_to_px(DETAIL_HIGH_MM, ppi=grid.ppi)
    face = Box(left=grid.columns[2], top=grid.rows[2], right=grid.columns[3], bottom=grid.rows[3])
    detail = _window(labels, shown, grid, face, wide=width_px, high=high_px)
    _, *sides = seen_regions(shown)
    worst = max(sides, key=lambda one: _share(labels, one))
    return [
        Piece(name=say("Face"), box=detail, turns=0, folds=()),
        _side_piece(Side(worst.name), labels, shown, grid, width_px=width_px),
    ]


def _clipped(labels: NDArray[np.uint8], region: Region) -> int:
    """How many pixels of a region clip."""
    return int(np.count_nonzero(labels[region.top : region.bottom, region.left : region.right]))


def _share(labels: NDArray[np.uint8], region: Region) -> float:
    area = (region.bottom - region.top) * (region.right - region.left)
    return _clipped(labels, region) / max(1, area)


def _side_piece(
    side: Side, labels: NDArray[np.uint8], shown: PixelGrid, grid: PixelGrid, *, width_px: int
) -> Piece:
    face_px, ink_px = mm_to_px(_FACE_MM, ppi=grid.ppi), mm_to_px(_INK_MM, ppi=grid.ppi)
    upright = side in (Side.TOP, Side.BOTTOM)
    lines, backs = (grid.rows, grid.back_rows) if upright else (grid.columns, grid.back_columns)
    along = (grid.columns[2], grid.columns[3]) if upright else (grid.rows[2], grid.rows[3])
    if side in (Side.TOP, Side.LEFT):
        first, last = max(lines[1], backs[0] - ink_px), min(lines[2] + face_px, lines[3])
        folds = (backs[0] - first, lines[2] - first)
    else:
        first, last = max(lines[3] - face_px, lines[2]), min(lines[4], backs[1] + ink_px)
        folds = (last - backs[1], last - lines[3])
    if upright:
        whole = Box(left=along[0], top=first, right=along[1], bottom=last)
        box = _window(labels, shown, grid, whole, wide=width_px, high=last - first)
    else:
        whole = Box(left=first, top=along[0], right=last, bottom=along[1])
        box = _window(labels, shown, grid, whole, wide=last - first, high=width_px)
    turns = {Side.TOP: 0, Side.RIGHT: 1, Side.BOTTOM: 2, Side.LEFT: 3}[side]
    return Piece(
        name=say("{capitalize} side", capitalize=side.value.capitalize()), box=box, turns=turns, folds=folds
    )


def _window(
    labels: NDArray[np.uint8], shown: PixelGrid, grid: PixelGrid, area: Box, *, wide: int, high: int
) -> Box:
    """The part of an area, at most so wide and high, in which most pixels clip."""
    wide, high = min(wide, area.right - area.left), min(high, area.bottom - area.top)
    scale = shown.ppi / grid.ppi
    top, bottom = _scaled(area.top, scale), max(_scaled(area.bottom, scale), _scaled(area.top, scale) + 1)
    left, right = _scaled(area.left, scale), max(_scaled(area.right, scale), _scaled(area.left, scale) + 1)
    part = labels[top:bottom, left:right] > 0
    x, y = (area.right - area.left - wide) // 2, (area.bottom - area.top - high) // 2
    if part.any():
        rows = max(1, min(_scaled(high, scale), part.shape[0]))
        columns = max(1, min(_scaled(wide, scale), part.shape[1]))
        sums = box_sums(part.astype(np.int64), rows, columns)
        row, column = divmod(int(sums.argmax()), sums.shape[1])
        x, y = _scaled(column, 1 / scale), _scaled(row, 1 / scale)
    x, y = min(x, area.right - area.left - wide), min(y, area.bottom - area.top - high)
    return Box(left=area.left + x, top=area.top + y, right=area.left + x + wide, bottom=area.top + y + high)


def _scaled(pixels: int, scale: float) -> int:
    return int(pixels * scale + 0.5)
