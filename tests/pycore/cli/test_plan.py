"""`tuckfold plan`: job files in; places, cuts and cost out."""

from __future__ import annotations

import json
import subprocess
import sys
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest

from pycore.cli.main import main


def jobs(folder: Path, *names: str) -> list[str]:
    """A job file of each name, of the default canvas: 390.9 x 290.9 mm (derived in test_make.py)."""
    files = [folder / f"{name}.json" for name in names]
    for name, file in zip(names, files, strict=True):
        file.write_text(json.dumps({"name": name}))
    return [str(file) for file in files]


def test_figures_of_several_jobs(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    files = jobs(tmp_path, "quay", "reef")
    asked = ["plan", *files, "--roll", "1118", "--price", "20", "--copies", "reef=2"]
    assert main([*asked, "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    (length,) = found["sheets"]
    assert sorted(one["name"] for one in length["pieces"]) == ["quay", "reef, copy 1", "reef, copy 2"]
    # Derived: three canvases turned lie beside one another; 1.118 m x 0.3909 m at 20 a square metre.
    assert found["figures"]["roll_length_mm"] == pytest.approx(390.9)
    assert found["figures"]["cost"] == pytest.approx(8.7405, abs=5e-5)
    assert main(asked) == 0
    prose = capsys.readouterr().out
    assert prose.startswith("3 canvases on 1 length of roll, 3 cuts.")
    assert "cut 2 down, 290.9 mm from the left, from 0.0 to 390.9 mm\n" in prose
    assert "cost               8.74" in prose


def test_a_job_without_a_name_has_that_of_its_file(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "low tide.json"
    file.write_text("{}")
    assert main(["plan", str(file), "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["sheets"][0]["pieces"][0]["job"] == "low tide"


def test_options_from_a_file_and_a_pin(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    options = tmp_path / "shop.json"
    options.write_text(json.dumps({"stocks": [{"name": "wide roll", "width_mm": 1118}], "gap_mm": 4}))
    files = jobs(tmp_path, "quay", "reef")
    assert (
        main(
            [
                "plan",
                *files,
                "--options",
                str(options),
                "--pin",
                "reef=1,300,50,turned",
                "--gap",
                "6",
                "--json",
            ]
        )
        == 0
    )
    (length,) = json.loads(capsys.readouterr().out)["sheets"]
    lying = {one["name"]: one for one in length["pieces"]}
    assert length["stock"] == "wide roll"
    assert (lying["reef"]["x_mm"], lying["reef"]["y_mm"], lying["reef"]["turned"]) == (300, 50, True)


def test_the_drawing_is_to_scale(tmp_path: Path) -> None:
    out = tmp_path / "plan.svg"
    assert main(["plan", *jobs(tmp_path, "quay & reef"), "--roll", "610", "--out", str(out)]) == 0
    drawn = ET.fromstring(out.read_text())
    rectangles = [one.attrib for one in drawn.iter("{http://www.w3.org/2000/svg}rect")]
    # Derived: the canvas lies unturned, since that takes less of a roll of 610 mm.
    assert any((one["width"], one["height"]) == ("390.9", "290.9") for one in rectangles)
    assert "quay & reef" in [one.text for one in drawn.iter("{http://www.w3.org/2000/svg}text")]


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (["--roll", "0"], "The width of a sheet or roll must be above 0 to 5000 mm; you gave 0."),
        (
            ["--sheet", "200x200"],
            "'quay' needs 390.9 x 290.9 mm of canvas, which does not fit on the 200 x 200",
        ),
        (
            ["--roll", "610", "--price", "-3"],
            "The price of a square metre must be 0 to 1000000; you gave -3.",
        ),
        (["--sheet", "610"], "--sheet must be a width and a height in mm"),
        (["--margin", "3"], "--margin goes with --sheet or --roll"),
        (["--roll", "610", "--margin", "3,3"], "--margin must be one number, or four"),
        (["--copies", "reef=2"], "--copies must be the name of a job; you gave 'reef'"),
        (["--copies", "0"], "The number of copies must be 1 to 1000; you gave 0."),
        (["--pin", "quay=1,0"], "--pin must be PIECE=SHEET,X,Y"),
        (["--out", "plan.txt"], "--out must be a file that ends in .svg"),
        (["--options", "none.json"], "--options must be a file that can be read"),
    ],
)
def test_bad_options_are_one_sentence(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], options: list[str], said: str
) -> None:
    assert main(["plan", *jobs(tmp_path, "quay"), *options]) == 2
    err = capsys.readouterr().err
    assert said in err
    assert err.count("\n") == 1


def test_the_file_of_options_is_a_json_object_without_double_keys(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    options = tmp_path / "shop.json"
    for content, got in (
        (b'{"gap_mm": 1, "gap_mm": 4}', "the key 'gap_mm' stands twice"),
        (b"{", "line 1, column 2"),
        (b"[]", "you gave []"),
        (b"\xff", "which is not text"),
    ):
        options.write_bytes(content)
        for command, option in (("plan", "--options"), ("batch", "--plan-options")):
            out = [] if command == "plan" else ["--out", str(tmp_path / "out")]
            assert main([command, *jobs(tmp_path, "quay"), option, str(options), *out]) == 2
            said = capsys.readouterr().err
            assert f"{option} must be a JSON object with a plan's options; " in said
            assert got in said


def test_bad_jobs_are_one_sentence(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (file,) = jobs(tmp_path, "quay")
    assert main(["plan", file, file]) == 2
    assert "Two jobs have the name 'quay'." in capsys.readouterr().err
    (tmp_path / "bad.json").write_text('{"bars": {"depth_mm": 3}}')
    assert main(["plan", file, str(tmp_path / "bad.json")]) == 2
    assert "bad.json: Bar depth must be 6 to 100 mm; you gave 3." in capsys.readouterr().err


@pytest.mark.native
def test_no_picture_library_is_loaded(tmp_path: Path) -> None:
    code = (
        "import sys; from pycore.cli.main import main; main(sys.argv[1:]); "
        "print(sorted({'numpy', 'PIL'} & set(sys.modules)))"
    )
    ran = subprocess.run(
        [sys.executable, "-c", code, "plan", *jobs(tmp_path, "quay"), "--json"],
        capture_output=True,
        text=True,
        check=True,
    )
    assert ran.stdout.splitlines()[-1] == "[]"
