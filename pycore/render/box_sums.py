"""Sums over every box of a size at once: where in a picture something is most."""

from __future__ import annotations

from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

Number = TypeVar("Number", np.int64, np.float64)


def box_sums(values: NDArray[Number], high: int, wide: int) -> NDArray[Number]:
    """Sum the values in each box of so many rows and columns that lies inside.

    Parameters
    ----------
    values : (rows, columns) int64 or float64
    high, wide : int
        Of the box, at least 1; it is no larger than the values.

    Returns
    -------
    (rows - high + 1, columns - wide + 1) int64 or float64
        By the box's first row and column.

    Examples
    --------
    >>> box_sums(np.arange(6).reshape(2, 3), 2, 2).tolist()
    [[8, 12]]
    """
    high, wide = min(high, len(values)), min(wide, values.shape[1])
    total = np.pad(values.cumsum(axis=0).cumsum(axis=1), ((1, 0), (1, 0)))
    sums: NDArray[Number] = (
        total[high:, wide:] - total[:-high, wide:] - total[high:, :-wide] + total[:-high, :-wide]
    )
    return sums
