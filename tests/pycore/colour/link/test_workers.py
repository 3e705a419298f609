"""Blocks are all worked on, whichever thread takes them."""

import numpy as np
import pytest

from pycore.colour.link.workers import in_turn


def test_every_block_once() -> None:
    done = np.zeros(100, dtype=np.int64)

    def work(top: int, bottom: int) -> None:
        done[top:bottom] += 1

    in_turn(work, [(top, top + 5) for top in range(0, 100, 5)])
    assert done.tolist() == [1] * 100


def test_an_error_comes_out() -> None:
    def work(top: int, _bottom: int) -> None:
        if top == 6:
            raise MemoryError("short")

    with pytest.raises(MemoryError, match="short"):
        in_turn(work, [(top, top + 1) for top in range(9)])
