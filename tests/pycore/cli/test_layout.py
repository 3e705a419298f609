"""`tuckfold layout`: figures, statuses, one line for every error."""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from pycore.cli.main import main

from ..worked import WORKED, WORKED_EDITS

A4 = ["--set", "face.width_mm=210", "--set", "face.height_mm=297", "--set", "bars.depth_mm=20"]


def test_json_has_every_figure(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["layout", *A4, "--json"]) == 0
    figures = json.loads(capsys.readouterr().out)
    # Derived: see tests/pycore/layout/test_sheet.py.
    assert figures["canvas_mm"] == pytest.approx([300.9, 387.9], abs=1e-9)
    assert figures["inked_mm"] == pytest.approx([262.9, 349.9], abs=1e-9)
    assert figures["face_zone_mm"] == pytest.approx([210.9, 297.9], abs=1e-9)
    assert (figures["fits"], figures["turned"]) == (True, False)
    assert figures["slack_mm"] == pytest.approx([28.1, 95.1], abs=1e-9)
    assert figures["ink_slack_mm"] == pytest.approx([60.1, 127.1], abs=1e-9)
    assert figures["largest_depth_mm"] == pytest.approx(34.05, abs=1e-9)
    assert figures["largest_turnover_mm"] == pytest.approx(39.05, abs=1e-9)
    assert "effective_ppi" not in figures


def test_with_json_an_error_is_an_object_with_its_values_too(capsys: pytest.CaptureFixture[str]) -> None:
    begins = {"en": "Bar depth must be 6 to 100 mm", "de": "Leistentiefe \N{EN DASH} verlangt: 6 bis 100 mm"}
    try:
        for tag, begun in begins.items():
            assert main(["--language", tag, "layout", "--set", "bars.depth_mm=3", "--json"]) == 2
            said = capsys.readouterr()
            assert said.err.startswith(f"tuckfold: {begun}")
            error = json.loads(said.out)["error"]
            assert error["message"].startswith(begun)
            assert (error["code"], error["field"], error["got"]) == ("field", "bars.depth_mm", "3")
            # Derived: the contract's bounds of a bar's depth.
            assert set(error["values"].values()) >= {6, 100}
    finally:
        main(["--language", "en", "layout"])


def test_with_a_picture(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    picture = tmp_path / "quay.png"
    Image.fromarray(np.zeros((300, 400, 3), np.uint8)).save(picture)
    arguments = [
        "layout",
        "--set",
        "canvas.thickness_mm=0",
        str(picture),
        *WORKED_EDITS,
        "--json",
    ]
    assert main(arguments) == 0
    figures = json.loads(capsys.readouterr().out)
    # Derived: 400 px on 400 mm is 25.4 ppi.
    assert figures["effective_ppi"] == pytest.approx(25.4, abs=1e-9)
    assert figures["cut_away_share"] == pytest.approx(0, abs=1e-12)
    codes = [note["code"] for note in figures["notes"]]
    # What is sure to show stands before what may not, and both before what is good to know.
    assert codes.index("pixels-few") < codes.index("profile-assumed") < codes.index("bulk")


def test_prose_says_the_same(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["layout", *A4]) == 0
    text = capsys.readouterr().out
    assert "300.9 x 387.9 mm" in text
    assert text.startswith("The canvas fits the 329 x 483 mm sheet.\n")


def test_prose_of_a_group_begins_with_all_its_canvases(capsys: pytest.CaptureFixture[str]) -> None:
    """Derived: three canvases of 390.9 x 290.9 mm lie turned on 610 mm by twos, in two rows of 390.9."""
    group = ["--set", "group.panels=3", "--set", "sheet.width_mm=610"]
    assert main(["layout", *group, "--set", "sheet.height_mm="]) == 0
    said = capsys.readouterr().out
    begun = "The 3 canvases fit the 610 mm roll, turned sideways; 781.8 mm are cut from it.\n"
    assert said.startswith(begun)
    # What one takes alone stands nowhere as what is cut.
    assert "290.9 mm are cut" not in said
    assert main(["layout", *group, "--set", "sheet.height_mm=400"]) == 0
    said = capsys.readouterr().out
    assert said.startswith("The 3 canvases take 2 sheets of 610 x 400 mm, turned sideways.\n")
    # Derived: one alone lies upright, 610 - 390.9 and 400 - 290.9.
    assert "free on the sheet  219.1 x 109.1 mm; within margins 251.1 x 141.1 mm, for one canvas by" in said
    assert main(["bars", *group]) == 0
    # Derived: 20 staples hold one panel of 300 x 200 mm.
    assert "staples            20 in each panel, 60 in all, at most" in capsys.readouterr().out


def test_prose_says_why_the_printed_face_is_smaller_than_the_face(capsys: pytest.CaptureFixture[str]) -> None:
    """Derived: 300.9 mm divided by 1.01."""
    assert main(["layout", "--set", "canvas.stretch_percent.0=1"]) == 0
    printed = "297.9 x 200.9 mm, with the allowance for the canvas's thickness and less what it gives\n"
    assert printed in capsys.readouterr().out


def test_prose_says_first_what_is_too_large(capsys: pytest.CaptureFixture[str]) -> None:
    """Derived: see test_sheet; A4 takes bars up to 34.05 mm, and with 40 mm a turn-over up to 19.05 mm."""
    assert main(["layout", *A4, "--set", "bars.depth_mm=40"]) == 0
    first, _, face, depth, turnover, *_ = capsys.readouterr().out.splitlines()
    assert first.startswith(
        "The sheet is too small for the canvas: 11.9 mm short across its width. It holds bars"
    )
    # Derived: 210 : 297 on 329 x 483 mm, less 2 (40 + 25) + 0.9 and 3 to spare, on 195.1 x 349.1: 191 x 270.
    assert face == (
        "largest face       191 x 270 mm of this shape, one side in whole cm, with these bars, this "
        "turn-over and 3 mm to spare"
    )
    assert depth == "largest depth      34.0 mm with this turn-over"
    assert turnover == "largest turn-over  19.0 mm with these bars"


def test_a_larger_face_on_a_roll_is_no_contradiction(capsys: pytest.CaptureFixture[str]) -> None:
    """Derived: 3000.9 mm of a roll are there; common practice (from memory): faces end at 2000 mm."""
    large = ["--set", "face.width_mm=3000", "--set", "face.height_mm=2000"]
    assert main(["layout", "--set", "sheet.width_mm=2400", "--set", "sheet.height_mm=", *large]) == 0
    said = capsys.readouterr().out
    assert said.startswith("The canvas fits the 2400 mm roll")
    assert "largest face       2000 x 1333 mm" in said
    assert "3 mm to spare; bars over 2000 mm are rare\n" in said


def test_a_largest_face_that_crops_the_picture_says_so(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Derived: 20 : 1 on the 483 mm of the sheet would be 19 mm high, and a job's face has 50 mm or more."""
    Image.new("RGB", (2000, 100)).save(tmp_path / "wide.png")
    assert main(["layout", str(tmp_path / "wide.png")]) == 0
    [face] = [line for line in capsys.readouterr().out.splitlines() if line.startswith("largest face")]
    assert face.endswith("it crops the picture, whose shape is too slender")
    assert "of the picture's shape" not in face


def test_where_no_one_change_is_enough_both_are_named(capsys: pytest.CaptureFixture[str]) -> None:
    wide = ["--set", "wrap.turnover_mm=100", "--set", "bars.depth_mm=90"]
    assert main(["layout", *A4, *wide]) == 0
    first = capsys.readouterr().out.splitlines()[0]
    assert "with a turn-over of 100 mm even bars of 6 mm are too deep" in first
    assert "with bars of 90 mm even a turn-over of 6 mm is too wide" in first


def test_the_largest_depth_is_one_that_folds_and_that_a_job_may_have(
    capsys: pytest.CaptureFixture[str],
) -> None:
    roll = ["--set", "sheet.width_mm=1500", "--set", "sheet.height_mm=null"]
    assert main(["layout", *roll, "--json"]) == 0
    figures = json.loads(capsys.readouterr().out)
    # Derived: whole corners on 300 mm fold up to 300 / 2 - 25 = 125 mm, over the 100 that a job may have; the
    # turn-over is bound by the short sides, 200 / 2.
    assert figures["largest_depth_mm"] == 100
    assert figures["largest_turnover_mm"] == 100
    assert main(["layout", *roll, "--set", "face.width_mm=150", "--json"]) == 0
    # Derived: 150 / 2 - 25.
    assert json.loads(capsys.readouterr().out)["largest_depth_mm"] == 50


def test_without_a_command_an_example_is_shown(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([]) == 0
    assert "tuckfold layout quay.jpg --set face.width_mm=240" in capsys.readouterr().out


def test_a_file_of_version_1_is_said_to_be_one(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job = tmp_path / "job.json"
    job.write_text('{"version": 1}')
    assert main(["layout", "--job", str(job)]) == 0
    assert "Good to know: The job was saved by version 1" in capsys.readouterr().out


def test_a_job_file_and_edits(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job = tmp_path / "job.json"
    job.write_text(json.dumps({"face": {"width_mm": 210, "height_mm": 297}, "bars": {"depth_mm": 38}}))
    assert main(["layout", "--job", str(job), "--set", "bars.depth_mm=20", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["slack_mm"] == pytest.approx([28.1, 95.1], abs=1e-9)


def test_an_edit_of_a_sheet_that_the_file_leaves_out_makes_no_roll_of_it(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = tmp_path / "job.json"
    job.write_text('{"face": {"width_mm": 210, "height_mm": 297}}')
    assert main(["layout", "--job", str(job), "--set", "sheet.width_mm=610", "--json"]) == 0
    # Published: the contract's default sheet is 483 mm high.
    assert json.loads(capsys.readouterr().out)["length_mm"] == 483
    job.write_text(json.dumps(WORKED | {"sheet": {"width_mm": 610}}))
    assert main(["layout", "--job", str(job), "--json"]) == 0
    # Derived: across the roll 526.9 mm; along it 426.9 mm are cut, as the ink keeps 19 mm from the ends.
    assert json.loads(capsys.readouterr().out)["length_mm"] == pytest.approx(426.9, abs=1e-9)


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["layout", "--set", "face.width_mm=3"], "Face width must be 50 to 5000 mm; you gave 3."),
        (["layout", "--set", "face.width_mm"], "--set must be field=value; you gave"),
        (["layout", "--job", "no-such-file.json"], "--job must be a file that can be read"),
        (["layout", "no-such-file.jpg"], "The picture must be a file that can be read"),
        (["fold", "--at", "1.5"], "--at must be a number from 0 (flat) to 1 (folded); you gave 1.5."),
        (["fold", "--at", "x"], "--at must be a number, with a point"),
        (["print", "a.jpg"], "--out"),
        (["print", "a.jpg", "--out", "b.bmp"], "--out must be a name that ends in"),
        (["print", "no-such-file.jpg", "--out", "b.tif"], "The picture must be a file that can be read"),
        (["hang"], "The command must be one of layout, compare"),
        (["layuot"], "you gave 'layuot'. Write layout, or see"),
    ],
)
def test_what_the_user_gave_wrong_is_one_line_and_status_2(
    arguments: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    try:
        status = main(arguments)
    except SystemExit as left:
        status = int(str(left.code))
    caught = capsys.readouterr()
    assert status == 2
    assert caught.out == ""
    assert said in caught.err
    assert caught.err.count("\n") == 1
