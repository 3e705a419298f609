"""Pieces of work on several threads, their results in order."""

from __future__ import annotations

import threading
import time

import pytest

from pycore.render.workers import in_order


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
    results.close()  # type: ignore[attr-defined]
    # derived: two for each worker beside the one that is asked for.
    assert len(begun) <= 5


def test_what_goes_wrong_is_raised_and_no_thread_is_left() -> None:
    def fails(piece: int) -> int:
        if piece == 3:
            raise ValueError("three")
        return piece

    before = threading.active_count()
    found = []
    with pytest.raises(ValueError, match="three"):
        found.extend(in_order(fails, range(100), workers=2))
    assert threading.active_count() == before
