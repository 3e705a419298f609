"""What would stop the work at the bench is said by `layout` and by `print`."""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from pycore.cli.main import main

from ..worked import WORKED_EDITS

# Derived: corners left whole need 2 (depth + turn-over) = 2 (20 + 25) = 90 mm of the over side.
NARROW = ["--set", "face.width_mm=80", "--set", "face.height_mm=120", "--set", "bars.depth_mm=20"]


def _notes(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> dict[str, dict[str, str]]:
    assert main([*arguments, "--json"]) == 0
    return {note["code"]: note for note in json.loads(capsys.readouterr().out)["notes"]}


def test_layout_says_that_corners_cannot_fold(capsys: pytest.CaptureFixture[str]) -> None:
    found = _notes(["layout", *NARROW], capsys)
    assert next(iter(found)) == "corners-cannot-fold"
    said = found["corners-cannot-fold"]
    assert (said["severity"], said["place"], said["field"]) == ("stop", "corners", "face.width_mm")
    assert "at least 90 mm" in said["message"]
    cut_back = _notes(["layout", *NARROW, "--set", "wrap.corners=cut-back"], capsys)
    assert "corners-cannot-fold" not in cut_back


def test_layout_says_that_sides_cannot_be_filled(capsys: pytest.CaptureFixture[str]) -> None:
    # Derived: a face of 100.9 mm cannot be reflected over 98 + 6 mm.
    deep = ["--set", "face.width_mm=100", "--set", "bars.depth_mm=98"]
    assert _notes(["layout", *deep], capsys)["sides-cannot-be-filled"]["field"] == "bars.depth_mm"
    assert "sides-cannot-be-filled" not in _notes(["layout", *deep, "--set", "sides.fill=plain"], capsys)


def test_print_says_what_stops_the_work_before_anything_else(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    picture = tmp_path / "quay.png"
    Image.fromarray(np.zeros((90, 60, 3), np.uint8)).save(picture)
    arguments = ["print", str(picture), "--out", str(tmp_path / "print.tif"), "--set", "print.ppi=72"]
    # Derived: a 400 x 300 mm face needs more than the default sheet of 329 x 483 mm; see test_sheet.
    assert next(iter(_notes([*arguments, *WORKED_EDITS], capsys))) == "sheet-short"
    assert next(iter(_notes([*arguments, *NARROW], capsys))) == "corners-cannot-fold"
    cut_back = _notes([*arguments, *NARROW, "--set", "wrap.corners=cut-back"], capsys)
    assert all(note["severity"] != "stop" for note in cut_back.values())
    # What the print file itself is not good for stands before what is to be looked at again, too.
    invented = _notes([*arguments, "--set", "print.convert=convert"], capsys)
    assert list(invented)[:1] == ["file-for-no-canvas"]
    severities = [note["severity"] for note in invented.values()]
    assert severities == sorted(severities, key=["stop", "watch", "hint"].index)
