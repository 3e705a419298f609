"""The bench reads what the measures print, and times works in turns."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from measure_load import BARE, PAGE, PLAIN, Load, print_table

from tests.bench import changed, loaded
from tests.bench_native import in_turns

pytestmark = pytest.mark.native

ROOT = Path(__file__).resolve().parents[1]


def test_the_start_is_read_from_the_measures_own_table(capsys: pytest.CaptureFixture[str]) -> None:
    def one(view: float, shown: float, processor: float) -> list[Load]:
        return [Load(shown=shown, processor=processor, ready=1, painted=1, view=view)]

    first = {BARE: one(1000, 1000, 2000), PAGE: one(1250, 1500, 3000), PLAIN: one(1300, 2100, 5000)}
    print_table("first visit", first)
    second = {BARE: one(900, 900, 1), PAGE: one(750, 1100, 1500), PLAIN: one(800, 1500, 4000)}
    print_table("second visit", second)
    rows = list(loaded(capsys.readouterr().out))
    assert [(one.what, one.ours / one.theirs) for one in rows if one.unit == "ms"] == [
        ("first visit, from the snapshot: first preview", 1.25),
        ("first visit, from the snapshot: the core's canvas", 1.5),
        ("first visit, plainly: first preview", 1.3),
        ("first visit, plainly: the core's canvas", 2.1),
        ("second visit, from the snapshot: first preview", 0.75),
        ("second visit, from the snapshot: the core's canvas", 1.1),
        ("second visit, plainly: first preview", 0.8),
        ("second visit, plainly: the core's canvas", 1.5),
    ]
    assert [one.ours for one in rows if one.unit != "ms"] == [3000, 5000, 1500, 4000]


def test_changes_are_read_from_the_measures_own_lines() -> None:
    text = "native, a change: {'depth': 10.0, 'ratio': 1.1}\nnative, print: {'print_s': 2.0}\n"
    text += "native, peak memory of this process: 3 MB\n"
    text += "Chromium, a change: {'depth': 25.0, 'ratio': 1.2}\nChromium, print: {'print_s': 9.0}\n"
    rows = list(changed(text))
    assert [(one.what, one.ours, one.theirs, one.unit) for one in rows] == [
        ("a change: depth", 25.0, 10.0, "ms"),
        ("print: print_s", 9.0, 2.0, "s"),
    ]


def test_two_works_take_turns_and_the_first_is_not_counted() -> None:
    done: list[str] = []
    times = in_turns(lambda: done.append("a"), lambda: done.append("b"), runs=3)
    assert done == ["a", "b"] * 4
    assert all(one >= 0 for one in times)


def test_the_table_of_the_native_part_is_printed() -> None:
    command = [sys.executable, str(ROOT / "tests" / "bench.py"), "--small", "--part", "native"]
    printed = subprocess.run(command, capture_output=True, text=True, check=True).stdout
    rows = [line.split("|")[1].strip() for line in printed.splitlines() if line.startswith("| ")][1:]
    assert {"fill: mirror", "first preview of a photograph", "link, made"} <= set(rows)
    assert "cores, load" in printed
