"""Moving the crop so that an edge cuts no distinct thing: how far, and whether both edges are then free."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.conventions import Side
from pycore.edges.things import CutThing, cut_things
from pycore.fill.facing import U8

#: Pixels by which an edge clears a thing that it leaves off the face.
_CLEAR: Final = 2

#: The same where it keeps all of it, as a share of the bar depth: close by the edge, it would be seen twice.
_KEPT_CLEAR: Final = 3

#: How far an edge may be moved, in bar depths.
FARTHEST: Final = 2.5


@dataclass(frozen=True, kw_only=True, eq=False)
class Surroundings:
    """The picture on the face and round about it, small.

    Attributes
    ----------
    pixels : (rows, columns, 3) uint8
    top, right, bottom, left : int
        Pixels that lie beyond the face on each side; 0 where the picture ends there.
    depth_px : int
        The bar depth in these pixels.
    """

    pixels: U8
    top: int
    right: int
    bottom: int
    left: int
    depth_px: int


def crop_move(around: Surroundings, side: Side, things: tuple[CutThing, ...]) -> int:
    """Find the least move of the crop that frees an edge, and cuts nothing at the opposite one.

    Parameters
    ----------
    around : Surroundings
    side : Side
        Whose edge cuts the things.
    things : tuple of CutThing
        From `cut_things` at that edge.

    Returns
    -------
    int
        Pixels to the right, or down; 0 where no move serves.

    Examples
    --------
    >>> rows, columns = np.mgrid[0:160, 0:240]
    >>> bowl = ((rows - 80) ** 2 + (columns - 50) ** 2 < 30 * 30)[..., np.newaxis] * np.uint8(200)
    >>> around = Surroundings(
    ...     pixels=np.repeat(bowl, 3, axis=2), top=0, right=40, bottom=0, left=40, depth_px=40
    ... )
    >>> things = cut_things(around.pixels[:, 40:200].transpose(1, 0, 2), depth_px=40)
    >>> crop_move(around, Side.LEFT, things)
    -33
    """
    if not things:
        return 0
    wide = around.pixels.transpose(1, 0, 2) if side in (Side.LEFT, Side.RIGHT) else around.pixels
    before, after = (
        (around.left, around.right) if side in (Side.LEFT, Side.RIGHT) else (around.top, around.bottom)
    )
    first = side in (Side.LEFT, Side.TOP)
    found = cut_things(
        _inwards(wide, before, after, first=first),
        depth_px=around.depth_px,
        beyond=_outwards(wide, before, after, first=first),
    )
    moves = set()
    for thing in found:
        # At the left edge and the top one, inwards is to the right and down.
        if thing.inwards is not None:
            moves.add((thing.inwards + _CLEAR) * (1 if first else -1))
        if thing.outwards is not None:
            moves.add((thing.outwards + around.depth_px // _KEPT_CLEAR) * (-1 if first else 1))
    for move in sorted(moves, key=lambda one: (abs(one), one)):
        if -before <= move <= after and _is_free(wide, before + move, after - move, around.depth_px):
            return move
    return 0


def _is_free(wide: U8, before: int, after: int, depth_px: int) -> bool:
    """Whether neither of two opposite edges cuts anything."""
    return not any(
        cut_things(_inwards(wide, before, after, first=first), depth_px=depth_px) for first in (True, False)
    )


def _inwards(wide: U8, before: int, after: int, *, first: bool) -> U8:
    face = wide[before : len(wide) - after]
    return face if first else face[::-1]


def _outwards(wide: U8, before: int, after: int, *, first: bool) -> U8 | None:
    beyond = wide[:before][::-1] if first else wide[len(wide) - after :]
    # A thing that is seen whole ends on a row that is there.
    return np.ascontiguousarray(beyond) if len(beyond) > _CLEAR else None
