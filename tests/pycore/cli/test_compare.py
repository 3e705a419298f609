"""`tuckfold compare` end to end; its figures are those of `tuckfold layout`."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image

from pycore.cli.main import main
from pycore.colour.illustrative.profile import illustrative_profile
from pycore.speech import speaking

from ..worked import WORKED_EDITS


@pytest.fixture
def picture(tmp_path: Path) -> str:
    """Strong colours, 3 to 2."""
    ramp = np.zeros((200, 300, 3), np.uint8)
    ramp[..., 0] = np.linspace(0, 255, 300)
    ramp[..., 2] = np.linspace(255, 0, 200)[:, np.newaxis]
    path = tmp_path / "ramp.png"
    Image.fromarray(ramp).save(path)
    return str(path)


def figures(capsys: pytest.CaptureFixture[str], *arguments: str) -> dict[str, Any]:
    assert main([*arguments, "--json"]) == 0
    found: dict[str, Any] = json.loads(capsys.readouterr().out)
    return found


@pytest.mark.parametrize(
    ("option", "values", "field", "textures"),
    [
        ("--depths", "18,38,50", "bars.depth_mm", 1),
        ("--fills", "mirror,run-on,drawn-out,plain", "sides.fill", 4),
        ("--finishes", "tucked,trimmed", "wrap.finish", 1),
        ("--bring-ins", "0,1", "colour.bring_in", 1),
    ],
)
def test_every_figure_is_that_of_layout(
    picture: str,
    capsys: pytest.CaptureFixture[str],
    option: str,
    values: str,
    field: str,
    textures: int,
) -> None:
    found = figures(capsys, "compare", picture, option, values, "--set", "face.width_mm=350")
    assert found["textures"] == textures
    assert len(found["variants"]) == len(values.split(","))
    for value, one in zip(values.split(","), found["variants"], strict=True):
        layout = figures(
            capsys,
            "layout",
            picture,
            "--set",
            "face.width_mm=350",
            "--set",
            f"{field}={value}",
        )
        notes = layout.pop("notes")
        # What the sheet could hold is no figure of a variant.
        layout.pop("largest_face")
        assert {name: one[name] for name in layout} == layout
        assert one["lost_share"] == layout["cut_away_share"]
        assert {note["code"] for note in notes} <= {note["code"] for note in one["notes"]}
        assert 0 <= one["outside_share"] <= 1


def test_depths_are_compared_where_nothing_is_named(picture: str, capsys: pytest.CaptureFixture[str]) -> None:
    found = figures(capsys, "compare", picture)
    assert [one["depth_mm"] for one in found["variants"]] == [18, 38, 50]


def test_profiles_are_read_from_files(
    picture: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "mine.icc"
    path.write_bytes(illustrative_profile())
    found = figures(capsys, "compare", picture, "--profiles", f"illustrative-matte,{path}")
    # The same canvas under two names: the same figures.
    first, second = found["variants"]
    assert first["outside_share"] == second["outside_share"] > 0
    assert second["profile"] == str(path)


def test_a_table_in_prose(picture: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", picture, "--depths", "18,38", *WORKED_EDITS]) == 0
    head, first, second = capsys.readouterr().out.splitlines()
    assert head.split("  ")[0] == "variant"
    # derived: 400 + 0.9 + 2 (18 + 25) and 300 + 0.9 + 2 (18 + 25) mm; 380 g/m2.
    assert "486.9 x 386.9" in first
    # derived: on 329 x 483 mm the shorter side is 57.9 mm too long, the longer 3.9.
    assert first.endswith("too small by 57.9 mm across and 3.9 mm along")
    assert "canvas alone  whole piece" in head
    # derived: bars (400 x 300 - 320 x 220) x 18 mm = 892,800 mm3 of 358.4 (85 percent of it) to 716.8
    # kg/m3: 272.0 to 640.0 g; canvas 71.6 g; 28 staples of 0.2 to 0.4 g; rings and wire 15 to 60 g: 364.2
    # to 782.8 g, which is 0.3 to 0.8 kg beside a piece of more than a kilogram.
    assert "  72 g  0.3 to 0.8 kg  " in first
    assert " kg  " in second
    assert "526.9 x 426.9" in second
    # derived: 3 to 2 cut to 400.9 to 300.9 leaves 0.8882 of the width.
    assert "11.2%" in first
    with speaking("en"):
        assert main(["--language", "de", "compare", picture, "--depths", "18,38", *WORKED_EDITS]) == 0
    first = capsys.readouterr().out.splitlines()[1]
    assert first.endswith("um 57,9 mm in der Breite und 3,9 mm in der Länge zu klein")


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["--depths", "18"], "--depths must be 2 to 4 values to compare; you gave 1."),
        (["--depths", "18,wide"], "--depths must be numbers with commas between them; you gave '18,wide'."),
        (["--depths", "18,18"], "--depths must be values that differ"),
        (["--fills", "mirror,mirrored"], "--fills must be one of"),
        (["--profiles", "illustrative-matte,none.icc"], "--profiles must be a file that can be read"),
    ],
)
def test_errors_in_one_line(
    picture: str, capsys: pytest.CaptureFixture[str], arguments: list[str], says: str
) -> None:
    assert main(["compare", picture, *arguments]) == 2
    said = capsys.readouterr().err
    assert said.startswith(f"tuckfold: {says}")
    assert said.count("\n") == 1
