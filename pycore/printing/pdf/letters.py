"""Letters that a PDF embeds: what can be lettered, how wide it is, and the font's objects in the file.

The font is a part of DejaVu Sans with Latin, Greek and Cyrillic letters; `make_letters.py` makes it.
"""

from __future__ import annotations

import json
import unicodedata
from collections.abc import Mapping
from functools import cache
from importlib import resources
from typing import Any, Final

from pycore.printing.pdf.objects import PdfObjects, numbers

#: Above and below the baseline a line of these letters needs so much of their size (the font's own measure).
LINE_ABOVE: Final = 0.928
LINE_BELOW: Final = 0.236

#: 9.6.4: six capitals before the name say that a part of the font is embedded.
_TAG = "LATGRC+"
#: 9.8.2: without serifs, and with letters outside the Latin standard set ("symbolic").
_SYMBOLIC = 1 << 2
#: Thickness of upright strokes, thousandths of an em; 9.8.1 asks for it.
_STEM = 90

_TO_UNICODE_HEAD = """/CIDInit /ProcSet findresource begin
12 dict begin
begincmap
/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def
/CMapName /Adobe-Identity-UCS def
/CMapType 2 def
1 begincodespacerange
<0000> <FFFF>
endcodespacerange
"""
_TO_UNICODE_END = """endcmap
CMapName currentdict /CMap defineresource pop
end
end
"""
#: A CMap's section has at most so many lines.
_LINES_A_SECTION = 100


def lettered(text: str) -> str:
    r"""Replace what the letters do not hold by question marks, and line breaks by spaces.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str
        One line. A letter and the accents behind it become one letter where Unicode has it, or one question
        mark; so does an emoji with what belongs to it.

    Examples
    --------
    >>> lettered("Ebbe \u6f6e, fru\u0308h, Прилив")
    'Ebbe ?, früh, Прилив'
    """
    flat = " ".join(unicodedata.normalize("NFC", text).split())
    known, done = _glyphs(), ""
    for sign in flat:
        if sign in known:
            done += sign
        elif unicodedata.category(sign) in ("Mn", "Me", "Cf", "Cc") and done:
            # It belongs to the sign before it, which is then not what was meant.
            done = f"{done[:-1]}?" if done[-1] != " " else f"{done}?"
        else:
            done += "?"
    return done


def width_in_ems(text: str) -> float:
    """How wide a line is, in parts of the letters' size.

    Parameters
    ----------
    text : str
        As from `lettered`.

    Returns
    -------
    float

    Examples
    --------
    >>> width_in_ems("TOP")
    2.001
    """
    widths = _table()["widths"]
    places = _glyphs()
    return float(sum(widths[places[sign][1]] for sign in text)) / 1000


def codes(text: str) -> str:
    """A line as the string that shows it: two bytes a glyph, in hexadecimal (9.7.5.2, Identity-H).

    Parameters
    ----------
    text : str
        As from `lettered`.

    Returns
    -------
    str

    Examples
    --------
    >>> codes("TOP")
    '<003500300031>'
    """
    known = _glyphs()
    return f"<{''.join(f'{known[sign][0]:04X}' for sign in text)}>"


def add_letters(file: PdfObjects, used: str) -> int:
    """Write the font into a file (9.7.4, 9.8, 9.9, 9.10.3).

    Parameters
    ----------
    file : PdfObjects
    used : str
        All letters that the file shows, as from `lettered`.

    Returns
    -------
    int
        The number of the font's object.
    """
    table, known = _table(), _glyphs()
    name = _TAG + table["name"]
    data = resources.files(__package__).joinpath("data", "letters.ttf").read_bytes()
    program = file.add_stream(f"/Length1 {len(data)}", data)
    descriptor = file.add(
        f"<< /Type /FontDescriptor /FontName /{name} /Flags {_SYMBOLIC} /FontBBox {numbers(table['box'])} "
        f"/ItalicAngle 0 /Ascent {table['ascent']} /Descent {table['descent']} "
        f"/CapHeight {table['cap_height']} /StemV {_STEM} /FontFile2 {program} 0 R >>"
    )
    signs = sorted(set(used), key=lambda sign: known[sign])
    widths = " ".join(f"{known[sign][0]} [{table['widths'][known[sign][1]]}]" for sign in signs)
    descendant = file.add(
        f"<< /Type /Font /Subtype /CIDFontType2 /BaseFont /{name} "
        "/CIDSystemInfo << /Registry (Adobe) /Ordering (Identity) /Supplement 0 >> "
        f"/FontDescriptor {descriptor} 0 R /W [{widths}] /CIDToGIDMap /Identity >>"
    )
    to_unicode = file.add_stream("", _to_unicode(signs).encode("ascii"))
    return file.add(
        f"<< /Type /Font /Subtype /Type0 /BaseFont /{name} /Encoding /Identity-H "
        f"/DescendantFonts [{descendant} 0 R] /ToUnicode {to_unicode} 0 R >>"
    )


def _to_unicode(signs: list[str]) -> str:
    # One glyph may stand for two signs; the first is named.
    named = {_glyphs()[sign][0]: sign for sign in reversed(signs)}
    lines = [f"<{glyph:04X}> <{ord(sign):04X}>\n" for glyph, sign in sorted(named.items())]
    sections = [lines[first : first + _LINES_A_SECTION] for first in range(0, len(lines), _LINES_A_SECTION)]
    body = "".join(f"{len(one)} beginbfchar\n{''.join(one)}endbfchar\n" for one in sections)
    return _TO_UNICODE_HEAD + body + _TO_UNICODE_END


@cache
def _table() -> dict[str, Any]:
    text = resources.files(__package__).joinpath("data", "letters.json").read_text(encoding="utf-8")
    table: dict[str, Any] = json.loads(text)
    return table


@cache
def _glyphs() -> Mapping[str, tuple[int, int]]:
    """Of each letter its glyph and its place in the table."""
    table = _table()
    return {sign: (table["glyphs"][place], place) for place, sign in enumerate(table["letters"])}
