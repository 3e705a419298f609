"""The catalogue of each language beside English: whole, without rest, with the same places."""

from __future__ import annotations

import ast
import re
from functools import cache

import pytest

from pycore.client.viewer_words import VIEWER_WORDS
from pycore.errors import TuckfoldError
from pycore.speech.template import names, parsed
from tests.speech_keys import ROOT, catalogue, keys

pytestmark = pytest.mark.native

#: To read all sources takes a second, which only the process that runs these tests needs.
KEYS = cache(keys)
GERMAN = catalogue()


def test_every_template_that_is_said_has_its_german_and_none_is_left_over() -> None:
    assert sorted(KEYS().keys() - GERMAN.keys()) == []
    assert sorted(GERMAN.keys() - KEYS().keys()) == []
    # Regression: far fewer would mean that the sources were not read.
    assert len(KEYS()) > 2000


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
    said = {key for key, files in KEYS().items() if any(file.startswith(own) for file in files)}
    assert sorted(said - set(VIEWER_WORDS)) == []


#: What makes a note or an error of the core.
_MAKERS = {"Note", "_note", "output_note", *(one.__name__ for one in TuckfoldError.__subclasses__())}

#: Texts that are no sentence: names of fields and codes.
_NAMES = ("field", "code")


def unsaid(node: ast.expr) -> bool:
    """Whether it is a text of words that stands there as it is."""
    if isinstance(node, ast.JoinedStr):
        return any(
            isinstance(one, ast.Constant) and re.search("[a-z]{2}", str(one.value)) for one in node.values
        )
    if isinstance(node, ast.BinOp | ast.IfExp):
        parts = (node.left, node.right) if isinstance(node, ast.BinOp) else (node.body, node.orelse)
        return any(unsaid(one) for one in parts)
    return (
        isinstance(node, ast.Constant)
        and isinstance(node.value, str)
        and re.search(r"[a-z] [a-z]", node.value) is not None
    )


def test_notes_and_errors_hold_no_text_that_is_not_said() -> None:
    found = []
    for path in sorted((ROOT / "pycore").rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not isinstance(node, ast.Call) or ast.unparse(node.func) not in _MAKERS:
                continue
            given = [*node.args, *(one.value for one in node.keywords if one.arg not in _NAMES)]
            found += [f"{path.name}:{one.lineno}: {ast.unparse(one)}" for one in given if unsaid(one)]
    assert found == []
