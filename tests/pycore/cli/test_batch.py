"""`tuckfold batch`: its exit statuses, its summary in three forms, and what it refuses."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from pycore.batch.inputs import read_pieces
from pycore.cli.main import main
from tests.pycore.batch.making_jobs import SMALL, make_jobs

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


def test_a_job_s_own_picture_is_never_written_over(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A job keeps its files in a folder of its name, and the batch would put its print file there."""
    jobs = make_jobs(tmp_path / "piece-000", 1)
    picture = jobs / "piece-000.png"
    (jobs / "ramp.png").rename(picture)
    (jobs / "piece-000.json").write_text(
        json.dumps(SMALL | {"picture": {"file": "piece-000.png"}}), encoding="utf-8"
    )
    before = picture.read_bytes()
    arguments = ["batch", str(jobs / "piece-000.json"), "--out", str(tmp_path), "--make", "print", "--format"]
    assert main([*arguments, "png", "--json"]) == 3
    (told,) = json.loads(capsys.readouterr().out)["jobs"]
    assert told["error"].startswith(
        "The new piece-000.png would take the place of the job's own file. Choose"
    )
    assert picture.read_bytes() == before
    assert main([*arguments, "tiff"]) == 0
    assert (jobs / "piece-000.tif").is_file()


def test_of_no_job_no_plan_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "a.json").write_text("{", encoding="utf-8")
    assert main(["batch", str(tmp_path / "a.json"), "--out", str(tmp_path / "out"), "--make", "plan"]) == 3
    assert "plan:" not in capsys.readouterr().out
    assert "<h2>" not in (tmp_path / "out" / "summary.html").read_text(encoding="utf-8")


def ordered_mm(printed: str) -> set[float]:
    """The depths of the bars on the shopping list."""
    found = [one["figures"]["wanted"] for one in json.loads(printed)["whole"] if "wanted" in one["figures"]]
    return {one["depth_mm"] for wanted in found for one in wanted}


def test_presets_go_into_every_job_and_edits_come_after(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    jobs, out = make_jobs(tmp_path / "jobs", 1), tmp_path / "out"
    (jobs / "rows.csv").write_text("name,bars.depth_mm\nFirst,\nSecond,44\n", encoding="utf-8")
    shop = tmp_path / "shop.json"
    bars = [{"name": "Pine", "depth_mm": 28, "price_per_m": 3}]
    shop.write_text(json.dumps({"version": 1, "bars": bars}), encoding="utf-8")
    given = ["batch", str(jobs / "piece-000.json"), str(jobs / "rows.csv"), "--out", str(out), "--plan-only"]
    taken = [*given, "--presets", str(shop), "--take", "bars=Pine"]
    pieces = read_pieces(
        [jobs / "piece-000.json", jobs / "rows.csv"],
        take=lambda job: job.model_copy(update={"bars": job.bars.model_copy(update={"depth_mm": 28})}),
    )
    # Derived: the preset's depth, and the row's own, which comes after it.
    assert [one.job.bars.depth_mm for one in pieces if one.job is not None] == [28, 28, 44]
    assert main([*taken, "--json"]) == 0
    assert ordered_mm(capsys.readouterr().out) == {28, 44}
    assert main([*taken, "--set", "bars.depth_mm=30", "--json"]) == 0
    assert ordered_mm(capsys.readouterr().out) == {30}
    assert main([*given, "--presets", str(shop), "--take", "bars=Oak"]) == 2
    assert capsys.readouterr().err.count("\n") == 1


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
