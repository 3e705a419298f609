"""The piece as planar quadrilaterals: its face and four sides, each with what it shows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pycore.contract.record import Pair
from pycore.conventions import Side
from pycore.layout.grid import PixelGrid
from pycore.picture.tones import U8
from pycore.wall.least_squares import Floats


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Panel:
    """A parallelogram in front of the wall, with its picture.

    Attributes
    ----------
    origin_mm, across_mm, down_mm : (3,) float64
        The picture's upper-left corner on the wall (x right, y up, z towards the room), and the ways to its
        upper-right and its lower-left corner.
    normal : (3,) float64
        Outwards, length 1.
    texture : (rows, columns, 3) uint8
        srgb_encoded.
    """

    origin_mm: Floats
    across_mm: Floats
    down_mm: Floats
    normal: Floats
    texture: U8


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Box:
    """Where a canvas hangs: the middle of its face on the wall, its face's size and its depth, mm."""

    centre_mm: Pair
    size_mm: Pair
    depth_mm: float

    @property
    def front_mm(self) -> Floats:
        """(4, 3): the front's upper left, upper right, lower right and lower left corner."""
        (x, y), (width, height) = self.centre_mm, self.size_mm
        left, right, low, high = x - width / 2, x + width / 2, y - height / 2, y + height / 2
        d = self.depth_mm
        return np.array([[left, high, d], [right, high, d], [right, low, d], [left, low, d]])

    @property
    def all_mm(self) -> Floats:
        """(8, 3): the front's corners, then those on the wall."""
        back = self.front_mm.copy()
        back[:, 2] = 0
        return np.concatenate([self.front_mm, back])


def canvas_parts(canvas: U8, grid: PixelGrid) -> dict[str, U8]:
    """The face and the four sides of a flat canvas, each upright as it lies on the flat canvas.

    Parameters
    ----------
    canvas : (rows, columns, 3) uint8
        One flat canvas.
    grid : PixelGrid
        Its lines.

    Returns
    -------
    dict
        `face`, and by the names of the sides the part between front edge and back edge.
    """
    left, right = grid.columns[2], grid.columns[3]
    top, bottom = grid.rows[2], grid.rows[3]
    (first_x, last_x), (first_y, last_y) = grid.back_columns, grid.back_rows
    return {
        "face": canvas[top:bottom, left:right],
        Side.TOP: canvas[first_y:top, left:right],
        Side.RIGHT: canvas[top:bottom, right:last_x],
        Side.BOTTOM: canvas[bottom:last_y, left:right],
        Side.LEFT: canvas[top:bottom, first_x:left],
    }


def panels_of(box: Box, parts: dict[str, U8]) -> Sequence[Panel]:
    """The five panels of a hanging canvas.

    Parameters
    ----------
    box : Box
    parts : dict
        See `canvas_parts`.

    Returns
    -------
    sequence of Panel
        The face first. A side's texture runs from the front edge to the wall as it does on the flat canvas.
    """
    upper_left, upper_right, _, lower_left = box.front_mm
    back = np.array([0.0, 0.0, box.depth_mm])
    across, down = upper_right - upper_left, lower_left - upper_left

    def panel(name: str, origin: Floats, over: Floats, below: Floats, normal: Sequence[float]) -> Panel:
        return Panel(
            origin_mm=origin,
            across_mm=over,
            down_mm=below,
            normal=np.array(normal, np.float64),
            texture=parts[name],
        )

    return (
        panel("face", upper_left, across, down, (0, 0, 1)),
        panel(Side.TOP, upper_left - back, across, back, (0, 1, 0)),
        panel(Side.RIGHT, upper_right, -back, down, (1, 0, 0)),
        panel(Side.BOTTOM, lower_left, across, -back, (0, -1, 0)),
        panel(Side.LEFT, upper_left - back, back, down, (-1, 0, 0)),
    )
