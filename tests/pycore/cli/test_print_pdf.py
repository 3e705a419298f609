"""Print files that are PDFs: groups, converted files, names in any script, what cannot be written."""

from __future__ import annotations

import io
import json
import re
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from PIL import Image, ImageCms

from pycore.cli.main import main

from ..printing.pdf import outside

pytestmark = pytest.mark.native

CMYK = Path(__file__).parents[1] / "colour" / "data" / "cmyk-v2.icc"
JOB = ["--set", "face.width_mm=210", "--set", "face.height_mm=297", "--set", "print.ppi=72"]


@pytest.fixture
def picture(tmp_path: Path) -> Path:
    path = tmp_path / "quay.png"
    values = np.random.default_rng(11).integers(0, 256, (300, 210, 3), dtype=np.uint8)
    Image.fromarray(values).save(path)
    return path


def _saved(picture: Path, out: Path, *more: str) -> None:
    assert main(["print", str(picture), "--out", str(out), *JOB, "--date", "2031-04-30", *more]) == 0


def test_the_exact_size_is_reported(
    picture: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "print.pdf"
    _saved(picture, out, "--json")
    figures = json.loads(capsys.readouterr().out)
    # Derived: 210 + 0.9 + 2 (20 + 25) = 300.9 mm, and 387.9 mm; at 72 ppi 852.9 and 1099.6 pixels.
    assert figures["size_mm"] == pytest.approx([300.9, 387.9], abs=1e-6)
    assert (figures["width_px"], figures["height_px"]) == (853, 1100)
    assert figures["ppi"] == pytest.approx([72, 72], abs=1e-6)
    assert (figures["format"], figures["bits"], figures["file"]) == ("PDF", 8, "print.pdf")
    assert figures["bytes"] == out.stat().st_size
    assert outside.boxes_mm(out)["TrimBox"] == pytest.approx([0, 0, 300.9, 387.9], abs=0.01)


def test_a_group_has_a_pdf_a_panel(picture: Path, tmp_path: Path) -> None:
    _saved(picture, tmp_path / "print.pdf", "--set", "group.panels=3")
    made = sorted(path.name for path in tmp_path.glob("*.pdf"))
    assert made == [f"print-{panel}of3.pdf" for panel in (1, 2, 3)]
    sizes = [outside.boxes_mm(tmp_path / name)["TrimBox"] for name in made]
    # Derived: 210 mm of face a panel, and 90.9 of sides, thickness and turn-over.
    assert all(size == pytest.approx([0, 0, 300.9, 387.9], abs=0.01) for size in sizes)
    pictures = [outside.picture(tmp_path / name) for name in made]
    assert (pictures[0] != pictures[1]).any()
    assert (pictures[1] != pictures[2]).any()


@pytest.mark.parametrize("bits", ["8", "16"])
def test_a_converted_file_names_the_printer_s_profile_as_its_output_intent(
    bits: str, picture: Path, tmp_path: Path
) -> None:
    out = tmp_path / "print.pdf"
    converted = ["--set", "print.convert=convert", "--set", f"print.bits={bits}", "--profile", str(CMYK)]
    _saved(picture, out, *converted)
    assert b"No syntax or stream encoding errors found" in outside.run("qpdf", "--check", out)
    (image,) = outside.images(out)
    assert (image["color"], image["comp"], image["bpc"]) == ("icc", "4", bits)
    assert outside.profile(out) == CMYK.read_bytes()
    catalogue = outside.dictionary(out, outside.referred(outside.trailer(out), "Root"))
    intent = re.search(r"/OutputIntents \[ << (.*?) >> \]", catalogue)
    assert intent is not None
    assert "/S /GTS_PDFX" in intent[1]
    embedded = outside.data(out, outside.referred(intent[1], "DestOutputProfile"))
    opened = ImageCms.getOpenProfile(io.BytesIO(embedded)).profile
    assert opened.xcolor_space.strip() == "CMYK"
    # Once in the file, for the picture and for the intent.
    shown = outside.dictionary(out, int(image["object"]))
    assert outside.referred(shown, "ColorSpace") == outside.referred(intent[1], "DestOutputProfile")


def test_a_picture_in_the_printer_s_profile_is_meant_for_it_only_where_that_is_asked(tmp_path: Path) -> None:
    picture = tmp_path / "quay.tif"
    values = np.random.default_rng(12).integers(0, 256, (60, 42, 4), dtype=np.uint8)
    Image.frombytes("CMYK", (42, 60), values.tobytes()).save(picture, icc_profile=CMYK.read_bytes())
    found = []
    for convert in ("keep", "convert"):
        out = tmp_path / f"{convert}.pdf"
        _saved(picture, out, "--set", f"print.convert={convert}", "--profile", str(CMYK))
        catalogue = outside.dictionary(out, outside.referred(outside.trailer(out), "Root"))
        found.append("/OutputIntents" in catalogue)
        assert outside.profile(out) == CMYK.read_bytes()
    assert found == [False, True]


@pytest.mark.parametrize(
    ("name", "shown"),
    [
        ("Ebbe früh", "Ebbe früh"),
        ("Χαμηλή παλίρροια", "Χαμηλή παλίρροια"),
        ("Тихий отлив", "Тихий отлив"),
        ("مد وجزر", "?? ????"),
        ("שפל", "???"),
        ("干潮 at dawn", "?? at dawn"),
        ("Low tide 🌊", "Low tide ?"),
    ],
)
def test_a_name_in_any_script(
    name: str, shown: str, picture: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / f"{name}.pdf"
    _saved(picture, out, "--set", f"name={name}", "--json")
    notes = [note["message"] for note in json.loads(capsys.readouterr().out)["notes"]]
    said = any("Latin, Greek and Cyrillic letters" in note for note in notes)
    assert said is (name != shown)
    assert outside.text(out) == ["TOP", f"{shown}, 210 x 297 mm, 20 mm deep, 2031-04-30"]
    # The document's title has every script.
    assert outside.title(out) == name
    if max(map(ord, name)) < 0x10000:
        # exiftool takes a sign of two halves for two signs.
        assert outside.facts(out)["Title"] == name
    fonts = outside.run("pdffonts", out).decode().splitlines()[2:]
    assert [line.split()[:4] for line in fonts] == [["LATGRC+DejaVuSans", "CID", "TrueType", "Identity-H"]]
    assert fonts[0].split()[4:7] == ["yes", "yes", "yes"]


def test_without_marks_no_font_is_embedded(picture: Path, tmp_path: Path) -> None:
    out = tmp_path / "print.pdf"
    _saved(picture, out, "--set", "print.marks=false")
    assert outside.run("pdffonts", out).decode().splitlines()[2:] == []
    assert outside.text(out) == []


def test_a_canvas_longer_than_a_page_may_be_is_refused(
    picture: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Derived: 5000 + 0.9 + 2 (20 + 25) = 5090.9 mm, more than 5080; 4989 mm of face are just under it."""
    out = tmp_path / "print.pdf"
    arguments = [
        "print",
        str(picture),
        "--out",
        str(out),
        "--set",
        "face.width_mm=50",
        "--set",
        "print.ppi=36",
    ]
    roll = ["--set", "sheet.width_mm=610", "--set", "sheet.height_mm=null"]
    assert main([*arguments, *roll, "--set", "face.height_mm=5000"]) == 2
    said = capsys.readouterr().err.strip()
    assert said.count("\n") == 0
    assert "A PDF's page is at most 5080 mm long, and this canvas has 140.9 x 5090.9 mm." in said
    assert sorted(path.name for path in tmp_path.iterdir()) == ["quay.png"]
    assert main([*arguments, *roll, "--set", "face.height_mm=4989"]) == 0
    assert outside.boxes_mm(out)["MediaBox"] == pytest.approx([0, 0, 140.9, 5079.9], abs=0.01)


def test_a_full_disk_is_one_sentence_and_leaves_nothing(picture: Path, tmp_path: Path) -> None:
    """A process that may write files of 300 kB only; the file would have more than 2 MB."""
    out = tmp_path / "print.pdf"
    out.write_bytes(b"of yesterday")
    code = (
        "import resource, sys; from pycore.cli.main import main; "
        "resource.setrlimit(resource.RLIMIT_FSIZE, (300_000, 300_000)); sys.exit(main(sys.argv[1:]))"
    )
    command = [sys.executable, "-c", code, "print", str(picture), "--out", str(out), *JOB]
    done = subprocess.run(command, capture_output=True, text=True)
    assert done.returncode == 2
    assert done.stdout == ""
    assert re.fullmatch(
        r".*The file cannot be written there \(print\.pdf: File too large\)\. .*\n", done.stderr
    )
    assert out.read_bytes() == b"of yesterday"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["print.pdf", "quay.png"]


def test_a_folder_that_is_not_there_is_named_before_the_work(
    picture: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "nowhere" / "print.pdf"
    assert main(["print", str(picture), "--out", str(out), *JOB]) == 2
    assert "print.pdf in a folder that does not exist" in capsys.readouterr().err
    assert not out.parent.exists()
