"""`tuckfold profile`, `clip`, `intents`, `proof` and `transform` end to end."""

from __future__ import annotations

import io
import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image

import pycore.colour
from pycore.cli.main import main
from pycore.colour.gamut.device_gamut import clipping, make_device_gamut
from pycore.colour.icc.endpoints import Standard
from pycore.colour.icc.profile import parse_profile
from pycore.colour.icc.transform import make_transform
from pycore.colour.link.proof import clip_request
from pycore.colour.spaces.arrays import FloatArray
from pycore.contract.job import Intent, Job
from pycore.proofing.clip_scale import SCALE_FULL_DE, SCALE_STEPS, clip_scale

MATTE = str(Path(pycore.colour.__file__).parent / "illustrative" / "illustrative-matte.icc")
JOB = ["--set", "face.width_mm=160", "--set", "face.height_mm=120", "--set", "bars.depth_mm=20"]


@pytest.fixture
def picture(tmp_path: Path) -> str:
    """Half grey, half red."""
    pixels = np.full((120, 160, 3), 128, np.uint8)
    pixels[:, 80:] = (255, 0, 0)
    path = tmp_path / "halves.png"
    Image.fromarray(pixels).save(path)
    return str(path)


def run(capsys: pytest.CaptureFixture[str], *arguments: str) -> dict[str, Any]:
    assert main([*arguments, "--json"]) == 0
    found: dict[str, Any] = json.loads(capsys.readouterr().out)
    return found


def test_profile(capsys: pytest.CaptureFixture[str]) -> None:
    found = run(capsys, "profile", MATTE)
    assert found["device"] == "RGB"
    assert found["description"] == "Illustrative matte canvas (invented, not measured)"
    # Regression: the shipped file's, to half of the digit that is printed; `test_mesh.py` has it by another
    # library too.
    assert found["gamut_volume"] == pytest.approx(312_316, abs=0.5)
    assert main(["profile", MATTE]) == 0
    assert "gamut   312,316 cubic Lab units" in capsys.readouterr().out


def test_clip(picture: str, capsys: pytest.CaptureFixture[str]) -> None:
    found = run(capsys, "clip", picture, "--profile", MATTE, *JOB)
    parts = {part["name"]: part for part in found["regions"]}
    # Derived: half of the face and all of the right side are red.
    assert parts["face"]["share"] == pytest.approx(0.5, abs=0.01)
    assert parts["right"]["share"] == pytest.approx(1, abs=0.01)
    assert parts["left"]["share"] == 0
    assert found["groups"][0]["name"] == "red"


def test_clip_takes_the_invented_canvas_and_says_so(picture: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["clip", picture, *JOB]) == 0
    assert "an invented matte canvas, not a measured one" in capsys.readouterr().out


def test_intents(picture: str, capsys: pytest.CaptureFixture[str]) -> None:
    found = run(capsys, "intents", picture, "--profile", MATTE, *JOB)
    assert len(found["intents"]) == 7
    assert found["recommended"]["reason"]


def proofed(
    view: str, picture: str, folder: Path, capsys: pytest.CaptureFixture[str]
) -> tuple[FloatArray, FloatArray]:
    """The grey and the red of a written proof, 0 to 255."""
    out = folder / "proof.png"
    found = run(capsys, "proof", picture, "--profile", MATTE, "--out", str(out), "--view", view, *JOB)
    with Image.open(io.BytesIO(out.read_bytes())) as image:
        assert image.size == (found["width_px"], found["height_px"])
        middle = image.height // 2
        grey, red = (image.getpixel((image.width * part // 8, middle)) for part in (3, 6))
    return np.array(grey, np.float64), np.array(red, np.float64)


def test_a_proof_shows_the_printed_colours(
    picture: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    grey, red = proofed("printed", picture, tmp_path, capsys)
    # Derived: to the canvas as the job asks, and back with its white as the screen's. The engine is evaluated
    # exactly here; the proof goes through a table whose nodes hit the corners of the cube, and rounds.
    canvas, colour = parse_profile(Path(MATTE).read_bytes()), Job().colour
    there = make_transform(
        Standard.SRGB,
        canvas,
        intent=Intent(colour.intent),
        black_point_compensation=colour.black_point_compensation,
    )
    back = make_transform(canvas, Standard.SRGB, intent=Intent.RELATIVE, black_point_compensation=False)
    expected = there.then(back)(np.array([[128, 128, 128], [255, 0, 0]]) / 255.0) * 255.0
    assert np.abs(np.stack([grey, red]) - expected).max() <= 1.0
    # The tolerance is far smaller than what printing does to the red of the file.
    assert np.abs(expected[1] - np.array([255.0, 0.0, 0.0])).min() > 15.0


def test_a_clip_map_shows_how_far_a_colour_is_lost(
    picture: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    grey, red = proofed("clip-map", picture, tmp_path, capsys)
    # Derived: what prints true is grey: 150 + luma x 100 / 255, with a luma of 134.
    assert grey.tolist() == [203.0, 203.0, 203.0]
    # Derived: the scale's colour at the difference of red, or its neighbour's: 8 bits step by 0.2 dE00, the
    # scale by 15 / 63.
    gamut, colour = make_device_gamut(parse_profile(Path(MATTE).read_bytes())), Job().colour
    request = clip_request(
        Standard.SRGB,
        gamut,
        intent=Intent(colour.intent),
        black_point_compensation=colour.black_point_compensation,
    )
    lost = clipping(gamut, request(np.array([[1.0, 0.0, 0.0]]))).difference[0]
    place = lost / SCALE_FULL_DE * (SCALE_STEPS - 1)
    assert 1 < place < SCALE_STEPS - 2
    near = round(place)
    assert red.tolist() in clip_scale()[near - 1 : near + 2].astype(float).tolist()


def test_transform_white_is_the_connection_space_s(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("1 1 1\n\n0, 0, 0\n"))
    assert main(["transform", "--from", "srgb", "--to", "lab", "--intent", "relative"]) == 0
    white, black = (
        [float(one) for one in line.split()] for line in capsys.readouterr().out.strip().splitlines()
    )
    # Published: ICC.1:2022, the media white is L* 100 in the connection space.
    assert white == pytest.approx([100, 0, 0], abs=5e-3)
    assert black == pytest.approx([0, 0, 0], abs=5e-9)


def test_transform_there_and_back(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("60 10 -5\n"))
    there = run(capsys, "transform", "--from", "lab", "--to", MATTE, "--intent", "relative")
    values = there["values"][0]
    monkeypatch.setattr("sys.stdin", io.StringIO(" ".join(map(str, values))))
    back = run(capsys, "transform", "--from", MATTE, "--to", "lab", "--intent", "relative")
    # In gamut, so the round trip is near: the tables agree to well under one unit.
    assert back["values"][0] == pytest.approx([60, 10, -5], abs=0.7)


@pytest.mark.parametrize(
    ("arguments", "typed", "said"),
    [
        (
            ["transform", "--from", "srgb", "--to", "lab", "--intent", "relative"],
            "1 1\n",
            "Line 1 must be 3 numbers; you gave '1 1'.",
        ),
        (
            ["transform", "--from", "srgb", "--to", "lab", "--intent", "relative"],
            "1 nan 1\n",
            "Line 1 must be 3 numbers",
        ),
        (
            ["transform", "--from", "none.icc", "--to", "lab", "--intent", "relative"],
            "",
            "--from must be a file",
        ),
        (["transform", "--from", "srgb", "--to", "lab", "--intent", "vivid"], "", "--intent must be one of"),
        (["profile", __file__], "", "The file is no ICC profile"),
        (["proof", "x.jpg", "--out", "x.tif"], "", "--out must be"),
    ],
)
def test_what_is_wrong_is_one_line(
    arguments: list[str],
    typed: str,
    said: str,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO(typed))
    try:
        status = main(arguments)
    except SystemExit as left:
        status = int(str(left.code))
    caught = capsys.readouterr()
    assert status == 2
    assert said in caught.err
    assert caught.err.count("\n") == 1


def test_print_converts(picture: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "out.tif"
    arguments = ["print", picture, "--out", str(out), "--profile", MATTE, *JOB]
    found = run(capsys, *arguments, "--set", "print.convert=convert", "--set", "print.ppi=72")
    assert found["profile_name"] == "Illustrative matte canvas (invented, not measured)"
    with Image.open(io.BytesIO(out.read_bytes())) as image:
        assert image.info["icc_profile"] == Path(MATTE).read_bytes()
