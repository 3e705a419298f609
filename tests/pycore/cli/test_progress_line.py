"""Long work says how far it is, on a terminal alone."""

from __future__ import annotations

import io
from collections.abc import Generator, Iterator

import pytest

from pycore.cli.progress_line import run_shown
from pycore.progress import Progress


class Terminal(io.StringIO):
    """A stream that says it is a terminal."""

    def isatty(self) -> bool:
        return True


def work(steps: int) -> Generator[Progress, None, str]:
    for number in range(steps):
        yield Progress(done=number / steps, label="Comparing the intents" if number < 3 else "Folding")
    return "made"


def ticking(seconds: float) -> Iterator[float]:
    moment = 0.0
    while True:
        yield moment
        moment += seconds


def test_short_work_says_nothing() -> None:
    out = Terminal()
    # Derived: the last of four steps is asked for at 4 x 0.4 = 1.6 s, before two seconds are over.
    clock = ticking(0.4)
    assert run_shown(work(4), stream=out, clock=lambda: next(clock)) == "made"
    assert out.getvalue() == ""


def test_long_work_writes_one_line_over_and_wipes_it() -> None:
    out = Terminal()
    clock = ticking(1.0)
    assert run_shown(work(4), stream=out, clock=lambda: next(clock)) == "made"
    # Derived: the steps come at 1, 2, 3 and 4 s; the second, at 2 s, is the first that is said.
    first, second, third = (f"Comparing the intents: {share}" for share in ("25%", "50%", "75%"))
    third = "Folding: 75%".ljust(len(first))
    assert out.getvalue() == f"\r{first}\r{second}\r{third}\r{' ' * len(first)}\r"


def test_where_there_is_no_terminal_nothing_is_written() -> None:
    out = io.StringIO()
    clock = ticking(5.0)
    assert run_shown(work(4), stream=out, clock=lambda: next(clock)) == "made"
    assert out.getvalue() == ""


def test_a_failure_wipes_the_line_too() -> None:
    def failing() -> Generator[Progress, None, str]:
        yield Progress(done=0.5, label="Folding")
        raise ValueError("no")

    out = Terminal()
    clock = ticking(3.0)
    with pytest.raises(ValueError, match="no"):
        run_shown(failing(), stream=out, clock=lambda: next(clock))
    assert out.getvalue().endswith(f"\r{' ' * len('Folding: 50%')}\r")
