"""The cut is the cheapest path that goes from row to row."""

from __future__ import annotations

import numpy as np
import pytest

from pycore.fill.grown_cut import least_cut


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_no_path_is_cheaper(seed: int) -> None:
    """Derived: every path of a 5 x 4 overlap is tried."""
    costs = np.random.default_rng(seed).integers(0, 100, (5, 4))

    def cheapest(row: int, column: int) -> int:
        here = int(costs[row, column])
        if row == 4:
            return here
        return here + min(
            cheapest(row + 1, other) for other in (column - 1, column, column + 1) if 0 <= other < 4
        )

    path = least_cut(costs.astype(np.int64))
    assert (np.abs(np.diff(path)) <= 1).all()
    assert int(costs[np.arange(5), path].sum()) == min(cheapest(0, column) for column in range(4))


def test_one_row_or_one_column() -> None:
    assert least_cut(np.array([[3, 1, 2]], np.int64)).tolist() == [1]
    assert least_cut(np.array([[3], [1]], np.int64)).tolist() == [0, 0]
