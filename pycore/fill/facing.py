"""The canvas seen from each side in turn, so that every fill is written once, for one direction."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pycore.conventions import Side
from pycore.layout.grid import PixelGrid
from pycore.picture.tones import Values
from pycore.workers import IN_WEBASSEMBLY

U8 = npt.NDArray[np.uint8]


@dataclass(frozen=True, kw_only=True)
class Facing:
    """One side of the canvas, turned so that its first axis runs outwards and its second along the side.

    Attributes
    ----------
    side : Side
    view : (outwards, along, channels) uint8 or uint16
        A view of the whole canvas, not a copy.
    far_edge, front_edge, back, end : int
        Along the first axis: the opposite edge, this side's front edge, its back edge, the end of the ink.
    along : tuple of 4 ints
        Along the second axis: ink from, first front edge, second front edge, ink to.
    """

    side: Side
    view: Values
    far_edge: int
    front_edge: int
    back: int
    end: int
    along: tuple[int, int, int, int]

    @property
    def depth(self) -> int:
        """Pixels from the front edge to the back edge."""
        return self.back - self.front_edge

    @property
    def reach(self) -> int:
        """Pixels from the front edge to the end of the ink."""
        return self.end - self.front_edge

    @property
    def inked(self) -> Values:
        """The side with its corner squares and its ink-over: (reach, along, channels), a view."""
        return self.view[self.front_edge : self.end, self.along[0] : self.along[3]]

    @property
    def face(self) -> Values:
        """The face zone: (across, along, channels), a view; its last row lies at the front edge."""
        return self.view[self.far_edge : self.front_edge, self.along[1] : self.along[2]]


def facing(canvas: Values, grid: PixelGrid, side: Side) -> Facing:
    """Turn the canvas towards one side.

    Parameters
    ----------
    canvas : (rows, columns, channels) uint8 or uint16
    grid : PixelGrid
        The canvas's lines.
    side : Side

    Returns
    -------
    Facing
        The second axis runs to the right for top and bottom, downwards for left and right.

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> from pycore.layout.grid import pixel_grid
    >>> grid = pixel_grid(Job(), ppi=25.4)
    >>> side = facing(np.zeros((427, 527, 3), np.uint8), grid, Side.RIGHT)
    >>> side.depth, side.reach, side.inked.shape
    (20, 26, (26, 253, 3))
    """
    upright = side in (Side.TOP, Side.BOTTOM)
    lines = grid.rows if upright else grid.columns
    backs = grid.back_rows if upright else grid.back_columns
    across = grid.columns if upright else grid.rows
    view = canvas if upright else canvas.transpose(1, 0, 2)
    along = (across[1], across[2], across[3], across[4])
    if side in (Side.BOTTOM, Side.RIGHT):
        return Facing(
            side=side,
            view=view,
            far_edge=lines[2],
            front_edge=lines[3],
            back=backs[1],
            end=lines[4],
            along=along,
        )
    size = lines[5]
    return Facing(
        side=side,
        view=view[::-1],
        far_edge=size - lines[3],
        front_edge=size - lines[2],
        back=size - backs[0],
        end=size - lines[1],
        along=along,
    )


def copy_pixels(target: Values, source: Values) -> None:
    """Copy pixels from one part of a picture to another, in whichever order numpy does it most quickly.

    Parameters
    ----------
    target : (rows, columns, channels) uint8 or uint16
        Written in place.
    source : (rows, columns, channels) uint8 or uint16
        Of the target's shape, and apart from it; its rows or columns may run backwards.

    Examples
    --------
    >>> row = np.array([[[1], [2], [0], [0]]], np.uint8)
    >>> copy_pixels(row[:, 2:], row[:, 1::-1])
    >>> row.ravel().tolist()
    [1, 2, 2, 1]
    """
    channels, size = target.shape[2], target.itemsize
    if channels > 1 and IN_WEBASSEMBLY and target.strides[1] != channels * size:
        # A pixel of three bytes is moved by a call there, a byte by an instruction.
        for channel in range(channels):
            target[..., channel] = source[..., channel]
        return
    pixel = np.dtype((np.void, channels * size)) if channels > 1 else target.dtype
    target.view(pixel)[..., 0] = source.view(pixel)[..., 0]
