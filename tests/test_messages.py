"""The list of messages is current, and no message uses a word that the page has another one for."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from . import list_messages

pytestmark = pytest.mark.native

LIST = Path(__file__).parent / "data" / "messages.txt"

#: To read all sources takes a second.
listing = cache(list_messages.listing)

#: Words of version 1 and of the workshop that a message must not use. `arris` and the like stay in the
#: sources, where they are the trade's terms.
AVOIDED = re.compile(
    r"\b(arris|gusset|relieved?|take-up|ink-over|draw-out|carry|carried|carries|softness|whatever|"
    r"as ever|for ever|anew|truncated|cut away|turned by a quarter)\b|\bexpected [^}]*, got\b"
)


def test_the_list_is_current() -> None:
    assert LIST.read_text(encoding="utf-8") == listing(), (
        "run: python tests/list_messages.py > tests/data/messages.txt"
    )


def test_the_list_holds_messages_of_every_kind() -> None:
    text = listing()
    for sentence in (
        "The canvas leaves only {spare_mm} mm of the {loaded} free",
        "Does not work",
        "Bar depth",
        "Tuck the corners in and close",
        "The picture has no usable profile, so sRGB is assumed.",
        "Comparing the intents",
    ):
        assert sentence in text, sentence


def test_no_message_uses_a_word_that_has_a_plainer_one() -> None:
    found = [line for line in listing().splitlines() if AVOIDED.search(line)]
    assert found == []
