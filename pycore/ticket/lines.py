"""Text for the ticket: broken into lines, and what its letters do not hold."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from typing import Final

from pycore.conventions import MM_PER_INCH
from pycore.printing.pdf.letters import lettered, width_in_ems
from pycore.speech import join_said, say
from pycore.speech.figures import NO_BREAK, unparted

MM_PER_POINT: Final = MM_PER_INCH / 72

_CUT_OFF: Final = "\N{HORIZONTAL ELLIPSIS}"

#: Scripts as Unicode's character names begin, and what a reader calls them.
_SCRIPTS: Final = {
    "ARABIC": say("Arabic"),
    "ARMENIAN": say("Armenian"),
    "BENGALI": say("Bengali"),
    "CJK": say("Chinese or Japanese"),
    "DEVANAGARI": say("Devanagari"),
    "ETHIOPIC": say("Ethiopic"),
    "GEORGIAN": say("Georgian"),
    "HANGUL": say("Korean"),
    "HEBREW": say("Hebrew"),
    "HIRAGANA": say("Japanese"),
    "KATAKANA": say("Japanese"),
    "TAMIL": say("Tamil"),
    "THAI": say("Thai"),
}
_KANA: Final = frozenset({"HIRAGANA", "KATAKANA"})


@dataclass(frozen=True, kw_only=True)
class Lettered:
    """A user's text as the ticket can show it.

    Attributes
    ----------
    text : str
        One line; empty where the letters hold nothing of it that could be read.
    lacks : str
        What the letters do not hold, in words; empty where they hold all of it.
    """

    text: str
    lacks: str


def width_mm(text: str, size_pt: float) -> float:
    """How wide a line is.

    Parameters
    ----------
    text : str
        As from `lettered`.
    size_pt : float

    Returns
    -------
    float

    Examples
    --------
    >>> round(width_mm("TOP", 72), 2)
    50.83
    """
    return width_in_ems(text) * size_pt * MM_PER_POINT


def shown_text(text: str) -> Lettered:
    """A user's text as the ticket can show it. Nothing is shown out of order or as wrong signs.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    Lettered

    Examples
    --------
    >>> shown_text("Low tide").lacks, shown_text("\u05e9\u05e4\u05dc")
    ('', Lettered(text='', lacks='Hebrew letters'))
    """
    line = lettered(text)
    lost = [
        sign
        for sign in unicodedata.normalize("NFC", " ".join(text.split()))
        if lettered(sign) == "?" and sign != "?"
    ]
    if not lost:
        return Lettered(text=line, lacks="")
    names = {found for sign in lost if (found := _script(sign))}
    if names & _KANA:
        # What is written with kana is Japanese, and so are its other letters.
        names = names - {"CJK", *_KANA} | {"HIRAGANA"}
    scripts = sorted(_SCRIPTS[name] for name in names)
    lacks = (
        say("{scripts} letters", scripts=join_said(scripts, say(" and "))) if scripts else say("some signs")
    )
    known = sum(sign.isalnum() for sign in line)
    return Lettered(text=line if known >= len(lost) else "", lacks=lacks)


def wrapped(text: str, width: float, size_pt: float, *, most: int | None = None) -> list[str]:
    """Break a text into lines.

    Parameters
    ----------
    text : str
        As from `lettered`.
    width : float
        Of a line, mm.
    size_pt : float
    most : int, optional
        So many lines at most; what is cut off ends in an ellipsis.

    Returns
    -------
    list of str
        A word that is longer than a line is broken.

    Examples
    --------
    >>> wrapped("one two three", 12, 9), wrapped("one two three", 12, 9, most=1)
    (['one', 'two', 'three'], ['one\u2026'])
    >>> wrapped("2 of 350 mm", 17, 9)
    ['2 of', '350 mm']
    """
    lines: list[str] = []
    line = ""
    # Not `split()`, which parts at no-break spaces too.
    for word in re.findall(r"[^ \n]+", unparted(text)):
        longer = f"{line} {word}" if line else word
        if width_mm(longer, size_pt) <= width:
            line = longer
            continue
        if width_mm(word, size_pt) > width:
            # No line holds it: it goes on where the text stands, and is broken.
            line = longer
        else:
            lines.append(line)
            line = word
        while width_mm(line, size_pt) > width and len(line) > 1:
            head = _head(line, width, size_pt)
            lines.append(head)
            line = line[len(head) :].lstrip()
    if line:
        lines.append(line)
    # The letters hold no other space, and this one is as wide.
    lines = [one.replace(NO_BREAK, " ") for one in lines]
    if most is None or len(lines) <= most:
        return lines
    last = lines[most - 1]
    while last and width_mm(last + _CUT_OFF, size_pt) > width:
        last = last[:-1]
    return [*lines[: most - 1], last.rstrip() + _CUT_OFF]


def _head(word: str, width: float, size_pt: float) -> str:
    """As much of a word as a line holds, one letter at least."""
    held = 1
    while width_mm(word[: held + 1], size_pt) <= width:
        held += 1
    return word[:held]


def _script(sign: str) -> str:
    first = unicodedata.name(sign, "").split(" ")[0].split("-")[0]
    return first if first in _SCRIPTS else ""
