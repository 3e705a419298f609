"""A group of panels on the command line: plan and wall in the layout, a file for each panel."""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from pycore.cli.main import main

TRIO = ["face.width_mm=100", "face.height_mm=150", "bars.depth_mm=20", "group.panels=3", "print.ppi=72"]
EDITS = [part for edit in TRIO for part in ("--set", edit)]


@pytest.fixture
def picture(tmp_path: Path) -> Path:
    path = tmp_path / "quay.png"
    ramp = np.zeros((150, 400, 3), np.uint8)
    ramp[..., 0] = np.linspace(0, 255, 400).astype(np.uint8)
    Image.fromarray(ramp).save(path)
    return path


def test_layout_gives_wall_and_plan(picture: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["layout", str(picture), *EDITS, "--json"]) == 0
    figures = json.loads(capsys.readouterr().out)
    # Derived: 3 x 100.9 + 2 x 30; canvases of 190.9 x 240.9 mm, two on 329 x 483 only one above the other.
    assert figures["wall_mm"] == pytest.approx([362.7, 150.9])
    assert [len(sheet) for sheet in figures["plan"]["sheets"]] == [2, 1]
    assert main(["layout", *EDITS]) == 0
    prose = capsys.readouterr().out
    assert "3 panels across" in prose
    assert "2 sheets for all" in prose
    # Of a roll there is one piece, and no sheet is numbered.
    assert main(["layout", *EDITS, "--set", "sheet.height_mm="]) == 0
    assert "\n  on the roll      panel 1 at " in capsys.readouterr().out


def test_print_writes_a_file_for_each_panel(
    picture: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "print.tif"
    assert main(["print", str(picture), "--out", str(out), *EDITS, "--json"]) == 0
    files = json.loads(capsys.readouterr().out)["files"]
    assert [one["file"] for one in files] == [f"print-{number}of3.tif" for number in (1, 2, 3)]
    assert not out.exists()
    means = []
    for one in files:
        with Image.open(tmp_path / one["file"]) as image:
            assert image.size == (one["width_px"], one["height_px"])
            wide, high = image.size
            means.append(float(np.asarray(image)[high // 2, wide // 3 : 2 * wide // 3, 0].mean()))
    # The ramp rises from panel to panel.
    assert means == sorted(means)
    assert means[2] - means[0] > 100


def test_what_holds_for_every_panels_file_is_said_once(
    picture: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out, bare = str(tmp_path / "print.tif"), ("--set", "wrap.turnover_mm=6", "--set", "wrap.ink_over_mm=4")
    assert main(["print", str(picture), "--out", out, *EDITS, *bare, "--json"]) == 0
    files = json.loads(capsys.readouterr().out)["files"]
    assert [[note["code"] for note in one["notes"]] for one in files] == [["marks-left-out"]] * 3
    assert main(["print", str(picture), "--out", out, *EDITS, *bare]) == 0
    prose = capsys.readouterr().out
    assert prose.count("No marks are drawn") == 1
    assert prose.index("No marks are drawn") > prose.index("print-3of3.tif")
    # Derived: 100.9 + 2 (20 + 6) by 150.9 + 52 mm, on whole pixels of 72 to the inch.
    saved = [f"Saved {one['file']}: {one['bytes']:,} bytes" for one in files]
    assert prose.splitlines()[:4] == [
        *saved,
        "Each file: 152.75 x 202.85 mm. Print it at 100 percent (“actual size”).",
    ]
    assert prose.count("pixels at") == prose.count("profile:") == 1


@pytest.mark.parametrize("command", ["clip", "intents"])
def test_figures_of_colours_are_all_panels(
    command: str, picture: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main([command, str(picture), *EDITS, "--json"]) == 0
    figures = json.loads(capsys.readouterr().out)
    if command == "clip":
        assert [one["name"] for one in figures["regions"]] == ["face", "top", "right", "bottom", "left"]
    else:
        assert figures["intents"]
