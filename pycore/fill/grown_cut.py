"""The cut between two overlapping pieces: the path from the arris outwards on which they differ least."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

I32 = npt.NDArray[np.int32]
I64 = npt.NDArray[np.int64]

#: More than any sum of differences, and still far from the end of 64 bits.
_NEVER = np.int64(2**62)


def least_cut(differences: I64) -> I32:
    """Find the path of least sum through an overlap, one step aside at most from row to row.

    Parameters
    ----------
    differences : (rows, columns) int64
        How much the pieces differ at each pixel, 0 or more.

    Returns
    -------
    (rows,) int32
        The path's column in each row. Among equal paths the one furthest to the left, read from the last
        row.

    References
    ----------
    Efros and Freeman 2001, section 2.1 (minimum error boundary cut); from memory.

    Examples
    --------
    >>> least_cut(np.array([[9, 0, 9], [9, 9, 0], [9, 0, 9]], np.int64)).tolist()
    [1, 2, 1]
    """
    rows, columns = differences.shape
    best = np.full((rows, columns + 2), _NEVER, np.int64)
    best[0, 1:-1] = differences[0]
    for row in range(1, rows):
        before = best[row - 1]
        near = np.minimum(np.minimum(before[:-2], before[1:-1]), before[2:])
        best[row, 1:-1] = differences[row] + near
    path = np.empty(rows, np.int32)
    path[-1] = int(np.argmin(best[-1, 1:-1]))
    for row in range(rows - 2, -1, -1):
        # Columns are one further right in `best`: its three begin one left of the path's.
        at = int(path[row + 1])
        path[row] = at - 1 + int(np.argmin(best[row, at : at + 3]))
    return path
