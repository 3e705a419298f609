#!/usr/bin/env python3
"""Read mutants of every kind of file: each must end in a result or in one of the core's own errors, soon.

    python3 tests/fuzz.py [--mutants 10000] [--kind pictures] [--only 17] [--keep FOLDER]

Kinds are pictures, profiles, jobs, bundles, csv (tables of a batch), cgats (measured strips) and answers (of
clients). A mutant is made from its number alone, so a fault can be met again with `--only`. A fault is
another error, a warning, a line on the error stream, an error that does not say what was expected, what came
and what to do, or a file that takes more than 5 s of processor time or 300 MB. The status is 1 where one is
found.
"""

from __future__ import annotations

import argparse
import logging
import resource
import signal
import sys
import time
import traceback
import warnings
from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from types import FrameType
from typing import Final

ROOT: Final = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT))

from pycore.errors import TuckfoldError  # noqa: E402 (the script may be started without it on the path)
from tests.fuzzing.kinds import KINDS, made  # noqa: E402

#: Of the processor; all of them take milliseconds on a quiet machine.
MOST_S: Final = 5.0
#: By which the process's peak may grow while one file is read.
MOST_MB: Final = 300.0


class TooLong(BaseException):
    """A file takes longer than any may; no handler of the core catches it."""


class Log(logging.Handler):
    """Keeps what a library logs, which a command would print."""

    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.lines: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        self.lines.append(record.getMessage())


LOG: Final = Log()


@dataclass
class Tally:
    """What became of the mutants of one kind."""

    results: int = 0
    refusals: Counter[str] = field(default_factory=Counter)
    faults: list[tuple[int, str]] = field(default_factory=list)
    slowest_s: float = 0.0
    largest_mb: float = 0.0
    """Growth of the process's peak memory over one file."""


def fault_of(read: object, data: bytes, tally: Tally) -> str:
    """Read one mutant; what is wrong with how it ended, or nothing.

    Parameters
    ----------
    read : callable
        Of a kind.
    data : bytes
    tally : Tally
        Gets the outcome.

    Returns
    -------
    str
        Empty where all is well.
    """
    assert callable(read)
    peak, begun, said = _peak_mb(), time.process_time(), ""
    try:
        with _limited():
            read(data)
        tally.results += 1
    except TuckfoldError as wrong:
        tally.refusals[wrong.code] += 1
        if not all([wrong.field, wrong.expected, wrong.got, wrong.remedy]) and not (
            wrong.said and wrong.remedy
        ):
            said = f"an error that tells too little: {wrong!r}"
        if "\n" in str(wrong) or len(str(wrong)) > 1000:
            said = f"a message of several lines or of {len(str(wrong))} characters: {str(wrong)[:200]!r}"
    except (Exception, TooLong):
        said = traceback.format_exc()
    if not said and LOG.lines:
        said = f"a line on the error stream: {LOG.lines[0]}"
    LOG.lines.clear()
    took, grown = time.process_time() - begun, _peak_mb() - peak
    tally.slowest_s, tally.largest_mb = max(tally.slowest_s, took), max(tally.largest_mb, grown)
    if not said and (took > MOST_S or grown > MOST_MB):
        said = f"it took {took:.1f} s and {grown:.0f} MB"
    return said


def run(kind: str, numbers: Sequence[int]) -> Tally:
    """Read mutants of a kind.

    Parameters
    ----------
    kind : str
        A key of `KINDS`.
    numbers : sequence of int
        Which.

    Returns
    -------
    Tally
    """
    logging.getLogger().addHandler(LOG)
    tally, seeds = Tally(), KINDS[kind].seeds()
    for seed in seeds:
        # Everything is imported and every table is made before time and memory are watched.
        KINDS[kind].read(seed)
    for number in numbers:
        said = fault_of(KINDS[kind].read, made(kind, number, seeds), tally)
        if said:
            tally.faults.append((number, said))
    logging.getLogger().removeHandler(LOG)
    return tally


@contextmanager
def _limited() -> Iterator[None]:
    """Warnings are errors, and what does not end is ended."""

    def stop(number: int, frame: FrameType | None) -> None:
        raise TooLong(f"not ended after {MOST_S:g} s of the processor")

    before = signal.signal(signal.SIGPROF, stop)
    signal.setitimer(signal.ITIMER_PROF, MOST_S)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error")
            yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)


def _peak_mb() -> float:
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1000


def main() -> int:
    """Run and print; 1 where a fault is found."""
    parser = argparse.ArgumentParser(description="Read mutants of every kind of file.")
    parser.add_argument("--mutants", type=int, default=10_000, help="of each kind (default: %(default)s)")
    parser.add_argument(
        "--kind", choices=list(KINDS), action="append", help="this kind alone; may be repeated"
    )
    parser.add_argument("--only", type=int, help="the mutant of this number alone")
    parser.add_argument("--keep", type=Path, help="a folder that mutants with a fault are written to")
    given = parser.parse_args()
    numbers = range(given.mutants) if given.only is None else [given.only]
    faults = 0
    for kind in given.kind or KINDS:
        begun = time.process_time()
        tally = run(kind, numbers)
        refused = ", ".join(f"{count} {code}" for code, count in sorted(tally.refusals.items())) or "none"
        print(
            f"{kind:9} {len(numbers)} mutants: {tally.results} read, refused: {refused}; slowest "
            f"{tally.slowest_s:.2f} s, largest {tally.largest_mb:.0f} MB, together "
            f"{time.process_time() - begun:.0f} s; faults: {len(tally.faults)}",
            flush=True,
        )
        for number, said in tally.faults:
            print(f"--- {kind} {number}\n{said}")
            if given.keep is not None:
                given.keep.mkdir(parents=True, exist_ok=True)
                (given.keep / f"{kind}-{number}").write_bytes(made(kind, number, KINDS[kind].seeds()))
        faults += len(tally.faults)
    return int(faults > 0)


if __name__ == "__main__":
    sys.exit(main())
