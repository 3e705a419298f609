"""Every template that the sources say: the keys that the catalogue of each other language must have.

`python tests/speech_keys.py` lists them; `python tests/speech_keys.py missing` those without a German entry.
"""

from __future__ import annotations

import ast
import json
import re
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Final

ROOT: Final = Path(__file__).resolve().parents[1]
CATALOGUE: Final = ROOT / "pycore" / "speech" / "data" / "de.json"

#: Functions whose first argument is a key.
SPEAKERS: Final = ("say", "mark")

_IN_TYPESCRIPT: Final = re.compile(
    r"""(?<![.\w])(?:say|sayParts|mark)\(\s*("(?:[^"\\]|\\.)*"|'(?:[^'\\]|\\.)*')"""
)
_IN_MARKUP: Final = re.compile(r"\[\[([^\[\]]+)\]\]")


def python_keys(path: Path) -> Iterator[str]:
    """The keys of a source of the core."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in SPEAKERS:
            first = node.args[0] if node.args else None
            if isinstance(first, ast.Constant) and isinstance(first.value, str):
                yield first.value


def typescript_keys(path: Path) -> Iterator[str]:
    """The keys of a source of the page."""
    for found in _IN_TYPESCRIPT.finditer(path.read_text(encoding="utf-8")):
        quoted = found[1]
        if quoted.startswith("'"):
            quoted = '"' + quoted[1:-1].replace('\\"', '"').replace('"', '\\"').replace("\\'", "'") + '"'
        yield json.loads(quoted)


def keys() -> dict[str, list[str]]:
    """Every key with the sources that say it, in their order."""
    found: dict[str, list[str]] = {}
    sources = [
        *(
            (path, python_keys)
            for path in sorted((ROOT / "pycore").rglob("*.py"))
            if path.parent.name != "speech"
        ),
        *((path, typescript_keys) for path in sorted((ROOT / "web" / "src").rglob("*.ts*"))),
        (
            ROOT / "pycore" / "client" / "data" / "page.html",
            lambda path: _IN_MARKUP.findall(path.read_text()),
        ),
    ]
    for path, of in sources:
        for key in of(path):
            found.setdefault(key, []).append(path.relative_to(ROOT).as_posix())
    return found


def catalogue() -> dict[str, str]:
    """The German template for each English one."""
    words: dict[str, str] = json.loads(CATALOGUE.read_text(encoding="utf-8"))
    return words


if __name__ == "__main__":
    known = catalogue() if sys.argv[1:] == ["missing"] else {}
    listed = [json.dumps(key, ensure_ascii=False) for key in keys() if key not in known]
    sys.stdout.write("\n".join([*listed, f"{len(listed)} in all"]) + "\n")
