"""The same work on many pieces, on all cores where there are threads; results come in the pieces' order.

Pillow and numpy let other threads run while they work, so that threads of one process are enough. Pyodide
has none: there the pieces are done one after another. Work that is done in a thread may use this module
itself; its own pieces are then done one after another, since the other cores are busy already.
"""

from __future__ import annotations

import os
import sys
import threading
from collections import deque
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import cache
from typing import TYPE_CHECKING, Final, TypeVar

if TYPE_CHECKING:
    from concurrent.futures import Future, ThreadPoolExecutor

Piece = TypeVar("Piece")
Made = TypeVar("Made")

#: There are no threads there, and numpy takes values one by one.
IN_WEBASSEMBLY: Final = sys.platform == "emscripten"

#: Pieces that are done or under way before the first of them is asked for, for each worker.
_AHEAD: Final = 2

#: Threads pay off from this many blocks on.
_FEW: Final = 4

#: Cores that this process uses at most.
_most: Final = [sys.maxsize]

#: Whether this thread is a worker.
_here = threading.local()


def worker_count() -> int:
    """How many pieces are worked on at once: the cores that this process may use.

    Returns
    -------
    int

    Examples
    --------
    >>> worker_count() >= 1
    True
    """
    if IN_WEBASSEMBLY:
        return 1
    # Of a machine shared by containers not all cores are this process's.
    own = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count()
    return max(1, min(own or 1, _most[0]))


def limit_workers(most: int) -> None:
    """Use fewer cores in this process from here on, as it shares them with others that do the same.

    Parameters
    ----------
    most : int
        At least 1.
    """
    _most[0] = max(1, most)


def in_order(
    work: Callable[[Piece], Made], pieces: Iterable[Piece], *, workers: int | None = None
) -> Iterator[Made]:
    """Do some work on each piece.

    Parameters
    ----------
    work : callable
        Depends on its piece alone, and lets go of Python's lock for most of its time.
    pieces : iterable
    workers : int or None
        None: one for each core.

    Yields
    ------
    Made
        What `work` returns, in the order of the pieces. Only a few results are kept at a time.

    Raises
    ------
    Exception
        What `work` raises, at the piece's turn; nothing more is begun then.

    Examples
    --------
    >>> list(in_order(str, range(4), workers=2))
    ['0', '1', '2', '3']
    """
    count = worker_count() if workers is None else workers
    if count < 2 or IN_WEBASSEMBLY or getattr(_here, "works", False):
        yield from map(work, pieces)
        return
    pool = _pool(count)
    waiting: deque[Future[Made]] = deque()
    try:
        for piece in pieces:
            waiting.append(pool.submit(work, piece))
            if len(waiting) > _AHEAD * count:
                yield waiting.popleft().result()
        while waiting:
            yield waiting.popleft().result()
    finally:
        # What is under way still writes into its arrays: it ends first.
        for future in waiting:
            if not future.cancel():
                future.exception()


def in_blocks(work: Callable[[int, int], None], blocks: Sequence[tuple[int, int]]) -> None:
    """Do the same work on every block of rows.

    Parameters
    ----------
    work : callable
        Takes the first row and the one behind the last. It writes only there, so blocks may run side by side.
    blocks : sequence of (int, int)

    Examples
    --------
    >>> seen = []
    >>> in_blocks(lambda top, bottom: seen.append((top, bottom)), [(0, 2), (2, 3)])
    >>> seen
    [(0, 2), (2, 3)]
    """
    for _ in in_order(lambda rows: work(*rows), blocks, workers=1 if len(blocks) < _FEW else None):
        pass


@cache
def _pool(count: int) -> ThreadPoolExecutor:
    # Not needed before there is much to do, and slow to import.
    from concurrent.futures import ThreadPoolExecutor

    return ThreadPoolExecutor(count, thread_name_prefix="pixels", initializer=_works)


def _works() -> None:
    _here.works = True
