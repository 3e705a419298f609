"""What the commands print in German has no English words and no English numbers in it."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from PIL import Image

from pycore.cli.main import main
from pycore.colour import illustrative
from pycore.speech.choice import speaking

MATTE = Path(illustrative.__file__).with_name("illustrative-matte.icc")

JOB = {
    "name": "Ebbe",
    "face": {"width_mm": 700, "height_mm": 400},
    "bars": {"depth_mm": 38, "wood": "spruce"},
    "group": {"panels": 2},
    "wrap": {"finish": "trimmed"},
    "sheet": {"width_mm": 610},
    "canvas": {"stretch_percent": [0.5, 0.5]},
}

#: Derived: words of the English texts that no German one has.
ENGLISH = {
    *("at", "back", "beech", "corner", "cut", "down", "face", "folded", "free", "from", "hidden", "layer"),
    *("left", "length", "of", "on", "panel", "picture", "right", "roll", "seen", "sheet", "side", "spruce"),
    *("tab", "the", "top", "turned", "turn-over", "with", "wood"),
}


@pytest.fixture(autouse=True)
def _english_afterwards() -> Iterator[None]:
    """A command leaves its language on, in which later tests of the same process would be answered."""
    with speaking("en"):
        yield


@pytest.mark.parametrize(
    "arguments",
    [
        ["layout", "--job", "job.json"],
        ["layout", "--job", "job.json", "--set", "sheet.height_mm=900"],
        ["plan", "job.json", "--pin", "Ebbe, 1 von 2=1,10,20,turned"],
        ["plan", "job.json", "--sheet", "1000x1000"],
        ["bars", "--job", "job.json"],
        ["fold", "--job", "job.json"],
        ["fold"],
        ["profile", str(MATTE)],
        ["clip", "quay.png"],
        ["bundle", "quay.png", "--out", "ebbe.zip"],
    ],
    ids=lambda one: one[0],
)
def test_german_has_no_english_in_it(
    arguments: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("job.json").write_text(json.dumps(JOB), encoding="utf-8")
    Image.linear_gradient("L").convert("RGB").save("quay.png")
    assert main(["--language", "de", *arguments]) == 0
    # The profile's name is its own, and a version is no number of anything.
    said = re.sub(r"Illustrative matte canvas.*measured\)|ICC-Version [\d.]+", "", capsys.readouterr().out)
    assert ENGLISH & set(re.findall(r"[\w-]+", said)) == set()
    # A point between figures parts thousands, never a tenth.
    assert re.findall(r"\d\.\d(?!\d\d)", said) == []


@pytest.mark.parametrize(
    ("arguments", "heads"),
    [
        (
            ["edges"],
            "Seite Gestaltung Unruhe Schnitt Doppel Bruch Winkel Echo Schlieren Knick Stummel Streifen "
            "besser",
        ),
        (["intents"], "Absicht flach Mittel 95 % Bunttonverschiebung"),
        (
            ["compare", "--depths", "18,20"],
            "Variante abgeschnitten Leinwandzuschnitt, mm außerhalb des Farbraums Leinwand allein "
            "ganzes Werk Bogen",
        ),
    ],
    ids=lambda one: one[0] if isinstance(one, list) else "",
)
def test_tables_have_german_heads(
    arguments: list[str], heads: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    picture = tmp_path / "slope.png"
    Image.linear_gradient("L").convert("RGB").save(picture)
    command, *options = arguments
    assert main(["--language", "de", command, str(picture), *options]) == 0
    lines = capsys.readouterr().out.splitlines()
    at = [" ".join(line.split()) for line in lines].index(heads)
    # The first row below them: its numbers have commas.
    assert re.search(r"\d,\d", lines[at + 1])
    assert re.search(r"\d\.\d", lines[at + 1]) is None
