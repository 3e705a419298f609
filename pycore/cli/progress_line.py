"""A line on standard error that says how far long work is; only on a terminal, and only after two seconds."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Generator
from typing import Final, TextIO, TypeVar

from pycore.progress import Progress

Made = TypeVar("Made")

#: Shorter work says nothing.
QUIET_S: Final = 2.0

#: The line is written again no sooner than this.
_APART_S: Final = 0.2


def run_shown(
    steps: Generator[Progress, None, Made],
    *,
    stream: TextIO | None = None,
    clock: Callable[[], float] = time.monotonic,
) -> Made:
    """Run some work to its end and show how far it is where it takes long.

    Parameters
    ----------
    steps : generator of Progress
        The work.
    stream : text stream, optional
        Where the line goes, standard error by default; nothing is written where it is no terminal.
    clock : callable
        Seconds that rise.

    Returns
    -------
    What the work returns.

    Examples
    --------
    >>> def work():
    ...     yield Progress(done=0.5, label="Folding")
    ...     return "done"
    >>> run_shown(work())
    'done'
    """
    out = sys.stderr if stream is None else stream
    speaks = out.isatty()
    begun, last, width = clock(), float("-inf"), 0
    try:
        while True:
            try:
                step = next(steps)
            except StopIteration as end:
                made: Made = end.value
                return made
            now = clock()
            if speaks and now - begun >= QUIET_S and now - last >= _APART_S:
                line = f"{step.label}: {step.done:.0%}"
                out.write(f"\r{line.ljust(width)}")
                out.flush()
                last, width = now, max(width, len(line))
    finally:
        if width:
            out.write(f"\r{' ' * width}\r")
            out.flush()
