"""The sources name other files of the repository, and these are there."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

pytestmark = pytest.mark.native

ROOT = Path(__file__).resolve().parents[1]
FOLDERS = ("demo_data", "pycore", "web/build", "web/guidebook", "web/src", "web/tools")
ENDINGS = (".css", ".mjs", ".py", ".ts", ".tsx")
#: A path or a name of a source; no part of an address, of a package or of a call.
NAMED = re.compile(r"(?<![\w./@-])((?:[\w-]+/)*[\w-]+\.(?:css|mjs|py|tsx?))\b(?!\()")


def sources() -> list[Path]:
    """Every source of the repository but for the tests, which name files that they make up."""
    found = [one for folder in FOLDERS for one in (ROOT / folder).rglob("*") if one.suffix in ENDINGS]
    return [*found, *(ROOT / "web").glob("*.*s"), *ROOT.glob("*.md")]


def lacking(text: str, known: set[str]) -> list[str]:
    """What a text names and no file is called; a path may begin in any folder."""
    return [
        name
        for name in NAMED.findall(text)
        if not any(path == name or path.endswith(f"/{name}") for path in known)
    ]


def test_files_that_are_named_are_there() -> None:
    given = sources()
    tests = [one for one in (ROOT / "tests").rglob("*") if one.suffix in ENDINGS]
    known = {one.relative_to(ROOT).as_posix() for one in [*given, *tests, *(ROOT / "web").glob("*.py")]}
    # Pyodide's own, which a build copies.
    known.add("pyodide.mjs")
    wrong = {
        one.relative_to(ROOT).as_posix(): names
        for one in given
        if (names := lacking(one.read_text(encoding="utf-8"), known))
    }
    assert wrong == {}


def test_a_file_that_was_renamed_is_found() -> None:
    known = {"web/src/stage/look/pixels.ts"}
    assert lacking("mirrors `look_pixels.ts`", known) == ["look_pixels.ts"]
    assert lacking("mirrors `pixels.ts`, look/pixels.ts", known) == []
