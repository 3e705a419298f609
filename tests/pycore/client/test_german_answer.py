"""A client page in German, and its answer read back by a printmaker who works in English."""

from __future__ import annotations

import pytest

from pycore.client.answer import taken_answer
from pycore.client.markup import LETTERS
from pycore.client.words import YES, job_facts
from pycore.contract.check import check_job
from pycore.contract.job import Job
from pycore.errors import FieldError
from pycore.speech import language, say, speaking

from .made_page import page, read, variants

NAMED = {"name": "Low tide", "client": "Quayside"}


def german_answer(job: Job, first: str) -> str:
    """The answer as the page writes it: a sentence, then a line for each fact."""
    with speaking("de"):
        return "\n".join([first, *(f"{term}: {said}" for term, said in job_facts(job) if said)])


def test_a_german_yes_is_read_in_english() -> None:
    job = check_job(NAMED)
    with speaking("de"):
        yes = say(YES)
    taken = taken_answer(job, german_answer(job, yes))
    # Derived: the catalogue's own sentence.
    assert taken.chosen == "Ich sage ja zu dieser Leinwand."
    assert (taken.changed, taken.notes, language()) == ([], [], "en")


def test_a_german_choice_picks_depth_fill_and_corners() -> None:
    job = check_job(NAMED)
    other = check_job(
        {
            **NAMED,
            "bars": {"depth_mm": 38.5},
            "sides": {"fill": "plain", "left": {"fill": "run-on"}},
            "wrap": {"finish": "lapped"},
        }
    )
    with speaking("de"):
        first = say("I choose {letter}{label}.", letter=LETTERS[1], label=": 38,5 mm")
    taken = taken_answer(job, german_answer(other, first))
    assert (taken.job.bars.depth_mm, taken.job.wrap.finish.value) == (38.5, "lapped")
    assert taken.job.sides.left is not None
    assert taken.job.sides.left.fill is not None
    assert taken.job.sides.left.fill.value == "run-on"


def test_what_is_wrong_with_a_german_answer_is_said_in_english() -> None:
    job = check_job(NAMED)
    text = german_answer(check_job({**NAMED, "name": "High tide"}), "Ich sage ja zu dieser Leinwand.")
    with pytest.raises(FieldError, match="The answer belongs to another job") as caught:
        taken_answer(job, text)
    assert "“Piece” says “High tide”" in str(caught.value)


def test_a_page_that_is_made_in_german_is_german_to_its_viewer_too() -> None:
    with speaking("de"):
        made = read(page(variants({"name": "Low tide"})).data)
    assert ("lang", "de") in made.attributes
    assert "Was von matter Leinwand zu erwarten ist" in made.text
    assert "What to expect" not in made.text
    assert made.offer["language"] == "de"
    # Derived: the viewer fills the places itself.
    assert made.offer["words"]["{mm} mm ({mm2} in)"] == "{mm} mm ({mm2} in)"
    english = read(page(variants({"name": "Low tide"})).data)
    assert "words" not in english.offer
