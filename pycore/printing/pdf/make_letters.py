"""Make the letters that PDFs embed: a part of DejaVu Sans 2.37 with Latin, Greek and Cyrillic.

    python -m pycore.printing.pdf.make_letters pycore/printing/pdf/data

It needs the extra `letter-maker` and the font's file from Debian's package fonts-dejavu-core. It writes
`letters.ttf`, which holds outlines alone (no hints and no features), `letters.json`, the glyph and the width
of each letter in thousandths of an em, and the font's licence.
"""

from __future__ import annotations

import json
import sys
import unicodedata
from pathlib import Path
from typing import Final

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

FONT: Final = Path("/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf")

#: Of the Unicode blocks those with the alphabets in use: first and last code point.
BLOCKS: Final = (
    (0x20, 0x7E),  # Basic Latin
    (0xA0, 0xFF),  # Latin-1
    (0x100, 0x17F),  # Latin Extended-A
    (0x18F, 0x1B0),  # of Latin Extended-B: Azerbaijani, Vietnamese, African languages
    (0x1CD, 0x1DC),  # Pinyin
    (0x218, 0x21B),  # Romanian
    (0x259, 0x259),  # Azerbaijani
    (0x370, 0x3FF),  # Greek and Coptic
    (0x400, 0x45F),  # Cyrillic
    (0x490, 0x4FF),  # further Cyrillic
    (0x1E80, 0x1E85),  # Welsh
    (0x1EA0, 0x1EF9),  # Vietnamese
    (0x2010, 0x2026),  # dashes, quotation marks, dots
    (0x2030, 0x203A),  # per mille, primes, angle quotes
    (0x20AC, 0x20AC),  # euro
    (0x2116, 0x2116),  # numero sign
    (0x2122, 0x2122),  # trade mark
    (0x2212, 0x2212),  # minus
)
_KEPT_TABLES: Final = {"OS/2", "cmap", "glyf", "head", "hhea", "hmtx", "loca", "maxp", "name", "post"}
_COPYRIGHT, _FAMILY, _FULL_NAME, _VERSION, _LICENCE = 0, 1, 4, 5, 13


def make_letters(folder: Path) -> None:
    """Write the font and its table.

    Parameters
    ----------
    folder : Path
        It exists already.
    """
    font = TTFont(FONT, recalcTimestamp=False)
    has = font.getBestCmap()
    wanted = [code for first, last in BLOCKS for code in range(first, last + 1) if _is_letter(code, has)]
    options = Options(
        hinting=False,
        layout_features=[],
        name_IDs=[_COPYRIGHT, _FAMILY, _FULL_NAME, _VERSION, _LICENCE],
        glyph_names=False,
        notdef_outline=True,
        recalc_timestamp=False,
    )
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=wanted)
    subsetter.subset(font)
    for tag in set(font.keys()) - _KEPT_TABLES - {"GlyphOrder"}:
        del font[tag]
    font.save(folder / "letters.ttf", reorderTables=True)
    names = font["name"]
    licence = f"{names.getDebugName(_COPYRIGHT)}\n{names.getDebugName(_LICENCE)}"
    lines = [line.rstrip() for line in licence.splitlines()]
    (folder / "letters-licence.txt").write_text("\n".join(lines) + "\n", encoding="utf-8")
    table = json.dumps(_table(TTFont(folder / "letters.ttf")), ensure_ascii=False, separators=(",", ":"))
    (folder / "letters.json").write_text(table + "\n", encoding="utf-8")


def _is_letter(code: int, has: dict[int, str]) -> bool:
    # Marks that are put upon the letter before them need features that the font comes without.
    return code in has and unicodedata.category(chr(code)) not in ("Mn", "Me", "Cf", "Zl", "Zp")


def _table(font: TTFont) -> dict[str, object]:
    per_em: int = font["head"].unitsPerEm

    def thousandths(units: int) -> int:
        return round(units * 1000 / per_em)

    of_letter = font.getBestCmap()
    codes = sorted(of_letter)
    head, lines = font["head"], font["hhea"]
    return {
        "name": "DejaVuSans",
        "letters": "".join(map(chr, codes)),
        "glyphs": [font.getGlyphID(of_letter[code]) for code in codes],
        "widths": [thousandths(font["hmtx"][of_letter[code]][0]) for code in codes],
        "ascent": thousandths(lines.ascent),
        "descent": thousandths(lines.descent),
        "cap_height": thousandths(font["glyf"][of_letter[ord("H")]].yMax),
        "box": [thousandths(units) for units in (head.xMin, head.yMin, head.xMax, head.yMax)],
    }


if __name__ == "__main__":
    make_letters(Path(sys.argv[1]))
