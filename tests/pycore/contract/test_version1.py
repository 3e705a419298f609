"""Files of version 1 open as they were; elsewhere its names are refused, and the new ones given."""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import Any

import pytest

from pycore.cli.layout import layout_figures
from pycore.cli.main import main
from pycore.contract.check import check_job, open_job, read_job
from pycore.contract.edits import edit_tree
from pycore.contract.job import Corners, Fill, Job
from pycore.errors import FieldError
from pycore.fold.spec import fold_spec
from pycore.layout.flat import stretch_factors
from pycore.tasks.layout import lay_out

FOLDER = Path(__file__).parent / "data" / "version1"
FILES = sorted(FOLDER.glob("*.json"))

# Regression: worked out by the last commit of version 1; the file says by which.
FIGURES: dict[str, dict[str, Any]] = json.loads((FOLDER / "figures" / "layout.json").read_text())["figures"]


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_a_file_lays_out_as_it_did(file: Path) -> None:
    job, notes = open_job(file.read_text(encoding="utf-8"))
    assert job.version == 2
    assert notes[0].code == "job-older"
    found = json.loads(json.dumps(layout_figures(lay_out(job))))
    for name, value in FIGURES[file.stem].items():
        if name == "weight_g":
            # Version 1 weighed what is cut off the corners, too.
            cut_mm2 = fold_spec(job).cut_mm2 / math.prod(stretch_factors(job))
            value -= cut_mm2 / 1e6 * job.canvas.weight_gsm
        assert found[name] == pytest.approx(value, abs=1e-9), name


def test_every_file_has_figures() -> None:
    assert {file.stem for file in FILES} == set(FIGURES)
    assert len(FILES) == 8


def test_what_a_file_leaves_out_is_as_version_1_had_it() -> None:
    """Derived from version 1's table of defaults: 400 x 300 mm, bars of 38 mm."""
    job = read_job((FOLDER / "name-only.json").read_text())
    assert (job.face.width_mm, job.face.height_mm, job.bars.depth_mm) == (400, 300, 38)
    assert (job.sheet.width_mm, job.sheet.height_mm) == (329, 483)
    part = read_job((FOLDER / "width-only.json").read_text())
    assert (part.face.width_mm, part.face.height_mm) == (350, 300)
    # A file without a version is of the present one.
    assert read_job('{"name": "x"}').bars == Job().bars


def test_renamed_values_and_fields() -> None:
    lapped = read_job((FOLDER / "drawn-out-relieved.json").read_text())
    assert lapped.wrap.corners is Corners.CUT_BACK
    assert (lapped.sides.fill, lapped.sides.colour) == (Fill.DRAWN_OUT, "edge")
    assert lapped.sides.bottom is not None
    assert (lapped.sides.bottom.blur_mm, lapped.sides.bottom.colour) == (3, "edge")
    cropped = read_job((FOLDER / "run-on-cropped.json").read_text())
    assert cropped.sides.fill is Fill.RUN_ON
    assert cropped.sides.left is not None
    assert cropped.sides.left.blur_mm == 6


@pytest.mark.parametrize(
    ("sides", "codes"),
    [
        ('{"fill": "continued", "seed": 7}', ["continued-anew"]),
        ('{"fill": "mirror", "left": {"fill": "continued"}, "seed": 7}', ["continued-anew"]),
        ('{"fill": "mirror", "seed": 7}', []),
        ('{"fill": "continued"}', []),
    ],
)
def test_early_files_of_version_2_lose_their_number(sides: str, codes: list[str]) -> None:
    job, notes = open_job(f'{{"version": 2, "sides": {sides}}}')
    assert "seed" not in job.sides.model_dump()
    assert [note.code for note in notes] == codes


@pytest.mark.parametrize("seed", ['"7"', "-1", "10000", "true", "1.5"])
def test_what_was_no_number_is_still_refused(seed: str) -> None:
    with pytest.raises(FieldError, match=r"has no field sides\.seed"):
        read_job(f'{{"version": 2, "sides": {{"seed": {seed}}}}}')


def test_the_command_line_refuses_the_number() -> None:
    with pytest.raises(FieldError, match="need no number") as caught:
        edit_tree({}, ["sides.seed=3"])
    assert caught.value.field == "sides.seed"


def test_continued_sides_are_noted() -> None:
    grown, notes = open_job((FOLDER / "grown.json").read_text())
    assert grown.sides.fill is Fill.CONTINUED
    assert "seed" not in grown.sides.model_dump()
    assert "the number that chose among them is left out" in notes[1].message
    assert [note.code for note in notes] == ["job-older", "continued-renamed"]
    _, plain = open_job((FOLDER / "first-piece.json").read_text())
    assert [note.code for note in plain] == ["job-older"]
    assert open_job('{"version": 2}')[1] == []


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        (
            '{"version": 1, "wheels": 4}',
            "The job has no field wheels. Check its spelling, or leave it out.",
        ),
        (
            '{"version": 1, "bars": {"depth": 38}}',
            "The job has no field bars.depth; did you mean bars.depth_mm? "
            "Check its spelling, or leave it out.",
        ),
        (
            '{"version": 3}',
            "The job is of version 3, which a later version of this program saved; versions 1 to 2 can be "
            "opened. Open it with that version, or update this one.",
        ),
        ('{"version": 0}', "The version of the job must be 2; you gave 0. Write that."),
        ('{"__proto__": {}}', "The job has no field __proto__. Check its spelling, or leave it out."),
        ('{"toString": 1}', "The job has no field toString. Check its spelling, or leave it out."),
        (
            '{"sides": {"__proto__": 1}}',
            "The job has no field sides.__proto__. Check its spelling, or leave it out.",
        ),
        (
            '{"sides": {"softness_mm": 4}}',
            "The job has no field sides.softness_mm; did you mean sides.blur_mm? "
            "Check its spelling, or leave it out.",
        ),
    ],
)
def test_what_cannot_be_opened_is_one_sentence(text: str, sentence: str) -> None:
    with pytest.raises(FieldError) as caught:
        open_job(text)
    assert str(caught.value) == sentence


def test_a_job_without_a_picture_opens() -> None:
    job, notes = open_job('{"version": 2, "picture": {"file": "away.jpg"}}')
    assert job.picture.file == "away.jpg"
    assert notes == []


@pytest.mark.parametrize(
    ("edit", "said"),
    [
        ("sides.softness_mm=4", "it is called sides.blur_mm. Write sides.blur_mm=4."),
        ("sides.left.softness_mm=4", "it is called sides.left.blur_mm. Write sides.left.blur_mm=4."),
        ("sides.fill=carry", "it is called sides.fill=run-on. Write sides.fill=run-on."),
        ("sides.top.fill=grown", "it is called sides.top.fill=continued. Write sides.top.fill=continued."),
        ("sides.colour=arris", "it is called sides.colour=edge. Write sides.colour=edge."),
        ("wrap.corners=relieved", "it is called wrap.corners=cut-back. Write wrap.corners=cut-back."),
    ],
)
def test_old_names_in_an_edit_are_refused(edit: str, said: str) -> None:
    with pytest.raises(FieldError) as caught:
        edit_tree({}, [edit])
    field = edit.partition("=")[0]
    assert caught.value.field == field
    assert said in str(caught.value)


def test_old_names_in_an_option_are_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", "x.jpg", "--fills", "carry,mirror"]) == 2
    said = capsys.readouterr().err
    assert said.startswith("tuckfold: --fills must be one of")
    assert "write run-on, as “carry” is called" in said.lower()
    job = tmp_path / "job.json"
    job.write_text('{"version": 2, "sides": {"fill": "draw-out"}}')
    assert main(["layout", "--job", str(job)]) == 2
    assert "rite drawn-out, as “draw-out” is called" in capsys.readouterr().err


def test_check_job_takes_a_parsed_file_of_version_1() -> None:
    assert check_job({"version": 1}).face.width_mm == 400
