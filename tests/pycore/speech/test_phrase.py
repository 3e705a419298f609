"""Phrases: values in templates, in English and in another language."""

from __future__ import annotations

import pickle

import pytest

from pycore.errors import FieldError
from pycore.speech import Phrase, figure, language, mark, said_again, say, speaking
from pycore.speech.template import fill, names, parsed


def test_english_is_said_as_it_is_written() -> None:
    assert say("{width_mm:.1f} mm of {{x}}", width_mm=2.04) == "2.0 mm of {x}"
    assert say("{name!r} is none", name="a b") == "'a b' is none"


def test_german_has_its_own_decimal_sign_in_numbers_and_in_texts_of_digits() -> None:
    with speaking("de"):
        assert figure(1234.5, ",.1f") == "1.234,5"
        assert say("{value:.2f} of {text}", value=0.5, text="2.5") == "0,50 of 2,5"
        # Published: DIN 5008 sets the sign of percent apart from its number.
        assert say("{share:.1%}", share=0.125) == "12,5\N{NO-BREAK SPACE}%"
        # A place with the format `s` keeps its text: a version is no number.
        assert say("{version:s}", version="4.3") == "4.3"
        # A name with a point in it is no number either.
        assert say("{file}", file="1.2.tif") == "1.2.tif"
    assert language() == "en"


def test_a_phrase_of_a_table_is_said_again_in_the_language_in_use() -> None:
    table = say("top")
    with speaking("de"):
        # Derived: the catalogue's own word for the side.
        assert say(table) == "oben"
        assert said_again(table) == "oben"
        assert say("{side}", side=table) == "oben"
        # A text of a person's own is never taken for a template.
        assert say("{side}", side="top") == "top"


def test_a_phrase_keeps_its_template_and_its_values_on_its_way_to_another_process() -> None:
    phrase = pickle.loads(pickle.dumps(Phrase("{count} canvases", {"count": 3})))
    assert (phrase, phrase.key, phrase.values) == ("3 canvases", "{count} canvases", {"count": 3})


def as_text(value: object, *_: str) -> str:
    return str(value)


def test_cases_choose_by_number_and_by_word() -> None:
    plural = parsed("{count, plural, one {a sheet} other {{count} sheets}}")
    chosen = [fill(plural, {"count": count}, as_text) for count in (0, 1, 2)]
    assert chosen == ["0 sheets", "a sheet", "2 sheets"]
    select = parsed("{loaded, select, roll {die Rolle} other {der Bogen}} ist voll")
    assert fill(select, {"loaded": "roll"}, as_text) == "die Rolle ist voll"
    assert fill(select, {"loaded": "sheet"}, as_text) == "der Bogen ist voll"
    assert names(select) == {"loaded"}


@pytest.mark.parametrize("template", ["{", "a {b", "{a, select, x {y}}", "{a, plural, other {b}"])
def test_a_template_that_means_nothing_is_refused(template: str) -> None:
    with pytest.raises(ValueError, match=r"brace|other|end"):
        parsed(template)


def test_an_error_says_field_expected_got_and_remedy_in_german() -> None:
    with speaking("de"):
        wrong = FieldError(
            field="bars.depth_mm",
            expected="6 bis 100 mm",
            got="3",
            remedy=say("give another value"),
        )
    assert str(wrong) == (
        "Leistentiefe \N{EN DASH} verlangt: 6 bis 100 mm; angegeben: 3. Geben Sie einen anderen Wert an."
    )
    assert (wrong.code, wrong.field) == ("field", "bars.depth_mm")


def test_a_marked_template_takes_its_values_later() -> None:
    assert say(mark("closed at the {over}"), over="top") == "closed at the top"
