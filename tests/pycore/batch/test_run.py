"""A batch makes what is missing, tells what went wrong, and leaves nothing half-written."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from PIL import Image

from pycore.batch.crew import News
from pycore.batch.inputs import read_pieces
from pycore.batch.kinds import Choices
from pycore.batch.making import Order, make_piece
from pycore.batch.report import BatchReport
from pycore.batch.run import MOST_ATTEMPTS, BatchOptions, run_batch
from pycore.batch.summary import summary_text
from pycore.bundle.content import BundledFile, Role
from pycore.bundle.write import bundle_bytes
from pycore.colour.illustrative.profile import illustrative_profile
from pycore.contract.check import check_job
from pycore.errors import OutputError
from pycore.progress import Progress, run_to_end
from pycore.speech import speaking
from pycore.ticket.report import Paper

from .making_jobs import SMALL, make_jobs

pytestmark = pytest.mark.native

TODAY = Choices(date="2031-04-30")
PRINTS = BatchOptions(kinds=("print",), choices=TODAY)


class Here:
    """A crew of one, in this process: what a batch does with its answers needs no other."""

    def __init__(self) -> None:
        self.orders: list[Order] = []
        self.given: list[str] = []

    def takes(self, order: Order) -> bool:
        return not self.orders

    def give(self, order: Order) -> None:
        self.orders.append(order)
        self.given.append(order.name)

    def news(self) -> list[News]:
        order = self.orders.pop()
        return [News(name=order.name, share=1, outcome=run_to_end(make_piece(order)))]

    def close(self) -> None:
        self.orders = []


def made(jobs: Path, out: Path, options: BatchOptions = PRINTS) -> tuple[BatchReport, list[str]]:
    """A batch over a folder, and the pieces that were ordered."""
    crew = Here()
    report = run_to_end(run_batch(read_pieces([jobs]), out, options=options, crew=lambda: crew))
    return report, crew.given


def test_everything_is_made_once_and_again_where_it_has_changed(tmp_path: Path) -> None:
    jobs, out = make_jobs(tmp_path / "jobs", 3), tmp_path / "out"
    report, given = made(jobs, out)
    assert (report.done, report.skipped, report.failed, len(given)) == (3, 0, 0, 3)
    assert report.jobs[0].files == ["piece-000/piece-000.tif"]
    with Image.open(out / "piece-000" / "piece-000.tif") as image:
        # Derived: 200 mm of face, twice 0.45 of thickness, 20 of depth and 25 of turn-over, at 36 ppi.
        assert image.width == round((200 + 2 * (0.45 + 20 + 25)) / 25.4 * 36)
    assert made(jobs, out)[1] == []
    # A job, a file that was cut short, and another date: the date alone makes nothing anew.
    changed = jobs / "piece-001.json"
    changed.write_text(changed.read_text().replace('"height_mm": 150', '"height_mm": 140'))
    cut = out / "piece-002" / "piece-002.tif"
    cut.write_bytes(cut.read_bytes()[:-1])
    report, given = made(jobs, out, BatchOptions(kinds=("print",), choices=Choices(date="2031-05-01")))
    assert given == ["piece-001", "piece-002"]
    assert [one.skipped for one in report.jobs] == [True, False, False]
    # The picture is everybody's.
    make_picture(jobs / "ramp.png")
    assert len(made(jobs, out)[1]) == 3
    # One more kind makes that kind alone.
    before = (out / "piece-000" / "piece-000.tif").stat().st_mtime_ns
    report, given = made(jobs, out, BatchOptions(kinds=("print", "client"), choices=TODAY))
    assert len(given) == 3
    assert sorted(report.jobs[0].files) == ["piece-000/piece-000-client.html", "piece-000/piece-000.tif"]
    assert (out / "piece-000" / "piece-000.tif").stat().st_mtime_ns == before


def make_picture(path: Path) -> None:
    Image.radial_gradient("L").resize((120, 90)).convert("RGB").save(path)


def test_a_bundle_needs_nothing_beside_it(tmp_path: Path) -> None:
    jobs = tmp_path / "jobs"
    jobs.mkdir()
    ramp = (make_jobs(tmp_path / "elsewhere", 0) / "ramp.png").read_bytes()
    files = {
        Role.PICTURE: BundledFile(name="ramp.png", data=ramp),
        Role.PROFILE: BundledFile(name="mine.icc", data=illustrative_profile()),
    }
    job = check_job({**SMALL, "print": {**SMALL["print"], "convert": "convert"}})
    (jobs / "held.zip").write_bytes(bundle_bytes(job, files))
    report, _ = made(jobs, tmp_path / "out")
    assert (report.jobs[0].error, report.jobs[0].files) == ("", ["held/held.tif"])
    with Image.open(tmp_path / "out" / "held" / "held.tif") as image:
        assert image.info["icc_profile"] == illustrative_profile()
    assert made(jobs, tmp_path / "out")[1] == []


def test_a_copied_folder_is_known_by_its_contents(tmp_path: Path) -> None:
    jobs, out = make_jobs(tmp_path / "jobs", 1), tmp_path / "out"
    made(jobs, out)
    os.utime(out / "piece-000" / "piece-000.tif", (1, 1))
    assert made(jobs, out)[1] == []


def test_a_batch_in_german_says_all_in_german_and_keeps_codes_and_values(tmp_path: Path) -> None:
    jobs = make_jobs(tmp_path / "jobs", 2)
    large = {**SMALL, "name": "Groß", "face": {"width_mm": 900, "height_mm": 700}}
    (jobs / "piece-001.json").write_text(json.dumps(large), encoding="utf-8")
    with speaking("de"):
        report, _ = made(jobs, tmp_path / "out")
        text = summary_text(report)
    small, big = report.jobs
    # Derived: the catalogue's own sentences.
    assert "Das Bild hat kein brauchbares Profil" in small.notes[0]
    assert small.note_records[0].code == "profile-assumed"
    assert text.startswith("2 Aufträge: 2 gemacht.\ngemacht")
    assert "Geht nicht: Der Bogen ist zu klein" in text
    # Derived: 120 pixels on 200 mm are 15 for each inch, which whoever prints the file is told.
    (few,) = [note.message for note in small.note_records if note.code == "pixels-few"]
    assert few.startswith("Die Bildfläche bekommt 15 Bildpunkte des Bildes je Zoll")
    # Derived: 900 mm in two stretches, 700 in two.
    assert "  2 Leisten zu 900 mm, 40 x 20 mm\n" in text
    assert "  1 Strebe zu 820 mm" in text
    assert "  1 Leinwand: 1 Bogen oder Länge, Verschnitt" in text
    stop = next(note for note in big.note_records if note.code == "sheet-short")
    assert stop.values["loaded"] == "sheet"


def test_one_bad_job_does_not_stop_the_others(tmp_path: Path) -> None:
    jobs = make_jobs(tmp_path / "jobs", 2)
    (jobs / "a-broken.json").write_text("{", encoding="utf-8")
    (jobs / "b-shallow.json").write_text('{"bars": {"depth_mm": 3}}', encoding="utf-8")
    (jobs / "c-lacking.json").write_text('{"picture": {"file": "none.jpg"}}', encoding="utf-8")
    (jobs / "d-damaged.json").write_text('{"picture": {"file": "cut.png"}}', encoding="utf-8")
    (jobs / "cut.png").write_bytes((jobs / "ramp.png").read_bytes()[:200])
    (jobs / "e-other.json").write_text(
        json.dumps({"picture": {"file": "ramp.png", "sha256": "0" * 64}}), encoding="utf-8"
    )
    (jobs / "f-profile.json").write_text(
        json.dumps({"picture": {"file": "ramp.png"}, "colour": {"profile": "none.icc"}}), encoding="utf-8"
    )
    report, _ = made(jobs, tmp_path / "out")
    said = {one.name: one.error for one in report.jobs if not one.ok}
    assert {name: error for name, error in said.items() if "\n" in error} == {}
    for name, words in {
        "a-broken": "not JSON",
        "b-shallow": "Bar depth must be 6 to 100 mm",
        "c-lacking": "none.jpg",
        "d-damaged": "The picture",
        "e-other": "not the one that it was made with",
        "f-profile": "none.icc",
    }.items():
        assert words in said.pop(name)
    assert said == {}
    assert (report.done, report.failed) == (2, 6)
    assert sorted(one.name for one in (tmp_path / "out").iterdir() if one.is_dir()) == [
        "piece-000",
        "piece-001",
    ]


def test_jobs_of_one_name_are_not_made_and_the_others_are(tmp_path: Path) -> None:
    jobs = make_jobs(tmp_path / "jobs", 2)
    more = make_jobs(tmp_path / "more", 1)
    crew = Here()
    pieces = read_pieces([jobs, more / "piece-000.json"])
    report = run_to_end(run_batch(pieces, tmp_path / "out", options=PRINTS, crew=lambda: crew))
    assert crew.given == ["piece-001"]
    assert [one.ok for one in report.jobs] == [False, True, False]
    assert "Several jobs are called 'piece-000'" in report.jobs[0].error


def test_a_worker_that_ends_without_a_word_gets_further_chances(tmp_path: Path) -> None:
    class Losing(Here):
        def news(self) -> list[News]:
            return [News(name=self.orders.pop().name, lost="it was ended by SIGKILL")]

    crew = Losing()
    pieces = read_pieces([make_jobs(tmp_path / "jobs", 2)])
    report = run_to_end(run_batch(pieces, tmp_path / "out", options=PRINTS, crew=lambda: crew))
    assert len(crew.given) == 2 * MOST_ATTEMPTS
    assert report.failed == 2
    assert "ended 3 times without a word (it was ended by SIGKILL)" in report.jobs[0].error


def test_progress_tells_how_much_time_is_left(tmp_path: Path) -> None:
    pieces = read_pieces([make_jobs(tmp_path / "jobs", 2)])
    seconds = iter(range(0, 100_000, 600))
    steps = run_batch(pieces, tmp_path / "out", options=PRINTS, crew=Here, clock=lambda: float(next(seconds)))
    seen: list[Progress] = []
    while True:
        try:
            seen.append(next(steps))
        except StopIteration:
            break
    # Derived: the clock goes on by 600 s each time; half is done at its first look, so 600 s are left.
    assert [one.label for one in seen][-2:] == [
        "1 of 2 jobs, about 10 min left",
        "2 of 2 jobs, less than a minute left",
    ]
    assert [round(one.done, 2) for one in seen] == [0, 0, 0.5, 1]


def test_planned_only_makes_the_lists_alone(tmp_path: Path) -> None:
    out = tmp_path / "out"
    report, given = made(make_jobs(tmp_path / "jobs", 2), out, BatchOptions(kinds=(), choices=TODAY))
    assert given == []
    assert [(one.ok, one.files) for one in report.jobs] == [(True, []), (True, [])]
    assert not any(one.is_dir() for one in out.iterdir())
    rows = (out / "bars.csv").read_text(encoding="utf-8").splitlines()
    assert rows[0] == "part,width_mm,depth_mm,wood,length_mm,count,pieces"
    # Derived: 150 mm is a side of both, 22 percent of it the bar's width.
    assert "bar,33,20,unknown,150,4,piece-000 piece-001" in rows


def test_what_is_only_planned_needs_no_files(tmp_path: Path) -> None:
    jobs, out = make_jobs(tmp_path / "jobs", 3), tmp_path / "out"
    (jobs / "ramp.png").unlink()
    (jobs / "piece-002.json").write_text('{"name": "Without a picture"}', encoding="utf-8")
    report, _ = made(jobs, out, BatchOptions(kinds=(), choices=TODAY))
    assert [one.ok for one in report.jobs] == [True, True, True]
    assert "piece-000 piece-001" in (out / "bars.csv").read_text(encoding="utf-8")
    # Where print files are asked for, the same jobs fail, and nothing is planned for them.
    report, given = made(jobs, tmp_path / "printed")
    assert given == []
    assert [one.ok for one in report.jobs] == [False, False, False]
    assert "ramp.png" in (report.jobs[0].error or "")
    assert "must be named in the job" in (report.jobs[2].error or "")
    assert "piece" not in (tmp_path / "printed" / "bars.csv").read_text(encoding="utf-8").partition("\n")[2]


def test_tickets_are_made_on_the_paper_that_is_chosen(tmp_path: Path) -> None:
    jobs, out = make_jobs(tmp_path / "jobs", 1), tmp_path / "out"
    report, _ = made(jobs, out, BatchOptions(kinds=("ticket",), whole_kinds=(), choices=TODAY))
    assert report.jobs[0].files == ["piece-000/piece-000-ticket.pdf"]
    first = (out / report.jobs[0].files[0]).read_bytes()
    assert first.startswith(b"%PDF-")
    letter = Choices(date="2031-04-30", paper=Paper.LETTER)
    options = BatchOptions(kinds=("ticket",), whole_kinds=(), choices=letter)
    assert made(jobs, out, options)[1] == ["piece-000"]
    assert (out / report.jobs[0].files[0]).read_bytes() != first
    assert made(jobs, out, options)[1] == []


def test_one_plan_is_made_and_a_canvas_for_no_sheet_is_left_out(tmp_path: Path) -> None:
    jobs, out = make_jobs(tmp_path / "jobs", 2), tmp_path / "out"
    wide = {"picture": {"file": "ramp.png"}, "face": {"width_mm": 3000}, "print": {"ppi": 36}}
    (jobs / "wide.json").write_text(json.dumps(wide), encoding="utf-8")
    report, _ = made(jobs, out, BatchOptions(kinds=(), whole_kinds=("plan",), choices=TODAY))
    (plan,) = report.whole
    assert plan.files == ["plan.svg", "plan.json"]
    placed = json.loads((out / "plan.json").read_text(encoding="utf-8"))
    names = [piece["job"] for sheet in placed["sheets"] for piece in sheet["pieces"]]
    assert sorted(names) == ["piece-000", "piece-001"]
    assert any(line.startswith("Not planned: wide. ") for line in plan.lines)


def test_two_batches_do_not_work_in_one_folder(tmp_path: Path) -> None:
    pieces = read_pieces([make_jobs(tmp_path / "jobs", 1)])
    first = run_batch(pieces, tmp_path / "out", options=PRINTS, crew=Here)
    next(first)
    with pytest.raises(OutputError, match="Another batch is at work in the folder 'out'"):
        run_to_end(run_batch(pieces, tmp_path / "out", options=PRINTS, crew=Here))
    first.close()
    assert run_to_end(run_batch(pieces, tmp_path / "out", options=PRINTS, crew=Here)).done == 1


def test_a_folder_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("a file", encoding="utf-8")
    with pytest.raises(OutputError, match="Nothing can be written into that folder"):
        made(make_jobs(tmp_path / "jobs", 1), tmp_path / "out")


def batch(*arguments: str, most_bytes: int | None = None) -> subprocess.Popen[str]:
    """A batch as a process of its own, whose files may be limited in size as a full disk limits them."""

    def limit() -> None:
        import resource

        if most_bytes is not None:
            signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
            resource.setrlimit(resource.RLIMIT_FSIZE, (most_bytes, most_bytes))

    return subprocess.Popen(
        [sys.executable, "-m", "pycore.cli", "batch", *arguments, "--json"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
        preexec_fn=limit,
    )


def test_a_full_disk_leaves_nothing_under_a_final_name(tmp_path: Path) -> None:
    jobs, out = make_jobs(tmp_path / "jobs", 1), tmp_path / "out"
    with batch(str(jobs), "--out", str(out), "--make", "print", most_bytes=100_000) as running:
        text, _ = running.communicate(timeout=60)
    assert running.returncode == 3
    (job,) = json.loads(text)["jobs"]
    assert "cannot be written there" in job["error"]
    assert [one.name for one in (out / "piece-000").iterdir()] == []


# Two whole batches in processes of their own: nothing less can be killed.
@pytest.mark.slow
def test_a_kill_leaves_no_half_written_file_and_the_next_batch_goes_on(tmp_path: Path) -> None:
    jobs, out = make_jobs(tmp_path / "jobs", 6), tmp_path / "out"
    arguments = (str(jobs), "--out", str(out), "--make", "print", "--workers", "2")
    with batch(*arguments) as running:
        while len(list(out.glob("*/*.tif"))) < 2:
            assert running.poll() is None
            time.sleep(0.01)
        os.killpg(running.pid, signal.SIGKILL)
        running.communicate()
    left = {path.name: path.read_bytes() for path in out.glob("*/*.tif")}
    for name in left:
        with Image.open(out / Path(name).stem / name) as image:
            image.load()
    with batch(*arguments) as running:
        text, _ = running.communicate(timeout=60)
    assert running.returncode == 0
    report = json.loads(text)
    assert report["done"] + report["skipped"] == 6
    assert len(left) - 1 <= report["skipped"] < 6
    assert {name: (out / Path(name).stem / name).read_bytes() for name in left} == left
    hidden = [one.name for one in out.glob("*/.*")]
    assert set(hidden) == {".made.json"}
