"""Columns along an edge taken four at a time: sums over them, and straight lines between their middles."""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.fill.continued_ground import I32, I64

#: Columns to one step of what is chosen along an edge.
BLOCK: Final = 4


def in_blocks(values: I64) -> I64:
    """Sums over the columns of each step; the last column stands for those that a last step lacks.

    Parameters
    ----------
    values : (n, columns) int64

    Returns
    -------
    (n, steps) int64

    Examples
    --------
    >>> in_blocks(np.array([[1, 2, 3, 4, 5]])).tolist()
    [[10, 20]]
    """
    count, columns = values.shape
    blocks = -(-columns // BLOCK)
    padded = np.pad(values, ((0, 0), (0, blocks * BLOCK - columns)), mode="edge")
    total: I64 = padded.reshape(count, blocks, BLOCK).sum(axis=2)
    return total


def between_blocks(nodes: I64, columns: int) -> I32:
    """Go straight from the middle of one step to the middle of the next.

    Parameters
    ----------
    nodes : (steps,) int64
        At least one.
    columns : int
        How many there are.

    Returns
    -------
    (columns,) int32
        Rounded to the nearest.

    Examples
    --------
    >>> between_blocks(np.array([0, 80]), 8).tolist()
    [0, 0, 10, 30, 50, 70, 80, 80]
    """
    at = np.clip(2 * np.arange(columns) + 1 - BLOCK, 0, 2 * BLOCK * (len(nodes) - 1))
    before = np.minimum(at // (2 * BLOCK), max(len(nodes) - 2, 0))
    after = np.minimum(before + 1, len(nodes) - 1)
    share = at - before * 2 * BLOCK
    mixed = nodes[before] * (2 * BLOCK - share) + nodes[after] * share
    between: I32 = ((mixed + BLOCK) // (2 * BLOCK)).astype(np.int32)
    return between
