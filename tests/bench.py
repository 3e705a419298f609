#!/usr/bin/env python3
"""Measure how quick Tuckfold is, as ratios to others that do the same work in the same run; one table.

    python3 tests/bench.py [--part start] [--runs 7] [--small]

| part | what | beside |
|---|---|---|
| start | first and second visit in Chromium to the first folded preview | a page with numpy and Pillow |
| change | each change, link, clip map, choices in the page's worker | the same code natively |
| native | fills, preview, link, colours, clip map | numpy, OpenCV, Pillow, LittleCMS (by Pillow) |
| print | the print file of 107 megapixels | libvips |

`start` runs measure_load.py and `change` runs measure_core.py (both in tests/browser/, on the built site);
`print` runs bench_print.py and needs the extra `bench`. A ratio above 1 says that Tuckfold is slower. Times
of a busy machine are worth nothing, ratios little; the load stands below the table. `--small` takes a
fiftieth of the pixels and one run, to see that all of it works.
"""

from __future__ import annotations

import argparse
import ast
import importlib.util
import os
import re
import subprocess
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final

ROOT: Final = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(ROOT)]

_VISIT: Final = re.compile(r"^(first|second) visit, medians in ms")
_LOADED: Final = re.compile(r"^  (\S+) +(\d+) +(\d+) +(\d+) +(\d+) +(\d+)$")
#: The pages of measure_load.py.
_BARE: Final = "bare/baseline.html"
_START_PARTS: Final = (
    ("first preview", "ms"),
    ("the core's canvas", "ms"),
    ("until then", "ms of processor"),
)
_PAGES: Final = {"site/index.html": "from the snapshot", "site/index.html?start=plain": "plainly"}


@dataclass(frozen=True)
class Row:
    """A line of the table."""

    what: str
    ours: float
    theirs: float
    unit: str
    beside: str

    def __str__(self) -> str:
        ratio = self.ours / self.theirs if self.theirs else float("nan")
        ours, theirs = f"{self.ours:.4g} {self.unit}", f"{self.theirs:.4g} {self.unit}"
        return f"| {self.what} | {ours} | {theirs} | {ratio:.2f} | {self.beside} |"


def start_rows(runs: int, share: float) -> Iterator[Row]:
    """Cold and second start beside the bare page's cold start."""
    return loaded(_output("tests/browser/measure_load.py", "--runs", str(runs)))


def loaded(text: str) -> Iterator[Row]:
    """The rows that measure_load.py's table tells.

    Parameters
    ----------
    text : str
        What it prints.

    Yields
    ------
    Row
    """
    shown: dict[tuple[str, str], tuple[float, float, float]] = {}
    visit = ""
    for line in text.splitlines():
        if begun := _VISIT.match(line):
            visit = begun[1]
        elif found := _LOADED.match(line):
            shown[visit, found[1]] = float(found[3]), float(found[5]), float(found[6])
    bare = shown["first", _BARE]
    for visit in ("first", "second"):
        for page, how in _PAGES.items():
            ours = shown[visit, page]
            for value, other, (what, unit) in zip(ours, bare, _START_PARTS, strict=True):
                yield Row(f"{visit} visit, {how}: {what}", value, other, unit, "a bare page's first visit")


def change_rows(runs: int, share: float) -> Iterator[Row]:
    """The page's worker beside the same code natively."""
    return changed(_output("tests/browser/measure_core.py", "--share", str(share)))


def changed(text: str) -> Iterator[Row]:
    """The rows that measure_core.py's lines tell.

    Parameters
    ----------
    text : str
        What it prints.

    Yields
    ------
    Row
    """
    found: dict[str, dict[str, dict[str, float]]] = {"native": {}, "Chromium": {}}
    for line in text.splitlines():
        where, _, rest = line.partition(", ")
        subject, _, values = rest.partition(": ")
        if where in found and values.startswith("{"):
            found[where][subject] = ast.literal_eval(values)
    for subject, times in found["Chromium"].items():
        for name, ours in times.items():
            if name in ("ratio", "megapixels", "bytes"):
                continue
            unit = "s" if name.endswith("_s") else "ms"
            yield Row(f"{subject}: {name}", ours, found["native"][subject][name], unit, "natively")


def print_rows(runs: int, share: float) -> Iterator[Row]:
    """The print file beside libvips."""
    if importlib.util.find_spec("pyvips") is None:
        print('libvips is left out: it comes with pip install -e ".[bench]"', file=sys.stderr)
        return
    text = _output("tests/bench_print.py", "--runs", str(min(runs, 3)), "--share", str(share**0.5))
    for label, unit in (("time by the clock", "s"), ("processor time", "s"), ("memory", "MB")):
        line = next(one for one in text.splitlines() if one.startswith(f"| {label}, "))
        _, _, ours, theirs, *_ = line.split("|")
        yield Row(f"print file: {label}", float(ours), float(theirs), unit, "libvips")


def native_rows(runs: int, share: float) -> Iterator[Row]:
    """Parts of the work beside general libraries, in this process."""
    from tests.bench_native import compared

    for what, ours, theirs, beside in compared(runs=runs, share=share):
        yield Row(what, ours, theirs, "ms", beside)


PARTS: Final[dict[str, Callable[[int, float], Iterator[Row]]]] = {
    "start": start_rows,
    "change": change_rows,
    "native": native_rows,
    "print": print_rows,
}


def _output(script: str, *arguments: str) -> str:
    command = [sys.executable, str(ROOT / script), *arguments]
    return subprocess.run(command, stdout=subprocess.PIPE, text=True, check=True, cwd=ROOT).stdout


def main() -> None:
    """Measure and print the table."""
    parser = argparse.ArgumentParser(description="Measure ratios to others that do the same work.")
    parser.add_argument("--part", choices=list(PARTS), action="append", help="this part alone; repeatable")
    parser.add_argument("--runs", type=int, default=7, help="the median counts (default: %(default)s)")
    parser.add_argument("--small", action="store_true", help="a fiftieth of the pixels and one run")
    given = parser.parse_args()
    runs, share = (1, 0.02) if given.small else (given.runs, 1.0)
    loads = [os.getloadavg()[0]]
    rows = []
    for part in given.part or PARTS:
        rows += list(PARTS[part](runs, share))
        loads.append(os.getloadavg()[0])
    print("| what | Tuckfold | beside it | ratio | what stands beside |")
    print("|---|---|---|---|---|")
    for row in rows:
        print(row)
    cores = len(os.sched_getaffinity(0))
    print(f"{cores} cores, load {min(loads):.1f} to {max(loads):.1f}")


if __name__ == "__main__":
    main()
