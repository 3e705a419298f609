"""Bad files of every kind, in both languages, on one page: what happened, what is as it was, and what to do.

Wrong photographs of a wall stand in `test_wall.py` and `test_wall_client.py`.
"""

from __future__ import annotations

import base64
import io
import json
import re
import struct
import zipfile
from pathlib import Path
from typing import Final, NamedTuple

import pytest
from bench import CHANGE_MS, START_MS, TAKE_TEXT, Bench
from PIL import Image
from playwright.sync_api import Page, expect

from pycore.colour.illustrative.profile import illustrative_profile

pytestmark = pytest.mark.browser

#: The 3D view has no part in it.
WITHOUT_WALL = True

STRIP: Final = Path(__file__).resolve().parents[2] / "demo_data" / "strip.cgats.txt"


class BadFile(NamedTuple):
    """One case: the entry that the file is given to, its name, its bytes, and where the page answers."""

    entry: str
    name: str
    data: bytes
    place: str


PICTURE: Final = '[data-field="picture.file"] .error-text'
HEADER: Final = ".page-header > .error-text"
PROFILE: Final = '[data-field="colour.profile"] .error-text'
ANSWER: Final = '[data-field="answer"] .error-text'
STRIP_PLACE: Final = "#proof-strip .error-text"
SIZES: Final = "#sheet .error-text"


def png() -> bytes:
    out = io.BytesIO()
    Image.linear_gradient("L").save(out, format="PNG")
    return out.getvalue()


def png_of_size(width: int, height: int) -> bytes:
    """The head of a PNG that says it is so large, without its pixels."""
    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + struct.pack(">I", 13) + b"IHDR" + head + bytes(4)


def bundle(*members: tuple[str, bytes]) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        for name, data in members:
            archive.writestr(name, data)
    return out.getvalue()


def bad_files() -> list[BadFile]:
    """Every kind of file that the page opens, each wrong in the ways that people meet."""
    profile = illustrative_profile()
    foreign = json.dumps({"format": "another", "version": 1}).encode()
    strip = STRIP.read_bytes()
    pictures = {
        "empty.jpg": b"",
        "letter.jpg": b"Dear printer, no picture at all.\n" * 40,
        "cut.png": png()[:90],
        "huge.png": png_of_size(90_000, 90_000),
        "pieces.csv": b"name;width\nTide;300\n",
    }
    profiles = {"empty.icc": b"", "cut.icc": profile[: len(profile) // 2], "text.icc": b"no profile" * 40}
    jobs = {
        "list.json": b"[1, 2]",
        "typo.json": b'{"face": {"wdith_mm": 3}}',
        "newer.json": b'{"version": 7}',
        "cut.json": b'{"face": {',
        "latin.json": '{"name": "Fl\xfcgel"}'.encode("latin-1"),
    }
    bundles = {
        "none.zip": b"PK\x03\x04" + bytes(400),
        "foreign.zip": bundle(("bundle.json", foreign)),
        "empty.zip": bundle(),
        "outside.zip": bundle(("../evil.txt", b"x"), ("bundle.json", foreign)),
    }
    answers = {"yes.txt": b"I say yes, I think.", "long.txt": b"yes " * 40_000, "latin.txt": b"Ja, gr\xfcn"}
    sizes = {"list.json": b"[]", "newer.json": b'{"version": 9}', "cut.json": b'{"version": 1, "sheets": ['}
    # No two in a row are answered in the same words.
    tables = {"half.txt": strip[: len(strip) // 3], "words.txt": b"CGATS.17\nno table\n"}
    points = re.sub(rb"(\d)\.(\d)", rb"\1..\2", strip)
    kinds = (
        ("picture", pictures, PICTURE),
        ("profile", profiles, PROFILE),
        ("job", jobs, HEADER),
        ("job", bundles, HEADER),
        ("open-answer", answers, ANSWER),
        ("open-own-sizes", sizes, SIZES),
        ("open-strip-values", tables, STRIP_PLACE),
        ("open-measured", {**tables, "points.txt": points}, STRIP_PLACE),
    )
    return [BadFile(entry, name, data, at) for entry, files, at in kinds for name, data in files.items()]


#: How a language says that nothing else changed, and words that no sentence of the other language has.
KEPT: Final = {"en": "as it was|as they were", "de": "wie er war|wie sie waren"}
FOREIGN: Final = {
    "en": re.compile(r"\b(der|die|das|ist|und|Sie|wählen|verlangt)\b"),
    "de": re.compile(r"\b(the|must|be|is|it|with|choose|open|gave|and)\b", re.IGNORECASE),
}


#: Gives each file to its entry and waits for what the page says; returns that, and the job saved after it.
GIVE_ALL: Final = """async ([files, longestMs]) => {
  const saved = () => new Promise((resolve) => {
    const make = URL.createObjectURL;
    URL.createObjectURL = (blob) => {
      URL.createObjectURL = make;
      blob.text().then(resolve);
      return make.call(URL, blob);
    };
    document.querySelectorAll(".page-header-actions button")[4].click();
  });
  const found = [];
  for (const { entry, name, data, place } of files) {
    const said = () => document.querySelector(place)?.textContent;
    // What stood there is of the file before; the page takes it away before it reads another.
    const before = said();
    const given = new DataTransfer();
    given.items.add(new File([Uint8Array.from(atob(data), (one) => one.charCodeAt(0))], name));
    const input = document.querySelector(`input[data-open="${entry}"]`);
    input.files = given.files;
    input.dispatchEvent(new Event("change", { bubbles: true }));
    for (const begun = performance.now(); [undefined, before].includes(said()); ) {
      if (performance.now() - begun > longestMs) throw new Error(`nothing is said of ${entry} ${name}`);
      await new Promise((go) => setTimeout(go, 10));
    }
    found.push([said(), await saved()]);
  }
  return found;
}"""


def job_text(page: Page) -> str:
    page.evaluate(TAKE_TEXT)
    page.locator(".page-header-actions button").nth(4).press("Enter")
    text: str = page.evaluate("window.savedText")
    return text


def given_all(page: Page, files: list[BadFile]) -> list[tuple[str, str]]:
    """Give every file to its entry; returns what the page says of each, and the job after it."""
    given = [one._asdict() | {"data": base64.b64encode(one.data).decode()} for one in files]
    return [(said, job) for said, job in page.evaluate(GIVE_ALL, [given, CHANGE_MS])]


def test_each_bad_file_is_told_in_both_languages_and_changes_nothing(module_bench: Bench) -> None:
    bench = module_bench.start()
    page = bench.page
    told: dict[str, list[str]] = {}
    wrong: list[str] = []
    for language in ("en", "de"):
        if language == "de":
            page.locator("#language").get_by_label("Deutsch").click()
            page.wait_for_selector("html[lang=de][data-state=shown]", timeout=START_MS)
        page.locator('input[data-open="open-strip-values"]').set_input_files(STRIP)
        expect(page.locator("#strip-expected")).to_contain_text(STRIP.name)
        bench.settled()
        before = job_text(page)
        told[language] = []
        files = bad_files()
        for bad, (said, job) in zip(files, given_all(page, files), strict=True):
            told[language].append(said)
            # What happened, what is as it was, and what to do.
            whole = re.search(KEPT[language], said) and said.count(".") >= 3
            if not whole or FOREIGN[language].search(said.replace(bad.name, "")) or job != before:
                wrong.append(f"{language}: {bad.entry} {bad.name}: {said}")
    assert wrong == []
    english, german = told.values()
    assert [one for one, other in zip(english, german, strict=True) if one == other] == []
