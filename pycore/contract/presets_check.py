"""Checking a file of presets: one clear sentence for the first thing that is wrong, with its field."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any, Final

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from pycore.contract.faults import field_error, range_in
from pycore.contract.json_object import parse_object
from pycore.contract.presets import (
    ENTRY_OF,
    LIST_OF,
    LONGEST_PRESETS,
    MOST_PRESETS,
    PRESETS_VERSION,
    PresetKind,
    Presets,
    entries,
)
from pycore.errors import FieldError, shown
from pycore.speech import say

#: What the fields of an entry are called at the beginning of a sentence.
_NAMES: Final = {
    "name": say("The name"),
    "width_mm": say("The width"),
    "height_mm": say("The height"),
    "length_mm": say("The length"),
    "margin_mm": say("A margin"),
    "price_per_m2": say("The price of a square metre"),
    "price_per_m": say("The price of a metre"),
    "depth_mm": say("The depth"),
    "wood": say("The wood"),
    "density_kg_m3": say("The density"),
    "thickness_mm": say("The thickness"),
    "weight_gsm": say("The weight"),
    "stretch_percent": say("How much it gives"),
    "profile": say("The name of the profile"),
}

_KIND_NAMES: Final = {
    PresetKind.SHEET: say("the sheet"),
    PresetKind.ROLL: say("the roll"),
    PresetKind.BARS: say("the bars"),
    PresetKind.CANVAS: say("the canvas"),
}

_KIND_OF: Final = {name: kind for kind, name in LIST_OF.items()}


def check_presets(text: str) -> Presets:
    """Check the text of a file of presets.

    Parameters
    ----------
    text : str
        JSON.

    Returns
    -------
    Presets

    Raises
    ------
    FieldError
        For the first thing that is wrong: it is too large, no JSON, of another version, a field is unknown,
        absent or out of range, or two entries of one kind share a name.

    Examples
    --------
    >>> check_presets('{"version": 1, "rolls": [{"name": "Wide", "width_mm": 1118}]}').rolls[0].width_mm
    1118.0
    >>> try:
    ...     check_presets('{"version": 1, "rolls": [{"name": "Wide", "width_mm": 0}]}')
    ... except FieldError as wrong:
    ...     print(wrong.field, wrong.message, sep=": ")
    rolls.0.width_mm: The width of the roll 'Wide' must be 50 to 5000 mm; you gave 0.
    """
    if len(text) > LONGEST_PRESETS:
        raise FieldError(
            field="presets",
            expected=say("at most {longest_presets} characters", longest_presets=LONGEST_PRESETS),
            got=str(len(text)),
            remedy=say("open a file of presets"),
        )
    try:
        tree = parse_object(text)
    except FieldError as wrong:
        raise FieldError(
            field="presets",
            expected=wrong.expected,
            got=wrong.got,
            remedy=say("open a file of presets, or repair this one"),
        ) from wrong
    return check_presets_tree(tree)


def check_presets_tree(tree: Mapping[str, Any]) -> Presets:
    """Check parsed presets.

    Parameters
    ----------
    tree : mapping
        As parsed JSON.

    Returns
    -------
    Presets

    Raises
    ------
    FieldError
        For the first thing that is wrong.

    Examples
    --------
    >>> check_presets_tree({"version": 1}).sheets
    ()
    """
    _check_version(tree)
    try:
        presets = Presets.model_validate_json(json.dumps(tree), strict=True)
    except ValidationError as wrong:
        raise _fault_of(wrong.errors(include_url=False)[0], tree) from wrong
    for kind in PresetKind:
        _check_names(presets, kind)
    return presets


def _check_version(tree: Mapping[str, Any]) -> None:
    if tree.get("version") == PRESETS_VERSION and not isinstance(tree["version"], bool):
        return
    got = shown(tree["version"]) if "version" in tree else say("nothing")
    raise FieldError(
        field="version",
        expected=str(PRESETS_VERSION),
        got=got,
        remedy=say("open a file of presets that this version of the program has saved"),
        said=say(
            "The version of the presets must be {presets_version}; you gave {got}.",
            presets_version=PRESETS_VERSION,
            got=got,
        ),
    )


def _check_names(presets: Presets, kind: PresetKind) -> None:
    """Refuse a name that is given twice, or that nobody could type again."""
    known: set[str] = set()
    for place, entry in enumerate(entries(presets, kind)):
        field, name = f"{LIST_OF[kind]}.{place}.name", shown(entry.name)
        if entry.name != entry.name.strip() or not entry.name.isprintable():
            raise FieldError(
                field=field,
                expected=say("a line of text without spaces around it"),
                got=name,
                remedy=say("write the name without them"),
                said=say(
                    "The name {name} of an entry of {list_of} must be a line of text without spaces "
                    "around it.",
                    name=name,
                    list_of=LIST_OF[kind],
                ),
            )
        if entry.name in known:
            raise FieldError(
                field=field,
                expected=say("a name of its own"),
                got=name,
                remedy=say("give one of them another name"),
                said=say("Two entries of {list_of} have the name {name}.", list_of=LIST_OF[kind], name=name),
            )
        known.add(entry.name)


def _fault_of(detail: ErrorDetails, tree: Mapping[str, Any]) -> FieldError:
    path = [str(part) for part in detail["loc"]]
    wrong = field_error(detail)
    kind = _KIND_OF.get(path[0]) if path else None
    if detail["type"] == "extra_forbidden":
        owner = say("the presets") if kind is None else _entry(kind, path, tree)
        return FieldError(
            field=wrong.field,
            expected=say("a field of the presets"),
            got=say("an unknown key"),
            remedy=say("check its spelling, or leave it out"),
            said=say("There is no field {path} in {owner}.", path=shown(path[-1]), owner=owner),
        )
    if kind is None:
        return FieldError(field="presets", expected=wrong.expected, got=wrong.got, remedy=wrong.remedy)
    expected, got, remedy = wrong.expected, wrong.got, wrong.remedy
    if len(path) == 1:
        subject, expected, remedy = (
            say("The list “{path0}”", path0=path[0]),
            say("a list of entries"),
            say("write [ … ]"),
        )
        if detail["type"] == "too_long":
            expected, remedy = (
                say("a list of at most {most_presets} entries", most_presets=MOST_PRESETS),
                say("leave some out"),
            )
            got = f"{len(detail['input'])}"
    elif len(path) == 2:
        entry = _entry(kind, path, tree)
        subject = entry[0].upper() + entry[1:]
    else:
        subject = say("{names} of {entry}", names=_NAMES[path[2]], entry=_entry(kind, path, tree))
        within = range_in(ENTRY_OF[kind], path[2])
        if within and detail["type"] not in {"too_long", "tuple_type"}:
            expected, remedy = within, say("give a value in that range")
        if detail["type"] == "missing":
            expected = within or say("given##an option")
        elif detail["type"] == "string_too_short":
            expected, remedy = say("a line of text"), say("write one")
    return FieldError(
        field=wrong.field,
        expected=expected,
        got=got,
        remedy=remedy,
        said=say(
            "{subject} must be {expected}; you gave {got}.", subject=subject, expected=expected, got=got
        ),
    )


def _entry(kind: PresetKind, path: list[str], tree: Mapping[str, Any]) -> str:
    """What an entry is called within a sentence: by its name where it has one, else by its number."""
    place = int(path[1])
    entry = tree[LIST_OF[kind]][place]
    name = entry.get("name") if isinstance(entry, Mapping) else None
    known = shown(name) if isinstance(name, str) and name else say("number {place}", place=place + 1)
    return f"{say(_KIND_NAMES[kind])} {known}"
