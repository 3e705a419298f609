"""Edits of the form `field=value`, put into a parsed job before it is checked."""

from __future__ import annotations

import json
from collections.abc import Iterable
from functools import cache
from typing import Any, cast

from pycore.contract.job import Job
from pycore.contract.json_object import Tree, check_depth
from pycore.contract.migrations import newer_name
from pycore.errors import FieldError, shown
from pycore.field_names import nearest_field
from pycore.speech import say


def edit_tree(tree: Tree, edits: Iterable[str]) -> Tree:
    """Apply edits of the form `dotted.name=value` to a parsed job.

    The value of a text field is taken as it stands. Any other is read as JSON where it parses as such,
    otherwise as text; `null`, or nothing after the equals sign of a value that may be absent, leaves the
    value out.

    Parameters
    ----------
    tree : dict
        A parsed job; not changed.
    edits : iterable of str
        For example `face.width_mm=210`, or one value of a list by its number: `sheet.margin_mm.2=20`.

    Returns
    -------
    dict
        A new tree.

    Raises
    ------
    FieldError
        An edit has no equals sign, its name leads through a value that has no fields, or a list has no value
        of that number.

    Examples
    --------
    >>> edit_tree({}, ["face.width_mm=210"])
    {'face': {'width_mm': 210}}
    >>> edit_tree({}, ["sheet.margin_mm.2=20"])
    {'sheet': {'margin_mm': [3.0, 3.0, 20, 3.0]}}
    """
    result = cast(Tree, json.loads(json.dumps(tree)))
    for edit in edits:
        name, equals, text = edit.partition("=")
        name = name.strip()
        if not equals or not name:
            raise FieldError(
                field="--set",
                expected=say("field=value"),
                got=shown(edit),
                remedy=say("write for example face.width_mm=210"),
            )
        _check_names(name, text)
        _put(result, name, _value(name, text))
    return result


def _check_names(name: str, text: str) -> None:
    """Refuse what version 1 called otherwise: only its files are read, not its words."""
    if name == "sides.seed":
        raise FieldError(
            field=name,
            expected=say("a field of the job"),
            got=f"{name}={text}",
            remedy=say("leave it out"),
            said=say(
                "The job has no field sides.seed: continued sides follow the picture's lines and "
                "need no number. Leave it out."
            ),
        )
    newer = newer_name(name, text.strip().strip('"'))
    if newer:
        raise FieldError(
            field=name,
            expected=newer,
            got=f"{name}={text}",
            remedy=say("write {newer}", newer=newer if "=" in newer else f"{newer}={text}"),
            said=say(
                "{name}{words} is a name of version 1; it is called {newer}.",
                name=name,
                words=f"={text}" if "=" in newer else "",
                newer=newer,
            ),
        )


def _no_fields(field: str, name: str) -> str:
    near = nearest_field(name)
    question = say("; did you mean {near}?", near=near) if near else "."
    return say(
        "The job has no field {name}: {field} has no fields of its own{question}",
        name=name,
        field=field,
        question=question,
    )


_TEXT_FIELDS = {"name", "client", "notes", "answer", "picture.file", "picture.sha256", "colour.profile"}


def _value(name: str, text: str) -> Any:
    if name in _TEXT_FIELDS:
        return text
    if not text.strip():
        return None
    try:
        check_depth(text)
        return json.loads(text)
    except ValueError:
        return text.strip()


def _put(tree: Tree, name: str, value: Any) -> None:
    *path, last = name.split(".")
    at: Any = tree
    reached = []
    for step in path:
        reached.append(step)
        if at.get(step) is None:
            at[step] = _usual_list(reached)
        at = at[step]
        if isinstance(at, list) and at and len(reached) == len(path):
            _put_into_list(at, ".".join(reached), last, value)
            return
        if not isinstance(at, dict):
            raise FieldError(
                field=name,
                expected=say("a field of the job"),
                got=say("{step}, which has no fields", step=step),
                remedy=say("give one of its own fields"),
                said=_no_fields(".".join(reached), name),
            )
    at[last] = value


def _usual_list(path: list[str]) -> Tree | list[Any]:
    """The usual values of a list that the tree leaves out, for one of them to be changed; else no fields."""
    usual: Any = _usual_job()
    for step in path:
        usual = usual.get(step) if isinstance(usual, dict) else None
    return [*usual] if isinstance(usual, list) else {}


@cache
def _usual_job() -> Tree:
    """A table of a batch edits a job for each of its cells."""
    return Job().model_dump(mode="json")


def _put_into_list(values: list[Any], field: str, place: str, value: Any) -> None:
    """Change one value of a list, which is named by its number, from 0."""
    if place not in map(str, range(len(values))):
        name, last = f"{field}.{place}", len(values) - 1
        raise FieldError(
            field=name,
            expected=f"{field}.0 … {field}.{last}",
            got=name,
            remedy=say("give the number of one of them"),
            said=say(
                "{field} has {count} values, {field}.0 to {field}.{last}; {name} is none of them.",
                field=field,
                count=len(values),
                last=last,
                name=name,
            ),
        )
    values[int(place)] = value
