"""What is said of a wrong option, in the language that is asked for, and what no option may do."""

from __future__ import annotations

import io
import json
import sys
from collections.abc import Iterator
from importlib.abc import MetaPathFinder
from pathlib import Path

import pytest
from PIL import Image

from pycore.cli.main import main
from pycore.cli.start import run
from pycore.speech import speak_in

FACE_WIDTH = "Breite der Bildfl\N{LATIN SMALL LETTER A WITH DIAERESIS}che"


@pytest.fixture(autouse=True)
def english_again() -> Iterator[None]:
    """The other tests read English."""
    yield
    speak_in("en")


@pytest.mark.parametrize(
    ("arguments", "english", "german"),
    [
        (
            ["wall", "a.jpg", "b.jpg", "--out", "c.png"],
            "--at must be given; you gave nothing. See tuckfold wall --help.",
            "--at \N{EN DASH} verlangt: eine Angabe; angegeben: nichts. Siehe tuckfold wall --help.",
        ),
        (
            ["layout", "--colour"],
            "This command does not take --colour. See tuckfold layout --help.",
            "Dieser Befehl kennt --colour nicht. Siehe tuckfold layout --help.",
        ),
        (
            ["fold", "--at", "0,5"],
            "--at must be a number, with a point before its decimals; you gave '0,5'. See ",
            "--at \N{EN DASH} verlangt: eine Zahl, mit einem Punkt vor den Dezimalen; angegeben: '0,5'. ",
        ),
        (["fold", "--at"], "--at must be followed by a value; ", "--at \N{EN DASH} verlangt: dahinter eine"),
        (
            ["transform", "--from", "srgb", "--to", "lab", "--intent", "vivid"],
            "--intent must be one of 'perceptual', 'relative', ",
            "--intent \N{EN DASH} verlangt: einer von 'perceptual', 'relative', ",
        ),
        (
            ["compare", "--f", "mirror"],
            "--f must be one of --fills, --finishes; you gave --f. ",
            "--f \N{EN DASH} verlangt: einer von --fills, --finishes; angegeben: --f. ",
        ),
        (
            ["compare", "--fills", "mirror,fade", "--depths", "18,20"],
            "--depths must be given without --fills; you gave both. ",
            "--depths \N{EN DASH} verlangt: nicht zusammen mit --fills; ",
        ),
        (
            ["layout", "--job", "a.json", "--job", "b.json"],
            "--job must be given once; you gave it twice. Leave one of the two out.",
            "--job \N{EN DASH} verlangt: nur einmal; angegeben: zweimal. ",
        ),
        (
            ["page", "--port", "70000"],
            "--port must be a port from 0 to 65535; you gave '70000'. Write for example --port 8017.",
            "--port \N{EN DASH} verlangt: ein Port von 0 bis 65535; angegeben: '70000'. ",
        ),
        (
            ["layout", "--job", "none.json"],
            "--job must be a file that can be read; you gave 'none.json' (there is no such file or folder). ",
            "--job \N{EN DASH} verlangt: eine lesbare Datei; angegeben: 'none.json' (nicht vorhanden). ",
        ),
        (
            ["batch", "none.json", "--out", "none", "--plan-options", "none.json"],
            "--plan-options must be a file that can be read; you gave 'none.json' (there is no such ",
            "--plan-options \N{EN DASH} verlangt: eine lesbare Datei; angegeben: 'none.json' (nicht ",
        ),
        (
            ["layout", "--set", "face.width_mm=21,5"],
            "Face width must be 50 to 5000 mm; you gave '21,5'. Write 21.5, with a point.",
            f"{FACE_WIDTH} \N{EN DASH} verlangt: 50 bis 5000 mm; "
            "angegeben: '21,5'. Schreiben Sie 21.5, mit einem Punkt.",
        ),
        (
            ["layout", "--set", "face.width_mm="],
            "Face width must be 50 to 5000 mm; you gave nothing (null). ",
            f"{FACE_WIDTH} \N{EN DASH} verlangt: 50 bis 5000 mm; angegeben: nichts (null). ",
        ),
    ],
)
def test_a_wrong_option_is_one_sentence_in_either_language(
    arguments: list[str], english: str, german: str, capsys: pytest.CaptureFixture[str]
) -> None:
    for language, said in (("en", english), ("de", german)):
        assert main(["--language", language, *arguments]) == 2
        caught = capsys.readouterr().err
        assert caught.startswith(f"tuckfold: {said}")
        assert caught.count("\n") == 1


def test_a_wrong_option_is_an_object_too(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["wall", "a.jpg", "b.jpg", "--out", "c.png", "--json"]) == 2
    wrong = json.loads(capsys.readouterr().out)["error"]
    assert (wrong["code"], wrong["field"], wrong["got"]) == ("field", "--at", "nothing")


@pytest.mark.parametrize("path", ["quay.png", "./quay.png", "linked.png"])
def test_what_is_read_is_never_written_over(
    path: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """A photograph may have no copy: the print file does not take its place."""
    monkeypatch.chdir(tmp_path)
    Image.new("RGB", (60, 40), "teal").save("quay.png")
    (tmp_path / "linked.png").symlink_to("quay.png")
    Image.new("RGB", (60, 40), "teal").save("quay-2of3.png")
    before = {one.name: one.read_bytes() for one in tmp_path.iterdir()}
    for arguments in (
        ["print", "quay.png", "--out", path],
        ["proof", "quay.png", "--out", path],
        ["wall", "quay-2of3.png", "quay.png", "--at", "0,0", "--out", path],
        ["print", "quay-2of3.png", "--out", "quay.png", "--set", "group.panels=3"],
    ):
        assert main(arguments) == 2
        said = capsys.readouterr().err
        name = "PHOTO" if arguments[0] == "wall" else "PICTURE"
        assert said.startswith(f"tuckfold: --out must be another file than {name}, which would be lost; you ")
    assert {one.name: one.read_bytes() for one in tmp_path.iterdir()} == before


def test_a_file_that_may_not_be_read_is_no_wrong_name(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def refuse(path: Path) -> bytes:
        raise PermissionError(13, "Permission denied", str(path))

    monkeypatch.setattr(Path, "read_bytes", refuse)
    assert main(["layout", "quay.jpg"]) == 2
    assert capsys.readouterr().err.endswith("(permission denied). Ask for the right to read it.\n")


def test_ctrl_c_is_heard_while_the_program_starts(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    class Interrupted(MetaPathFinder):
        """Ctrl-C comes while the command line is looked for."""

        @staticmethod
        def find_spec(name: str, *_: object) -> None:
            if name == "pycore.cli.main":
                raise KeyboardInterrupt

    monkeypatch.delitem(sys.modules, "pycore.cli.main")
    monkeypatch.setattr(sys, "meta_path", [Interrupted, *sys.meta_path])
    with pytest.raises(SystemExit) as left:
        run()
    assert left.value.code == 1
    assert capsys.readouterr().err == "tuckfold: Stopped.\n"


def test_a_profile_that_is_missing_is_told_of_what_names_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    Image.new("RGB", (60, 40), "teal").save("quay.png")
    assert main(["clip", "quay.png", "--set", "colour.profile=mine.icc"]) == 2
    assert "mine.icc" in capsys.readouterr().err.removeprefix("tuckfold: The canvas profile must be a file ")
    assert main(["clip", "quay.png", "--profile", "mine.icc"]) == 2
    assert capsys.readouterr().err.startswith("tuckfold: --profile must be a file ")


@pytest.mark.parametrize("colour", ["255 0 0", "0 -0.1 0"])
def test_a_device_value_out_of_range_is_refused(
    colour: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """CIELAB has no such range."""
    monkeypatch.setattr("sys.stdin", io.StringIO(f"0 0 0\n{colour}\n"))
    assert main(["transform", "--from", "srgb", "--to", "lab", "--intent", "relative"]) == 2
    assert capsys.readouterr().err.startswith(
        f"tuckfold: Colour 2 must be numbers from 0 to 1; you gave '{colour}'. "
    )
    monkeypatch.setattr("sys.stdin", io.StringIO("50 -20 30\n"))
    assert main(["transform", "--from", "lab", "--to", "srgb", "--intent", "relative"]) == 0


def test_a_colour_that_is_none_is_said_in_german(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("1 2\n"))
    assert (
        main(["--language", "de", "transform", "--from", "srgb", "--to", "lab", "--intent", "relative"]) == 2
    )
    # Three numbers are several: a verb in the singular would be wrong.
    assert capsys.readouterr().err == (
        "tuckfold: Zeile 1 \N{EN DASH} verlangt: 3 Zahlen; angegeben: '1 2'. "
        "Schreiben Sie eine Farbe je Zeile.\n"
    )
