"""Programs side by side: each one's lines stay together, and one that fails ends nothing but itself."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest
from build.lanes import Program, run_lanes, summary

pytestmark = pytest.mark.native


def python(name: str, code: str) -> Program:
    return Program(name, [sys.executable, "-c", code], Path.cwd())


def meeting(name: str, other: str, folder: Path) -> Program:
    """Ends only when the other has begun too, and prints before and after."""
    code = f"""
import pathlib, sys, time
folder = pathlib.Path({str(folder)!r})
print("{name} begins", flush=True)
(folder / "{name}").touch()
for _ in range(3000):
    if (folder / "{other}").exists():
        break
    time.sleep(0.01)
else:
    sys.exit("{other} never began")
print("{name} ends", flush=True)
"""
    return python(name, code)


def test_two_lanes_run_at_the_same_time_and_their_lines_do_not_mix(
    tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    outcomes = run_lanes(
        [meeting("one", "two", tmp_path)], [meeting("two", "one", tmp_path), python("three", "print('late')")]
    )
    assert [(one.name, one.status) for one in outcomes] == [("one", 0), ("two", 0), ("three", 0)]
    lines = [line for line in capfd.readouterr().out.splitlines() if line]
    for name in ("one", "two"):
        at = lines.index(f"=== {name}")
        assert lines[at + 1 : at + 3] == [f"{name} begins", f"{name} ends"]
    at = lines.index("=== three")
    assert lines[at + 1] == "late"
    assert at > lines.index("=== two")


def test_a_failure_is_told_and_the_next_program_runs(capfd: pytest.CaptureFixture[str]) -> None:
    broken = python("broken", "import sys; print('out'); print('why', file=sys.stderr); sys.exit(3)")
    outcomes = run_lanes([broken, python("next", "print('ran')")])
    assert [one.status for one in outcomes] == [3, 0]
    printed = capfd.readouterr().out
    assert all(line in printed for line in ("out", "why", "ran"))
    assert "broken: FAILED (exit status 3)" in summary(outcomes)
    assert summary(outcomes).endswith("1 passed, 1 failed")


def test_variables_are_given_beside_those_that_are_there(
    monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("TUCKFOLD_THERE", "kept")
    code = "import os; print(os.environ['TUCKFOLD_THERE'], os.environ['TUCKFOLD_GIVEN'])"
    run_lanes([python("env", code)], env={"TUCKFOLD_GIVEN": "too"})
    assert "kept too" in capfd.readouterr().out


def test_pytest_s_share_is_told_on_the_way(capfd: pytest.CaptureFixture[str]) -> None:
    run_lanes([python("tests", "print('....  [ 40%]'); print('no share: [4]')")], share_every_s=0)
    printed = capfd.readouterr().out
    assert printed.count("tests: 40 % after 0 s") == 1
    assert printed.count(" % after") == 1
