"""Lines that fit, and texts that the letters do not hold."""

from __future__ import annotations

import pytest

from pycore.printing.pdf.letters import lettered
from pycore.ticket.lines import shown_text, width_mm, wrapped

TEXTS = (
    "A name of usual length",
    "Donaudampfschifffahrtsgesellschaftskapitaenswitwe" * 4,
    "W" * 500,
    "one " * 200,
    "Прилив в устье реки " * 9,
    "x",
)


@pytest.mark.parametrize("text", TEXTS)
@pytest.mark.parametrize("width", [9.0, 60.0, 184.0])
def test_no_line_is_wider_than_its_room_and_nothing_is_lost(text: str, width: float) -> None:
    lines = wrapped(text, width, 17)
    assert max(width_mm(line, 17) for line in lines) <= width
    assert "".join("".join(lines).split()) == "".join(text.split())


@pytest.mark.parametrize("most", [1, 2, 3])
def test_what_is_cut_off_says_so(most: int) -> None:
    lines = wrapped("word " * 99, 40.0, 10, most=most)
    assert len(lines) == most
    assert lines[-1].endswith("…")
    assert max(width_mm(line, 10) for line in lines) <= 40.0


def test_no_text_has_no_line() -> None:
    assert wrapped("", 40.0, 8) == []
    assert wrapped("", 40.0, 8, most=1) == []


@pytest.mark.parametrize(
    ("text", "shown", "lacks"),
    [
        ("Ebbe, früh", "Ebbe, früh", ""),
        ("Why?", "Why?", ""),
        ("שפל בחוף", "", "Hebrew letters"),
        ("مد وجزر", "", "Arabic letters"),
        ("שפל مد", "", "Arabic and Hebrew letters"),
        ("Прилив 潮", "Прилив ?", "Chinese or Japanese letters"),
        ("夕焼け", "", "Japanese letters"),
        ("カタカナ م", "", "Arabic and Japanese letters"),
        ("🌊", "", "some signs"),
        ("", "", ""),
    ],
)
def test_what_the_letters_lack_is_named(text: str, shown: str, lacks: str) -> None:
    found = shown_text(text)
    assert (found.text, found.lacks) == (shown, lacks)
    assert lettered(found.text) == found.text
