"""`tuckfold batch`: its exit statuses, its summary in three forms, and what it refuses."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from pycore.cli.main import main
from tests.pycore.batch.making_jobs import make_jobs

pytestmark = pytest.mark.native


def test_the_summary_is_text_json_and_a_page(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    jobs, out = make_jobs(tmp_path / "jobs", 1), tmp_path / "out"
    (jobs / "a&b.json").write_text("{", encoding="utf-8")
    arguments = ["batch", str(jobs), "--out", str(out), "--plan-only", "--json"]
    assert main(arguments) == 3
    report = json.loads(capsys.readouterr().out)
    assert [sorted(one) for one in report["jobs"]] == [
        ["error", "files", "name", "note_records", "notes", "ok", "refusal", "skipped", "source"]
    ] * 2
    assert [(one["name"], one["ok"]) for one in report["jobs"]] == [("a-b", False), ("piece-000", True)]
    assert json.loads((out / "summary.json").read_text(encoding="utf-8")) == report
    text = (out / "summary.txt").read_text(encoding="utf-8")
    assert text.startswith("2 jobs: 1 done, 1 not done.\nnot done  a-b (a&b.json): ")
    page = (out / "summary.html").read_text(encoding="utf-8")
    assert "a&amp;b.json" in page
    assert "<script" not in page
    assert main(["batch", str(jobs / "piece-000.json"), "--out", str(out), "--plan-only"]) == 0


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (["--make", "print,film"], "--make must be some of print, client"),
        (["--workers", "0"], "--workers must be 1 to 256"),
        (["--date", "soon"], "--date must be a day"),
        (["--scheduler", "tcp://127.0.0.1:9", "--make", "print"], "a scheduler that answers"),
    ],
)
def test_a_wrong_option_is_one_line(
    tmp_path: Path, more: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    jobs = make_jobs(tmp_path / "jobs", 1)
    assert main(["batch", str(jobs), "--out", str(tmp_path / "out"), *more]) == 2
    line = capsys.readouterr().err
    assert said in line
    assert line.count("\n") == 1


def test_the_jobs_own_folder_and_an_empty_one_are_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    jobs = make_jobs(tmp_path / "jobs", 1)
    assert main(["batch", str(jobs), "--out", str(jobs)]) == 2
    assert "another folder than that of the jobs" in capsys.readouterr().err
    empty = tmp_path / "empty"
    empty.mkdir()
    assert main(["batch", str(empty), "--out", str(tmp_path / "out")]) == 2
    assert "holds no job file (.json) and no bundle (.zip)" in capsys.readouterr().err
