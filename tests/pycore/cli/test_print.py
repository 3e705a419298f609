"""`tuckfold print` and `tuckfold fold` end to end, and the figures that they re-read."""

from __future__ import annotations

import datetime
import io
import json
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from pycore.cli.main import main

JOB = ["--set", "face.width_mm=210", "--set", "face.height_mm=297", "--set", "bars.depth_mm=20"]


@pytest.fixture
def picture(tmp_path: Path) -> Path:
    path = tmp_path / "quay.png"
    Image.fromarray(np.arange(300 * 210 * 3, dtype=np.uint32).astype(np.uint8).reshape(300, 210, 3)).save(
        path
    )
    return path


@pytest.mark.parametrize(("ending", "kind"), [(".tif", "TIFF"), (".png", "PNG"), (".jpg", "JPEG")])
def test_print_writes_the_exact_size(
    ending: str, kind: str, picture: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / f"print{ending}"
    arguments = ["print", str(picture), "--out", str(out), *JOB, "--set", "print.ppi=100", "--json"]
    assert main(arguments) == 0
    figures = json.loads(capsys.readouterr().out)
    # Derived: 300.9 x 387.9 mm x 100 / 25.4 = 1184.65, 1527.17: 1185 x 1527.
    assert (figures["width_px"], figures["height_px"]) == (1185, 1527)
    assert figures["bytes"] == out.stat().st_size
    assert figures["ppi"] == pytest.approx([100, 100], abs=0.01)
    assert figures["size_mm"] == pytest.approx([300.9, 387.9], abs=0.13)
    with Image.open(io.BytesIO(out.read_bytes())) as image:
        assert image.size == (1185, 1527)
        assert image.format == kind


def test_print_says_what_to_look_at_again(
    picture: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Derived: 210 pixels on 210 mm are 25 for each inch; five layers at the back corners are a hint only."""
    arguments = ["print", str(picture), "--out", str(tmp_path / "print.tif"), *JOB, "--set", "print.ppi=72"]
    assert main([*arguments, "--json"]) == 0
    codes = [note["code"] for note in json.loads(capsys.readouterr().out)["notes"]]
    assert codes.count("pixels-few") == codes.count("profile-assumed") == 1
    assert "bulk" not in codes
    assert main([*arguments, "--set", "sheet.height_mm=350"]) == 0
    said = capsys.readouterr().out
    assert said.count("Does not work: The sheet is too small") == 1
    assert said.count("The face gets 25 picture pixels per inch") == 1
    # Derived: of 305 mm 299 can be printed, and the file is 300.9 mm wide.
    assert main([*arguments, "--set", "sheet.width_mm=305"]) == 0
    assert capsys.readouterr().out.count("the print file is 300.9 mm wide, 299.0 mm of which") == 1


@pytest.mark.parametrize(("convert", "code"), [("keep", "file-untagged"), ("convert", "profile-missing")])
def test_inks_without_a_profile_are_told_once(
    convert: str, code: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Kept, the file has no profile either; converted, it has, and a formula stands for the picture's."""
    picture = tmp_path / "inks.tif"
    Image.new("CMYK", (210, 300), (200, 40, 0, 10)).save(picture)
    edits = ["--set", "print.ppi=72", "--set", f"print.convert={convert}"]
    assert main(["print", str(picture), "--out", str(tmp_path / "p.tif"), *JOB, *edits, "--json"]) == 0
    codes = [note["code"] for note in json.loads(capsys.readouterr().out)["notes"]]
    assert [one for one in codes if one in ("file-untagged", "profile-missing")] == [code]


def test_the_same_job_gives_the_same_bytes(picture: Path, tmp_path: Path) -> None:
    outs = [tmp_path / "one.tif", tmp_path / "two.tif"]
    for out in outs:
        arguments = ["print", str(picture), "--out", str(out), *JOB, "--set", "print.ppi=72"]
        assert main([*arguments, "--date", "2031-04-30"]) == 0
    assert outs[0].read_bytes() == outs[1].read_bytes()


def test_an_older_file_is_replaced(picture: Path, tmp_path: Path) -> None:
    out = tmp_path / "print.tif"
    out.write_bytes(b"an older one")
    assert main(["print", str(picture), "--out", str(out), *JOB, "--set", "print.ppi=72"]) == 0
    with Image.open(out) as image:
        # Derived: 300.9 x 387.9 mm x 72 / 25.4 = 852.9, 1099.6.
        assert image.size == (853, 1100)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["print.tif", "quay.png"]


def test_without_a_date_the_marks_carry_today_s(picture: Path, tmp_path: Path) -> None:
    days = [datetime.date.today().isoformat()]
    outs = {name: tmp_path / f"{name}.png" for name in ("none", "before", "after")}
    arguments = ["print", str(picture), *JOB, "--set", "print.ppi=150", "--out"]
    assert main([*arguments, str(outs["none"])]) == 0
    # The day may end while this runs.
    days.append(datetime.date.today().isoformat())
    for name, day in zip(("before", "after"), days, strict=True):
        assert main([*arguments, str(outs[name]), "--date", day]) == 0
    assert outs["none"].read_bytes() in (outs["before"].read_bytes(), outs["after"].read_bytes())
    assert main([*arguments, str(outs["before"]), "--date", "2000-01-01"]) == 0
    assert outs["none"].read_bytes() != outs["before"].read_bytes()


def test_a_file_that_is_no_picture(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    wrong = tmp_path / "words.jpg"
    wrong.write_text("these are words")
    out = tmp_path / "out.tif"
    assert main(["print", str(wrong), "--out", str(out), *JOB]) == 2
    assert capsys.readouterr().err.startswith("tuckfold: The picture must be ")
    assert not out.exists()


def test_an_unwritable_place(picture: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "no-such-folder" / "out.tif"
    assert main(["print", str(picture), "--out", str(out), *JOB]) == 2
    assert "The file cannot be written there (" in capsys.readouterr().err


def test_a_side_deeper_than_the_picture(
    picture: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    small = ["--set", "face.width_mm=50", "--set", "face.height_mm=50", "--set", "bars.depth_mm=60"]
    assert main(["print", str(picture), "--out", str(tmp_path / "out.tif"), *small]) == 2
    assert capsys.readouterr().err.startswith("tuckfold: Bar depth must be at most ")


def test_fold_in_json(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["fold", "--at", "1", "--json"]) == 0
    report = json.loads(capsys.readouterr().out)
    assert len(report["facets"]) == 29
    assert {"name", "flat_mm", "position_mm", "layer", "visible_mm"} <= report["facets"][0].keys()
    # Derived: five layers of 0.45 mm.
    assert report["bulk_mm"]["back corner"] == pytest.approx(2.25)
    assert [stage["name"] for stage in report["stages"]] == ["under", "tuck", "over-back"]


def test_fold_in_prose(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["fold"]) == 0
    assert "29 facets" in capsys.readouterr().out


def test_corners_that_cannot_fold(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["fold", "--set", "face.width_mm=100", "--set", "bars.depth_mm=38"]) == 2
    # Derived: whole corners need twice 38 + 25 = 126 mm.
    assert "Face width must be at least 126 mm" in capsys.readouterr().err
