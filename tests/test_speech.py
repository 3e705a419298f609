"""The catalogue of each language beside English: whole, without rest, with the same places."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache

import pytest

from pycore.client.viewer_words import VIEWER_WORDS
from pycore.contract.check import read_job
from pycore.contract.presets_check import check_presets
from pycore.errors import FieldError, PictureError, TuckfoldError
from pycore.picture.read import read_picture
from pycore.speech import speaking
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


def makers() -> set[str]:
    """What makes a note or an error of the core: their types, and the functions that return one."""
    types = {"Note", *(one.__name__ for one in TuckfoldError.__subclasses__())}
    return types | {
        node.name
        for path in (ROOT / "pycore").rglob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.FunctionDef) and node.returns and ast.unparse(node.returns) in types
    }


#: Parts of an error, by which variables and parameters are named that hold one for a while.
_PARTS = ("expected", "got", "remedy", "said")

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
    found, making = [], makers()
    # derived: one of each kind.
    assert {"Note", "FieldError", "cgats_fault", "picture_error", "_wrong"} < making
    for path in sorted((ROOT / "pycore").rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not isinstance(node, ast.Call) or ast.unparse(node.func) not in making:
                continue
            given = [*node.args, *(one.value for one in node.keywords if one.arg not in _NAMES)]
            found += [f"{path.name}:{one.lineno}: {ast.unparse(one)}" for one in given if unsaid(one)]
    assert found == []


def held_parts(tree: ast.AST) -> Iterator[ast.expr]:
    """What variables get, and parameters are without, that are named as a part of an error."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Assign) and len(node.targets) == 1:
            target, value = node.targets[0], node.value
            pairs = [(target, value)]
            if isinstance(target, ast.Tuple) and isinstance(value, ast.Tuple):
                pairs = list(zip(target.elts, value.elts, strict=True))
            yield from (one for name, one in pairs if isinstance(name, ast.Name) and name.id in _PARTS)
        elif isinstance(node, ast.arguments):
            for name, default in zip(node.kwonlyargs, node.kw_defaults, strict=True):
                if default is not None and name.arg in _PARTS:
                    yield default


def test_nor_do_variables_and_defaults_that_become_a_part_of_an_error() -> None:
    found = []
    for path in sorted((ROOT / "pycore").rglob("*.py")):
        for value in held_parts(ast.parse(path.read_text(encoding="utf-8"))):
            choices = value.values if isinstance(value, ast.BoolOp) else [value]
            texts = [one.value for one in choices if isinstance(one, ast.Constant)]
            words = [one for one in texts if isinstance(one, str) and re.search("[a-z]", one)]
            found += [f"{path.name}:{value.lineno}: {one}" for one in words]
    assert found == []


def test_an_error_of_a_file_is_german_to_its_last_word() -> None:
    with speaking("de"):
        with pytest.raises(FieldError) as nameless:
            check_presets('{"version": 1, "rolls": [{"width_mm": 300}]}')
        with pytest.raises(FieldError) as no_list:
            check_presets('{"version": 1, "rolls": 3}')
        with pytest.raises(FieldError) as other_kind:
            read_job('{"wrap": {"over": "none"}}')
        with pytest.raises(FieldError) as no_text:
            read_job('{"name": 3}')
        with pytest.raises(PictureError) as cut:
            read_picture(b"\x89PNG\r\n\x1a\n" + bytes(12), file="cut.png")
    assert str(nameless.value).startswith("Der Name (die Rolle Nummer 1)")
    assert "verlangt: eine Angabe;" in str(nameless.value)
    assert str(no_list.value).endswith("Schreiben Sie [ … ].")
    assert "'top-bottom' oder 'left-right'" in str(other_kind.value)
    assert "verlangt: Text" in str(no_text.value)
    assert " picture" not in str(cut.value)
