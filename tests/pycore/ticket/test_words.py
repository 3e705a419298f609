"""A ticket's words: groups of colours out of gamut."""

from __future__ import annotations

import pytest

from pycore.colour.mapping.clip_report import ClipGroup
from pycore.speech import say
from pycore.speech.choice import speaking
from pycore.ticket.words import group_words


@pytest.mark.parametrize(
    ("share", "english", "german"),
    [
        (0.0564, "dark greys: 5.6 %, 2.5, 4.6", "dunkle Grautöne: 5,6 %; 2,5; 4,6"),
        # Derived: it is listed because it is there, so its share is never said to be nothing.
        (0.0001, "dark greys: < 0.1 %, 2.5, 4.6", "dunkle Grautöne: < 0,1 %; 2,5; 4,6"),
    ],
)
def test_a_group_is_said_with_its_share(share: float, english: str, german: str) -> None:
    def words() -> str:
        return group_words(
            ClipGroup(
                number=1,
                name=say("dark greys"),
                share=share,
                filed="#1c1c0c",
                printed="#3a3c3c",
                mean_de=2.5,
                worst_de=4.6,
                place=(0, 0, 1, 1),
            )
        )

    assert words() == english
    with speaking("de"):
        assert words() == german
