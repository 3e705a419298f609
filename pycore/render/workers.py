"""The same work on many pieces, on all cores where there are threads; results come in the pieces' order.

Pillow and numpy let other threads run while they work, so that threads of one process are enough. Pyodide
has none: there the pieces are done one after another.
"""

from __future__ import annotations

import os
import sys
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from typing import TYPE_CHECKING, Final, TypeVar

if TYPE_CHECKING:
    from concurrent.futures import Future

Piece = TypeVar("Piece")
Made = TypeVar("Made")

_HAS_THREADS: Final = sys.platform != "emscripten"

#: Pieces that are done or under way before the first of them is asked for, for each worker.
_AHEAD: Final = 2


def worker_count() -> int:
    """How many pieces are worked on at once: the cores that this process may use.

    Examples
    --------
    >>> worker_count() >= 1
    True
    """
    if not _HAS_THREADS:
        return 1
    # Of a machine shared by containers not all cores are this process's.
    own = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count()
    return max(1, own or 1)


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
    What `work` returns, in the order of the pieces. Only a few results are held at a time.

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
    if count < 2 or not _HAS_THREADS:
        yield from map(work, pieces)
        return
    # Not needed before there is much to do, and slow to import.
    from concurrent.futures import ThreadPoolExecutor

    with ThreadPoolExecutor(count) as pool:
        waiting: deque[Future[Made]] = deque()
        try:
            for piece in pieces:
                waiting.append(pool.submit(work, piece))
                if len(waiting) > _AHEAD * count:
                    yield waiting.popleft().result()
            while waiting:
                yield waiting.popleft().result()
        finally:
            for future in waiting:
                future.cancel()
