"""The letters that PDFs embed: whole alphabets, right widths, and a clear sign for what they have not."""

from __future__ import annotations

import io
import unicodedata
from importlib import resources

import pytest
from PIL import ImageFont

from pycore.printing.pdf.letters import LINE_ABOVE, LINE_BELOW, codes, lettered, width_in_ems

#: Published: the alphabets' letters as Unicode's code charts name them.
ALPHABETS = {
    "German": "ÄÖÜäöüß",
    "Polish": "ĄĆĘŁŃÓŚŹŻąćęłńóśźż",
    "Czech": "ÁČĎÉĚÍŇÓŘŠŤÚŮÝŽáčďéěíňóřšťúůýž",
    "Turkish": "ÇĞİÖŞÜçğıöşü",
    "Romanian": "ĂÂÎȘȚăâîșț",
    "Icelandic": "ÁÐÉÍÓÚÝÞÆÖáðéíóúýþæö",
    "Vietnamese": "ĂÂĐÊÔƠƯẠẢẤẦẨẪẬẮẰẲẴẶẸẺẼẾỀỂỄỆỈỊỌỎỐỒỔỖỘỚỜỞỠỢỤỦỨỪỬỮỰỲỴỶỸ",
    "Greek": "".join(chr(code) for code in range(0x391, 0x3CF) if code != 0x3A2) + "ΆΈΉΊΌΎΏΐΰ",
    "Russian": "".join(map(chr, range(0x410, 0x450))) + "Ёё",
    "Ukrainian": "ҐЄІЇґєії",
    "Serbian": "ЂЈЉЊЋЏђјљњћџ",
    "Kazakh": "ӘҒҚҢӨҰҮҺәғқңөұүһ",
}


@pytest.mark.parametrize("language", list(ALPHABETS))
def test_an_alphabet_is_whole(language: str) -> None:
    letters = ALPHABETS[language]
    assert lettered(letters) == letters
    # Letters with their accents apart become the same.
    assert lettered(unicodedata.normalize("NFD", letters)) == letters


@pytest.mark.parametrize(
    ("wanted", "shown"),
    [
        ("مد", "??"),
        ("שפל", "???"),
        ("干潮", "??"),
        ("Ebbe 🌊", "Ebbe ?"),
        # What chooses a form belongs to its sign; the colour of a hand is a sign of its own.
        ("❤\ufe0f", "?"),
        ("👍🏽!", "??!"),
        # Hebrew with points, and a Latin letter under a mark that no letter has.
        ("שָׁלוֹם", "????"),
        ("q̃", "?"),
        ("a\x00b", "?b"),
        ("one\ntwo\tthree  four", "one two three four"),
        ("\ud800", "?"),
        ("", ""),
    ],
)
def test_other_signs_become_question_marks(wanted: str, shown: str) -> None:
    assert lettered(wanted) == shown


def test_widths_are_those_of_the_font() -> None:
    """Against FreeType: to half a thousandth of an em for each letter."""
    data = resources.files("pycore.printing.pdf").joinpath("data", "letters.ttf").read_bytes()
    font = ImageFont.truetype(io.BytesIO(data), 1000, layout_engine=ImageFont.Layout.BASIC)
    for letter in "AWi.Ωж€—ő":
        assert width_in_ems(letter) * 1000 == pytest.approx(font.getlength(letter), abs=1.0)
    assert list(font.getmetrics()) == pytest.approx([LINE_ABOVE * 1000, LINE_BELOW * 1000], abs=1)
    assert width_in_ems("AWi") == pytest.approx(sum(map(width_in_ems, "AWi")))


def test_each_letter_has_a_code_of_two_bytes() -> None:
    signs = "".join(ALPHABETS.values())
    assert len(codes(signs)) == 2 + 4 * len(signs)
    assert "0000" not in [codes(sign)[1:-1] for sign in signs]
