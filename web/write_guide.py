"""Write what the guide shows and nobody makes by hand: its drawings and the table of a job's fields.

    python web/write_guide.py

It needs the core's libraries. Run it after a change of the fold, of the illustrative profile or of the job's
contract; a test fails until what is committed is what it writes.
"""

from __future__ import annotations

import re
import sys
from pathlib import Path
from typing import Final

ROOT: Final = Path(__file__).resolve().parents[1]
DRAWINGS: Final = ROOT / "web" / "src" / "guide" / "drawings"
GUIDE: Final = ROOT / "web" / "guide.html"

#: What stands between these two lines of the guide is written here.
_TABLE: Final = re.compile(
    r"(?<=<!-- fields: written by write_guide.py -->\n).*?(?=^ *<!-- end of fields -->)", re.S | re.M
)


def drawings() -> dict[str, str]:
    """Every drawing's text by its file's name."""
    from guidebook.colours import colour_drawings
    from guidebook.finishes import step_drawings
    from guidebook.words import word_drawings

    found = {f"{name}.svg": text for name, text in step_drawings()}
    for make in (word_drawings, colour_drawings):
        found |= {f"word-{name}.svg": text for name, text in make()}
    return found


def guide_text(text: str) -> str:
    """The guide with its table of fields as the contract has it.

    Raises
    ------
    ValueError
        The lines that hold the table are missing.
    """
    from guidebook.field_table import table_html

    if len(_TABLE.findall(text)) != 1:
        raise ValueError(f"{GUIDE.name} has no place for the table of fields")
    return _TABLE.sub(lambda _: table_html() + "\n", text)


def main() -> None:
    """Write them all."""
    DRAWINGS.mkdir(parents=True, exist_ok=True)
    made = drawings()
    for name, text in made.items():
        (DRAWINGS / name).write_text(text, encoding="utf-8", newline="\n")
    for path in DRAWINGS.iterdir():
        if path.name not in made:
            path.unlink()
    GUIDE.write_text(guide_text(GUIDE.read_text(encoding="utf-8")), encoding="utf-8", newline="\n")
    print(f"wrote {len(made)} drawings and the table of fields")


if __name__ == "__main__":
    sys.path[:0] = [str(ROOT), str(ROOT / "web")]
    main()
