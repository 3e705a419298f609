"""`--presets` and `--take` of the job's commands, and names on `tuckfold plan`."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from pycore.cli.main import main

SHOP = {
    "version": 1,
    "sheets": [{"name": "Matte", "width_mm": 594, "height_mm": 841, "price_per_m2": 20}],
    "rolls": [{"name": "610", "width_mm": 1118}],
    "bars": [{"name": "Deep", "depth_mm": 38, "width_mm": 45, "price_per_m": 3}],
}


@pytest.fixture
def shop(tmp_path: Path) -> str:
    file = tmp_path / "shop.json"
    file.write_text(json.dumps(SHOP))
    return str(file)


def test_a_job_takes_a_preset_and_an_edit_comes_last(shop: str, capsys: pytest.CaptureFixture[str]) -> None:
    asked = ["bars", "--presets", shop, "--take", "bars=Deep"]
    assert main([*asked, "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert found["section_mm"] == [45, 38]
    # Derived: two bars of 300 mm and two of 200 mm at 3 a metre.
    assert found["bars_cost"] == pytest.approx(3)
    assert main([*asked, "--set", "bars.depth_mm=20"]) == 0
    prose = capsys.readouterr().out
    assert "45 x 20 mm bar" in prose
    assert "cost of the bars   3.00, braces apart" in prose


def test_the_file_of_presets_is_read_once(shop: str, monkeypatch: pytest.MonkeyPatch) -> None:
    read = []
    read_bytes = Path.read_bytes

    def counted(path: Path) -> bytes:
        read.append(str(path))
        return read_bytes(path)

    monkeypatch.setattr(Path, "read_bytes", counted)
    assert main(["bars", "--presets", shop, "--take", "bars=Deep"]) == 0
    assert read.count(shop) == 1


def test_a_plan_takes_sheets_and_rolls_by_name(
    shop: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = tmp_path / "quay.json"
    job.write_text("{}")
    assert main(["plan", str(job), "--presets", shop, "--sheet", "Matte", "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert (found["sheets"][0]["stock"], found["sheets"][0]["width_mm"]) == ("Matte", 594)
    # Derived: one sheet of 0.594 x 0.841 m at 20 a square metre.
    assert found["figures"]["cost"] == pytest.approx(9.99108)
    # A name comes before a size that reads the same; what is no name is a size.
    assert main(["plan", str(job), "--presets", shop, "--roll", "610", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["sheets"][0]["width_mm"] == 1118
    assert main(["plan", str(job), "--presets", shop, "--sheet", "600x800", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["sheets"][0]["width_mm"] == 600


@pytest.mark.parametrize(
    ("asked", "message"),
    [
        (["bars", "--take", "bars=Deep"], "--take goes with --presets."),
        (["bars", "--presets", "{shop}"], "--presets goes with --take."),
        (
            ["bars", "--presets", "{shop}", "--take", "wood=Deep"],
            "--take must be sheet=NAME, roll=NAME, bars=NAME or canvas=NAME; you gave 'wood=Deep'.",
        ),
        (["bars", "--presets", "{shop}", "--take", "bars=Oak"], "no entry 'Oak' among their bars"),
        (["plan", "{job}", "--presets", "{shop}", "--sheet", "Gloss"], "no entry 'Gloss' among their sheets"),
        (["plan", "{job}", "--presets", "{absent}"], "--presets must be a file that can be read"),
        (["plan", "{job}", "--presets", "{job}"], "The version of the presets must be 1; you gave nothing."),
    ],
)
def test_a_wrong_choice_is_one_line(
    asked: list[str], message: str, shop: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = tmp_path / "quay.json"
    job.write_text("{}")
    places = {"shop": shop, "job": str(job), "absent": str(tmp_path / "none.json")}
    assert main([one.format(**places) for one in asked]) == 2
    said = capsys.readouterr().err
    assert message in said
    assert said.count("\n") == 1
