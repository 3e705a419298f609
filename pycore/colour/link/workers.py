"""Blocks of pixels worked on at the same time where the machine allows it; the order makes no difference."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from functools import cache
from typing import Final

#: Threads pay off above this many blocks.
_FEW: Final = 4


def in_turn(work: Callable[[int, int], None], blocks: Sequence[tuple[int, int]]) -> None:
    """Do the same work on every block of rows.

    Parameters
    ----------
    work : callable
        Takes the first row and the one behind the last. It writes only there, so blocks may run side by side;
        numpy lets other threads run while it works.
    blocks : sequence of (int, int)

    Examples
    --------
    >>> seen = []
    >>> in_turn(lambda top, bottom: seen.append((top, bottom)), [(0, 2), (2, 3)])
    >>> seen
    [(0, 2), (2, 3)]
    """
    # Python in a browser has one thread.
    if sys.platform == "emscripten" or len(blocks) < _FEW or (os.cpu_count() or 1) < 2:
        for top, bottom in blocks:
            work(top, bottom)
        return
    for done in [_pool().submit(work, top, bottom) for top, bottom in blocks]:
        done.result()


@cache
def _pool() -> ThreadPoolExecutor:
    return ThreadPoolExecutor(max_workers=os.cpu_count(), thread_name_prefix="pixels")
