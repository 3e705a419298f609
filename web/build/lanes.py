"""Lanes of programs that run at the same time, and what came of each."""

from __future__ import annotations

import os
import re
import subprocess
import threading
import time
from collections.abc import Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from typing import Final

#: A line of pytest's dots ends with the share that is done.
_SHARE: Final = re.compile(r"\[ *(\d+)%\]$")

#: Lines of two programs never mix.
_SAYING: Final = threading.Lock()


@dataclass(frozen=True)
class Program:
    """What runs."""

    name: str
    command: Sequence[str | Path]
    cwd: Path


@dataclass(frozen=True)
class Outcome:
    """What came of it."""

    name: str
    status: int
    wall_s: float


def run_lanes(
    *lanes: Sequence[Program], env: Mapping[str, str] | None = None, share_every_s: float = 30.0
) -> list[Outcome]:
    """Run the lanes at the same time, the programs of a lane one after another.

    What a program prints is kept, and shown as one block when it ends. Of pytest, a line says meanwhile what
    share of its tests is done.

    Parameters
    ----------
    *lanes : sequence of Program
        At least one.
    env : mapping, optional
        Variables beside those of this process.
    share_every_s : float
        Seconds between two such lines.

    Returns
    -------
    list of Outcome
        Lane by lane. A program that fails ends nothing but itself.

    Raises
    ------
    OSError
        A program could not be started.
    """
    environ = {**os.environ, **(env or {})}

    def run_lane(lane: Sequence[Program]) -> list[Outcome]:
        return [_run(program, environ, share_every_s) for program in lane]

    with ThreadPoolExecutor(len(lanes)) as pool:
        return [outcome for found in pool.map(run_lane, lanes) for outcome in found]


def summary(outcomes: Sequence[Outcome]) -> str:
    """One line for each program, and one for all.

    Examples
    --------
    >>> print(summary([Outcome("lint", 0, 1.26), Outcome("types", 1, 20.0)]))
        1.3 s  lint: passed
       20.0 s  types: FAILED (exit status 1)
    1 passed, 1 failed
    """
    lines = []
    for one in outcomes:
        verdict = "passed" if one.status == 0 else f"FAILED (exit status {one.status})"
        lines.append(f"{one.wall_s:7.1f} s  {one.name}: {verdict}")
    failed = sum(one.status != 0 for one in outcomes)
    return "\n".join([*lines, f"{len(outcomes) - failed} passed, {failed} failed"])


def _run(program: Program, environ: Mapping[str, str], share_every_s: float) -> Outcome:
    started = shown = time.monotonic()
    printed: list[str] = []
    with subprocess.Popen(
        [str(part) for part in program.command],
        cwd=program.cwd,
        env=environ,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        encoding="utf-8",
        errors="replace",
    ) as process:
        for line in process.stdout or ():
            printed.append(line)
            share = _SHARE.search(line.rstrip())
            if share and time.monotonic() - shown >= share_every_s:
                shown = time.monotonic()
                _say(f"    {program.name}: {share[1]} % after {shown - started:.0f} s")
        process.wait()
    _say(f"\n=== {program.name}\n{''.join(printed).rstrip()}")
    return Outcome(program.name, process.returncode, time.monotonic() - started)


def _say(text: str) -> None:
    with _SAYING:
        print(text, flush=True)
