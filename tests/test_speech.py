"""The catalogue of each language beside English: whole, without rest, with the same places."""

from __future__ import annotations

import re

import pytest

from pycore.client.viewer_words import VIEWER_WORDS
from pycore.speech.template import names, parsed
from tests.speech_keys import catalogue, keys

pytestmark = pytest.mark.native

KEYS = keys()
GERMAN = catalogue()


def test_every_template_that_is_said_has_its_german_and_none_is_left_over() -> None:
    assert sorted(KEYS.keys() - GERMAN.keys()) == []
    assert sorted(GERMAN.keys() - KEYS.keys()) == []
    # Regression: far fewer would mean that the sources were not read.
    assert len(KEYS) > 2000


def test_both_languages_have_the_same_places() -> None:
    unlike = [key for key, german in GERMAN.items() if names(parsed(key)) != names(parsed(german))]
    assert unlike == []


def test_spaces_at_the_ends_are_kept_because_sentences_are_put_together_at_them() -> None:
    ends = re.compile(r"^\s*|\s*$")
    unlike = [key for key, text in GERMAN.items() if ends.findall(key) != ends.findall(text)]
    assert unlike == []


def test_german_addresses_people_formally_and_quotes_in_its_own_way() -> None:
    informal = re.compile(r"\b(du|dich|dir|dein\w*)\b", re.IGNORECASE)
    assert [text for text in GERMAN.values() if informal.search(text)] == []
    assert [text for text in GERMAN.values() if "”" in text] == []


def test_the_client_page_carries_all_that_its_viewer_says() -> None:
    own = ("web/src/client/", "web/src/stage/", "web/src/photo/")
    said = {key for key, files in KEYS.items() if any(file.startswith(own) for file in files)}
    assert sorted(said - set(VIEWER_WORDS)) == []
