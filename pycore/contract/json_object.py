"""Parsing the text of a JSON object from a file that anybody may have written."""

from __future__ import annotations

import json
import re
from typing import Any, cast

from pycore.errors import FieldError, shown
from pycore.speech import said_again, say

#: A parsed JSON object on its way to becoming a job.
Tree = dict[str, Any]

#: Strings, in which brackets mean nothing, and brackets.
_MARKS = re.compile(r'"(?:[^"\\]|\\.)*"|[\[\]{}]')

#: A job nests four deep.
_DEEPEST = 20


def parse_object(text: str) -> Tree:
    """Parse the text of a JSON object, and check nothing of it.

    Parameters
    ----------
    text : str
        JSON.

    Returns
    -------
    dict

    Raises
    ------
    FieldError
        The text is not a JSON object, is nested too deep, or names a key twice.

    Examples
    --------
    >>> parse_object('{"name": "Low tide"}')
    {'name': 'Low tide'}
    """
    try:
        check_depth(text)
        tree = json.loads(text, object_pairs_hook=_once)
    except ValueError as wrong:
        raise FieldError(
            field="job",
            expected=say("a JSON object"),
            got=say("text that is not JSON ({reason})", reason=_reason(wrong)),
            remedy=say("repair the file or start from a new job"),
        ) from wrong
    if not isinstance(tree, dict):
        raise FieldError(
            field="job", expected=say("a JSON object"), got=shown(tree), remedy=say("write it as {{ … }}")
        )
    return cast(Tree, tree)


def check_depth(text: str) -> None:
    """Refuse what is nested deeper than any job.

    The parser works by recursion, and in a browser a stack that is used up ends Python itself instead of
    raising an error.

    Parameters
    ----------
    text : str
        JSON, or anything else.

    Raises
    ------
    ValueError
        It is nested too deep; said as the parser's own faults are.

    Examples
    --------
    >>> check_depth("[[3]]")
    """
    depth = 0
    for mark in _MARKS.finditer(text):
        depth += {"[": 1, "{": 1, "]": -1, "}": -1}.get(mark[0], 0)
        if depth > _DEEPEST:
            raise ValueError(say("nested more than {deepest} deep", deepest=_DEEPEST))


def _reason(wrong: ValueError) -> str:
    """Where the parser stopped; its own words are English."""
    if isinstance(wrong, json.JSONDecodeError):
        return say("line {line}, column {column}", line=wrong.lineno, column=wrong.colno)
    return said_again(wrong.args[0])


def _once(pairs: list[tuple[str, Any]]) -> Tree:
    tree: Tree = {}
    for key, value in pairs:
        if key in tree:
            raise ValueError(say("the key {key} stands twice", key=shown(key)))
        tree[key] = value
    return tree
