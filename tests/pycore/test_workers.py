"""Pieces of work on several threads, their results in order."""

from __future__ import annotations

import threading
import time

import numpy as np
import pytest

from pycore.workers import in_blocks, in_order


def _late_first(piece: int) -> int:
    time.sleep(0.02 if piece == 0 else 0.0)
    return piece * piece


@pytest.mark.parametrize("workers", [1, 2, 5])
def test_results_come_in_the_order_of_the_pieces(workers: int) -> None:
    assert list(in_order(_late_first, range(40), workers=workers)) == [piece * piece for piece in range(40)]


def test_only_a_few_pieces_are_begun_ahead() -> None:
    begun: list[int] = []
    results = in_order(lambda piece: begun.append(piece), range(1000), workers=2)
    next(results)
    results.close()  # type: ignore[attr-defined]  # A generator.
    # derived: two for each worker beside the one that is asked for.
    assert len(begun) <= 5


def test_what_goes_wrong_is_raised_and_nothing_is_under_way_then() -> None:
    ended: list[int] = []

    def fails(piece: int) -> int:
        if piece == 3:
            raise ValueError("three")
        time.sleep(0.01)
        ended.append(piece)
        return piece

    with pytest.raises(ValueError, match="three"):
        list(in_order(fails, range(100), workers=2))
    before = len(ended)
    time.sleep(0.05)
    assert len(ended) == before < 100


def test_work_in_a_thread_does_its_own_pieces_there() -> None:
    def outer(_piece: int) -> set[str]:
        return set(in_order(lambda _: threading.current_thread().name, range(20), workers=2))

    # derived: a pool of two whose two workers both waited for pieces of their own would never end.
    assert all(len(names) == 1 for names in in_order(outer, range(8), workers=2))


def test_every_block_once() -> None:
    done = np.zeros(100, dtype=np.int64)

    def work(top: int, bottom: int) -> None:
        done[top:bottom] += 1

    in_blocks(work, [(top, top + 5) for top in range(0, 100, 5)])
    assert done.tolist() == [1] * 100


def test_an_error_of_a_block_comes_out() -> None:
    def work(top: int, _bottom: int) -> None:
        if top == 6:
            raise MemoryError("short")

    with pytest.raises(MemoryError, match="short"):
        in_blocks(work, [(top, top + 1) for top in range(9)])
