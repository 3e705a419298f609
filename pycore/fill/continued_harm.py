"""How a plan bends lines where they cross the edge, weighed with the change of colour that is there."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.fill.continued_ground import I32, I64, smooth, whole_root

#: Rows at the edge in which bends are looked for, as a share of the depth, and at least.
_BESIDE: Final = 4
_LEAST_ROWS: Final = 4

#: The sine of a bend, in 1 / 1024, from which it is seen, and what more it takes to count in full.
_BEND_FROM: Final = 154
_BEND_MORE: Final = 614


@dataclass(frozen=True, kw_only=True, eq=False)
class Change:
    """Change of colour a pixel inwards and along the edge, in 1 / 32 of ΔE.

    Attributes
    ----------
    down, across : (3, rows, columns) int64
        Row 0 at the edge. Channels come first: sums over three neighbours in memory would take longest.
    """

    down: I64
    across: I64


def change_of(steps: I32, depth: int) -> Change:
    """Find what a side as deep as that may show.

    Parameters
    ----------
    steps : (rows, columns, 3) int32
        From `colour_steps`, row 0 at the edge; at least 4 rows.
    depth : int
        The side's depth in rows.

    Returns
    -------
    Change
        The edge row has the change of the row after it.
    """
    soft = np.ascontiguousarray(smooth(steps[: depth + 2], 1).transpose(2, 0, 1)).astype(np.int64)
    down, across = np.zeros_like(soft), np.zeros_like(soft)
    np.subtract(soft[:, 2:], soft[:, :-2], out=down[:, 1:-1])
    down[:, 0] = down[:, 1]
    np.subtract(soft[:, :, 2:], soft[:, :, :-2], out=across[:, :, 1:-1])
    return Change(down=down, across=across)


def bent_at_edge(change: Change, slope: I32, pace: I32, *, depth: int) -> I64:
    """How much change there is across lines that are bent where they cross the edge.

    A line that goes on straight has the same change along the edge and the opposite one away from it.

    Parameters
    ----------
    change : Change
    slope, pace : (columns,) int32
        As `ContinuedPlan` has them.
    depth : int
        The side's depth in rows.

    Returns
    -------
    (columns,) int64
        In 1 / 32 of ΔE a pixel.

    Examples
    --------
    >>> from pycore.fill.continued_ground import STEPS
    >>> rows, columns = np.mgrid[0:44, 0:90]
    >>> slanted = np.repeat((rows > columns - 40)[..., np.newaxis] * np.int32(60 * STEPS), 3, axis=2)
    >>> change, whole = change_of(slanted, 40), np.full(90, 256, np.int32)
    >>> upright, along = np.zeros(90, np.int32), np.full(90, -256, np.int32)
    >>> lines = (upright, along)
    >>> mirrored, continued = (int(bent_at_edge(change, one, whole, depth=40).sum()) for one in lines)
    >>> mirrored > 10 * continued
    True
    """
    beside = max(_LEAST_ROWS, depth // _BESIDE)
    down, across = change.down[:, :beside], change.across[:, :beside]
    # One row out the source goes `pace` further in and lies (1 + pace) slopes back along the edge.
    pace_, slope_ = pace.astype(np.int64), slope.astype(np.int64)
    past, along = down * pace_ - across * ((256 + pace_) * slope_ >> 8), across * 256
    size = length_of(down, across)
    seen = seen_bend((past, along), (-down, across))
    bent: I64 = (size * seen).sum(axis=0) // (256 * len(size))
    return bent


def seen_bend(shown: tuple[I64, I64], straight: tuple[I64, I64]) -> I64:
    """How plainly change in one direction is seen to differ from change in another.

    Parameters
    ----------
    shown, straight : two (3, rows, columns) int64 each
        Change outwards and along the edge: as it is shown, and as it is where a line goes on straight.

    Returns
    -------
    (rows, columns) int64
        0 to 256.

    Examples
    --------
    >>> down = across = np.full((3, 1, 1), 100)
    >>> [int(seen_bend((one, across), (-down, across))[0, 0]) for one in (down, -down)]
    [256, 0]
    """
    alike = np.abs((shown[0] * straight[0] + shown[1] * straight[1]).sum(axis=0))
    size = length_of(*shown) * length_of(*straight)
    cosine = np.minimum(alike * 4096 // np.maximum(size, 1), 4096)
    sine = whole_root(4096 * 4096 - cosine * cosine) // 4
    seen: I64 = np.clip((sine - _BEND_FROM) * 256 // _BEND_MORE, 0, 256)
    return seen


def length_of(one: I64, other: I64) -> I64:
    """The length of a change in two directions, over all channels.

    Parameters
    ----------
    one, other : (3, rows, columns) int64

    Returns
    -------
    (rows, columns) int64

    Examples
    --------
    >>> int(length_of(np.array([[[3]], [[0]]]), np.array([[[0]], [[4]]]))[0, 0])
    5
    """
    return whole_root((one * one + other * other).sum(axis=0))
