"""Corner squares: each follows both of its neighbours.

The triangle beside the under pair belongs to that pair's strip, run on past the edge: it is the flap
that shows when a corner is lapped. In the other triangle, which never shows, the under pair's strip turns
into the over pair's, so that there is no seam on either border of the square.
"""

from __future__ import annotations

from typing import TypeVar

import numpy as np
import numpy.typing as npt

from pycore.conventions import Side
from pycore.fill.facing import Facing
from pycore.fill.softness import ONE, mix
from pycore.picture.tones import Light

Number = TypeVar("Number", np.uint8, np.uint16, np.float32)


def over_weights(under: Facing, over: Facing) -> npt.NDArray[np.uint32]:
    """How much of the over pair's strip each pixel of a corner square takes.

    With p the distance past the under side's front edge and q past the over side's, both in bar depths: none
    where p >= q, else 1 - p / q.

    Parameters
    ----------
    under, over : Facing
        The two neighbours.

    Returns
    -------
    (over reach, under reach) uint32
        0 to `ONE`; row 0 at the over side's front edge, column 0 at the under side's.

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> from pycore.fill.facing import facing
    >>> from pycore.layout.grid import pixel_grid
    >>> canvas, grid = np.zeros((427, 527, 3), np.uint8), pixel_grid(Job(), ppi=25.4)
    >>> weights = over_weights(facing(canvas, grid, Side.RIGHT), facing(canvas, grid, Side.TOP))
    >>> int(weights[0, 0]), int(weights[3, 3]), int(weights[4, 0])
    (0, 0, 58254)
    """
    p = ((np.arange(under.reach) + 0.5) / under.depth)[np.newaxis, :]
    q = ((np.arange(over.reach) + 0.5) / over.depth)[:, np.newaxis]
    weights: npt.NDArray[np.uint32] = np.floor(np.maximum(1.0 - p / q, 0.0) * ONE).astype(np.uint32)
    return weights


def square_of(band: npt.NDArray[Number], side: Facing, neighbour: Side) -> npt.NDArray[Number]:
    """The corner square at one end of a side's band, turned so that column 0 lies at the neighbour's edge.

    Parameters
    ----------
    band : (reach, along, ...) array
        A side as in `Facing.inked`.
    side : Facing
    neighbour : Side
        The side at that end.

    Returns
    -------
    (reach, neighbour's reach, ...) array
        A view; row 0 at the side's own front edge.

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> from pycore.fill.facing import facing
    >>> from pycore.layout.grid import pixel_grid
    >>> side = facing(np.zeros((427, 527, 3), np.uint8), pixel_grid(Job(), ppi=25.4), Side.TOP)
    >>> square_of(side.inked, side, Side.LEFT).shape
    (26, 26, 3)
    """
    start, first, second, _ = side.along
    if neighbour in (Side.TOP, Side.LEFT):
        return band[:, : first - start][:, ::-1]
    return band[:, second - start :]


def blend_square(under: Light, over: Light, weights: npt.NDArray[np.uint32]) -> Light:
    """One channel of a corner square from both neighbours' strips.

    Parameters
    ----------
    under : (under reach, over reach) uint16 or float32
        The under side's strip over the square, as from `square_of`.
    over : (over reach, under reach) uint16 or float32
        The over side's.
    weights : (over reach, under reach) uint32
        As from `over_weights`.

    Returns
    -------
    (over reach, under reach) uint16 or float32

    Examples
    --------
    >>> one = np.array([[10]], np.uint16)
    >>> blend_square(one, one * 3, np.array([[ONE // 2]], np.uint32)).tolist()
    [[20]]
    """
    return mix(under.T, over, weights)
