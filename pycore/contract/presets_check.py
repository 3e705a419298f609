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

#: What the fields of an entry are called at the beginning of a sentence.
_NAMES: Final = {
    "name": "The name",
    "width_mm": "The width",
    "height_mm": "The height",
    "length_mm": "The length",
    "margin_mm": "A margin",
    "price_per_m2": "The price of a square metre",
    "price_per_m": "The price of a metre",
    "depth_mm": "The depth",
    "wood": "The wood",
    "density_kg_m3": "The density",
    "thickness_mm": "The thickness",
    "weight_gsm": "The weight",
    "stretch_percent": "How much it gives",
    "profile": "The name of the profile",
}

_KIND_NAMES: Final = {
    PresetKind.SHEET: "the sheet",
    PresetKind.ROLL: "the roll",
    PresetKind.BARS: "the bars",
    PresetKind.CANVAS: "the canvas",
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
            expected=f"at most {LONGEST_PRESETS} characters",
            got=str(len(text)),
            remedy="open a file of presets",
        )
    try:
        tree = parse_object(text)
    except FieldError as wrong:
        raise FieldError(
            field="presets",
            expected=wrong.expected,
            got=wrong.got,
            remedy="open a file of presets, or repair this one",
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
    got = shown(tree["version"]) if "version" in tree else "nothing"
    raise FieldError(
        field="version",
        expected=str(PRESETS_VERSION),
        got=got,
        remedy="open a file of presets that this version of the program has saved",
        said=f"The version of the presets must be {PRESETS_VERSION}; you gave {got}.",
    )


def _check_names(presets: Presets, kind: PresetKind) -> None:
    """Refuse a name that is given twice, or that nobody could type again."""
    known: set[str] = set()
    for place, entry in enumerate(entries(presets, kind)):
        field, name = f"{LIST_OF[kind]}.{place}.name", shown(entry.name)
        if entry.name != entry.name.strip() or not entry.name.isprintable():
            raise FieldError(
                field=field,
                expected="a line of text without spaces around it",
                got=name,
                remedy="write the name without them",
                said=f"The name {name} of an entry of {LIST_OF[kind]} must be a line of text without spaces "
                "around it.",
            )
        if entry.name in known:
            raise FieldError(
                field=field,
                expected="a name of its own",
                got=name,
                remedy="give one of them another name",
                said=f"Two entries of {LIST_OF[kind]} have the name {name}.",
            )
        known.add(entry.name)


def _fault_of(detail: ErrorDetails, tree: Mapping[str, Any]) -> FieldError:
    path = [str(part) for part in detail["loc"]]
    wrong = field_error(detail)
    kind = _KIND_OF.get(path[0]) if path else None
    if detail["type"] == "extra_forbidden":
        owner = "the presets" if kind is None else _entry(kind, path, tree)
        return FieldError(
            field=wrong.field,
            expected="a field of the presets",
            got="an unknown key",
            remedy="check its spelling, or leave it out",
            said=f"There is no field {shown(path[-1])} in {owner}.",
        )
    if kind is None:
        return FieldError(field="presets", expected=wrong.expected, got=wrong.got, remedy=wrong.remedy)
    expected, got, remedy = wrong.expected, wrong.got, wrong.remedy
    if len(path) == 1:
        subject, expected, remedy = f"The list “{path[0]}”", "a list of entries", "write [ … ]"
        if detail["type"] == "too_long":
            expected, remedy = f"a list of at most {MOST_PRESETS} entries", "leave some out"
            got = f"{len(detail['input'])}"
    elif len(path) == 2:
        entry = _entry(kind, path, tree)
        subject = entry[0].upper() + entry[1:]
    else:
        subject = f"{_NAMES[path[2]]} of {_entry(kind, path, tree)}"
        within = range_in(ENTRY_OF[kind], path[2])
        if within and detail["type"] not in {"too_long", "tuple_type"}:
            expected, remedy = within, "give a value in that range"
        if detail["type"] == "missing":
            expected = within or "given"
        elif detail["type"] == "string_too_short":
            expected, remedy = "a line of text", "write one"
    return FieldError(
        field=wrong.field,
        expected=expected,
        got=got,
        remedy=remedy,
        said=f"{subject} must be {expected}; you gave {got}.",
    )


def _entry(kind: PresetKind, path: list[str], tree: Mapping[str, Any]) -> str:
    """What an entry is called within a sentence: by its name where it has one, else by its number."""
    place = int(path[1])
    entry = tree[LIST_OF[kind]][place]
    name = entry.get("name") if isinstance(entry, Mapping) else None
    known = shown(name) if isinstance(name, str) and name else f"number {place + 1}"
    return f"{_KIND_NAMES[kind]} {known}"
