"""What argparse says of a wrong option is said in the language that is asked for."""

from __future__ import annotations

import io
from collections.abc import Iterator

import pytest

from pycore.cli.main import main
from pycore.speech import speak_in


@pytest.fixture(autouse=True)
def english_again() -> Iterator[None]:
    """The other tests read English."""
    yield
    speak_in("en")


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (
            ["wall", "a.jpg", "b.jpg", "--out", "c.png"],
            "diese Angaben fehlen: --at; siehe tuckfold wall --help",
        ),
        (["layout", "--colour"], "unbekannte Angaben: --colour; siehe tuckfold --help"),
        (["fold", "--at", "x"], "--at: 'x' ist kein gültiger Wert (verlangt ist eine Zahl); siehe"),
        (["fold", "--at"], "--at: Dahinter gehört eine Angabe; siehe"),
        (
            ["transform", "--from", "srgb", "--to", "lab", "--intent", "vivid"],
            "--intent: 'vivid' gibt es hier nicht (zur Wahl stehen ",
        ),
    ],
)
def test_a_wrong_option_is_said_in_german(
    arguments: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as left:
        main(["--language", "de", *arguments])
    assert left.value.code == 2
    caught = capsys.readouterr().err
    assert caught.startswith(f"tuckfold: {said}")
    assert caught.count("\n") == 1


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
