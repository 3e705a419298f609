"""Workers on this machine: one process each, so that a piece that ends its process ends nothing else."""

from __future__ import annotations

import contextlib
import signal
import time
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from pycore.batch.crew import News
from pycore.batch.making import Order, make_piece
from pycore.speech import say
from pycore.workers import limit_workers, worker_count

if TYPE_CHECKING:
    # A browser has no processes, and lacks what this needs when it is imported.
    from multiprocessing.connection import Connection
    from multiprocessing.process import BaseProcess

#: How long the batch waits for news, and how far apart a worker tells how far it is.
_WAIT_S: Final = 0.5
_APART_S: Final = 0.25
#: A worker without work ends within this time.
_END_S: Final = 5.0


@dataclass(eq=False)
class _Worker:
    process: BaseProcess
    pipe: Connection
    order: Order | None = None


class LocalCrew:
    """Processes that make one piece at a time each.

    Parameters
    ----------
    workers : int
        At most so many at once.
    budget_bytes : int
        Memory that all of them may take together.
    """

    def __init__(self, *, workers: int, budget_bytes: int) -> None:
        import multiprocessing

        self._most, self._budget = workers, budget_bytes
        self._workers: list[_Worker] = []
        # A fresh interpreter: a copy of one that has threads may wait for ever for a lock of theirs.
        self._context = multiprocessing.get_context("spawn")

    def takes(self, order: Order) -> bool:
        """Whether a worker is free and the piece fits beside those at work; alone it is always taken.

        Parameters
        ----------
        order : Order

        Returns
        -------
        bool
        """
        at_work = [one.order for one in self._workers if one.order is not None]
        if not at_work:
            return True
        used = sum(one.need_bytes for one in at_work)
        return len(at_work) < self._most and used + order.need_bytes <= self._budget

    def give(self, order: Order) -> None:
        """Hand an order to a free worker; one is started where none is.

        Parameters
        ----------
        order : Order
        """
        worker = next((one for one in self._workers if one.order is None), None) or self._started()
        worker.order = order
        # A worker that has just ended is found out by its closed pipe.
        with contextlib.suppress(OSError):
            worker.pipe.send(order)

    def news(self) -> list[News]:
        """Wait a short while for news.

        Returns
        -------
        list of News
        """
        from multiprocessing.connection import wait

        at_work = {one.pipe: one for one in self._workers if one.order is not None}
        found = []
        for ready in wait(list(at_work), timeout=_WAIT_S):
            worker = at_work[ready]  # type: ignore[index]  # (`wait` gives back what it was given)
            assert worker.order is not None
            try:
                one: News = worker.pipe.recv()
            except (EOFError, OSError):
                found.append(News(name=worker.order.name, lost=self._ended(worker)))
                continue
            if one.outcome is not None:
                worker.order = None
            found.append(one)
        return found

    def close(self) -> None:
        """Let all workers go, and stop those at work."""
        for one in self._workers:
            if one.order is None:
                with contextlib.suppress(OSError):
                    one.pipe.send(None)
            else:
                one.process.terminate()
        for one in self._workers:
            one.process.join(_END_S)
            if one.process.is_alive():
                one.process.kill()
                one.process.join()
            one.pipe.close()
        self._workers = []

    def _started(self) -> _Worker:
        ours, theirs = self._context.Pipe()
        threads = max(1, worker_count() // self._most)
        process = self._context.Process(target=_serve, args=(theirs, threads), daemon=True)
        process.start()
        theirs.close()
        worker = _Worker(process=process, pipe=ours)
        self._workers.append(worker)
        return worker

    def _ended(self, worker: _Worker) -> str:
        """Take a worker that is gone off the list; how it ended."""
        self._workers.remove(worker)
        worker.pipe.close()
        worker.process.join(_END_S)
        code = worker.process.exitcode
        if code is not None and code < 0:
            with contextlib.suppress(ValueError):
                return say("it was ended by {signals}", signals=signal.Signals(-code).name)
        return say("it ended with status {code}", code=code)


def _serve(pipe: Connection, threads: int) -> None:
    """Make pieces until there are no more orders, or nobody is there who gives them."""
    # Ctrl-C goes to all processes of a terminal: the batch ends its workers itself.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    limit_workers(threads)
    with contextlib.suppress(EOFError, OSError):
        while (order := pipe.recv()) is not None:
            steps, told = make_piece(order), 0.0
            while True:
                try:
                    step = next(steps)
                except StopIteration as end:
                    pipe.send(News(name=order.name, share=1.0, outcome=end.value))
                    break
                if time.monotonic() - told >= _APART_S:
                    told = time.monotonic()
                    pipe.send(News(name=order.name, share=step.done))
