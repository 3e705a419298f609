"""Notes and errors carry the values of their texts, the same in every language."""

from __future__ import annotations

import re
from typing import Any, Final

import pytest

from pycore.bridge.messages import ErrorReply
from pycore.contract.check import check_job
from pycore.contract.error_record import ErrorRecord
from pycore.contract.migrations import opening_notes
from pycore.contract.notes import Note, Place, Severity, each_once
from pycore.errors import TuckfoldError
from pycore.picture.embedded import embedded_profile
from pycore.speech import say, speaking, values_of
from pycore.tasks.job_notes import stopping_notes
from pycore.tasks.layout import lay_out

#: Jobs that something is to be said of: too large, panels on several sheets, thin bars, loose corners.
JOBS: Final[tuple[dict[str, Any], ...]] = (
    {"face": {"width_mm": 900, "height_mm": 700}, "bars": {"depth_mm": 20}},
    {"face": {"width_mm": 300, "height_mm": 200}, "wrap": {"turnover_mm": 10, "ink_over_mm": 0}},
    {"face": {"width_mm": 900, "height_mm": 300}, "group": {"panels": 3, "gap_mm": 30}},
    {"face": {"width_mm": 300, "height_mm": 200}, "wrap": {"turnover_mm": 149, "ink_over_mm": 6}},
    {"sheet": {"width_mm": 610, "height_mm": None}, "face": {"width_mm": 700, "height_mm": 500}},
)

_NUMBER: Final = re.compile(r"\d+(?:[.,]\d+)?")


def notes_in(language: str) -> list[Note]:
    """What is said of all these jobs and of some pictures."""
    with speaking(language):
        found = [note for job in JOBS for note in lay_out(check_job(job)).notes]
        found += [note for job in JOBS for note in stopping_notes(check_job(job))]
        found += opening_notes({"version": 1, "sides": {"fill": "grown", "seed": 3}})
        found += embedded_profile(b"x" * 200, mode="RGB").notes
        found += embedded_profile(None, mode="CMYK").notes
    return found


def test_notes_carry_the_same_values_in_both_languages() -> None:
    english, german = notes_in("en"), notes_in("de")
    assert [note.code for note in english] == [note.code for note in german]
    assert len({note.code for note in english}) > 9
    for note, other in zip(english, german, strict=True):
        assert note.message != other.message, note.code
        assert note.values == other.values, note.code
        assert note.model_dump(mode="json")["values"] == note.values


def test_every_figure_of_a_note_is_among_its_values() -> None:
    for note in each_once(notes_in("en")):
        figures = [value for value in note.values.values() if not isinstance(value, str)]
        words = " ".join(value for value in note.values.values() if isinstance(value, str))
        for shown in _NUMBER.findall(note.message):
            half = 0.5 * 10 ** -len(shown.partition(".")[2]) + 1e-9
            is_value = any(
                abs(float(one) * scale - float(shown)) <= half for one in figures for scale in (1, 100)
            )
            # What stands in the sentence itself is a bound of common practice, or the version of a file.
            assert is_value or shown in words or note.code in ("job-older", "continued-renamed"), note


def test_a_note_takes_its_values_from_message_and_remedy_and_keeps_given_ones() -> None:
    texts = {
        "message": say("{spare_mm:.1f} mm are free.", spare_mm=2.04),
        "remedy": say("on the {loaded}", loaded=say("left")),
    }
    place = {"code": "a", "severity": Severity.HINT, "place": Place.SHEET}
    assert Note(**place, **texts).values == {"spare_mm": 2.04, "loaded": "left"}
    assert Note(**place, **texts, values={"own": 1}).values == {"own": 1}
    assert Note(**place, message="Wait a day.", remedy="Wait.").values == {}


def test_an_error_carries_its_values_to_the_page_and_to_the_command_line() -> None:
    records = []
    for language in ("en", "de"):
        with speaking(language), pytest.raises(TuckfoldError) as wrong:
            check_job({"wrap": {"turnover_mm": 12.5, "ink_over_mm": 30}})
        with speaking(language):
            records.append(ErrorRecord.of(wrong.value))
            assert ErrorReply.of(wrong.value).model_dump() == records[-1].model_dump()
    english, german = records
    # Derived: the ink may not run past the turn-over's edge.
    assert 12.5 in english.values.values()
    assert english.values == german.values
    assert english.message != german.message
    assert (english.code, english.field) == (german.code, german.field) == ("field", "wrap.ink_over_mm")


def test_a_phrase_within_a_phrase_is_english_among_the_values() -> None:
    with speaking("de"):
        said = say("the {side} side of {name}", side=say("left"), name="Ebbe")
        assert values_of(said) == {"side": "left", "name": "Ebbe"}
        assert "links" in said
    assert values_of("Wait a day.") == {}
