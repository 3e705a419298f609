"""Jobs of earlier versions, brought to the present one; what they leave out means what it meant then.

`sides.seed`, a number that chose among made-up sides, stood in version 1 and in early files of version 2.
Continued sides follow the picture's lines and need no number, so it is left out.
"""

from __future__ import annotations

import copy
from collections.abc import Mapping
from typing import Any, Final

from pycore.contract.job import JOB_VERSION
from pycore.contract.json_object import Tree
from pycore.contract.notes import Note, Place, Severity
from pycore.errors import FieldError
from pycore.speech import say

#: What version 1 meant where a job said nothing, in the parts whose defaults have changed.
_DEFAULTS_1: Final[Mapping[str, Mapping[str, float]]] = {
    "face": {"width_mm": 400.0, "height_mm": 300.0},
    "bars": {"depth_mm": 38.0},
}

#: Values of version 1 that have another name.
_FILLS: Final = {"carry": "run-on", "draw-out": "drawn-out", "grown": "continued"}
_CORNERS: Final = {"relieved": "cut-back"}
_COLOURS: Final = {"arris": "edge"}

#: Fields of version 1 that have another name.
_SIDE_FIELDS: Final = {"softness_mm": "blur_mm"}

#: The greatest number that `sides.seed` could be.
_LAST_SEED: Final = 9999

_SIDE_NAMES: Final = ("top", "right", "bottom", "left")


def migrated(tree: Mapping[str, Any]) -> Tree:
    """Bring a parsed job to the present version.

    Parameters
    ----------
    tree : mapping
        A job as parsed JSON; not changed. Without a version it is of the present one.

    Returns
    -------
    dict

    Raises
    ------
    FieldError
        The job is of a version that this program does not know.

    Examples
    --------
    >>> migrated({"version": 1, "bars": {}, "sides": {"fill": "carry"}})["sides"]
    {'fill': 'run-on'}
    >>> migrated({"version": 1})["bars"]
    {'depth_mm': 38.0}
    """
    version = tree.get("version", JOB_VERSION)
    if type(version) is int and version > JOB_VERSION:
        raise FieldError(
            field="version",
            expected=say("1 to {latest}", latest=JOB_VERSION),
            got=str(version),
            remedy=say("open it with that version, or update this one"),
            said=say(
                "The job is of version {version}, which a later version of this program saved; "
                "versions 1 to {latest} can be opened.",
                version=version,
                latest=JOB_VERSION,
            ),
        )
    if version != 1 or isinstance(version, bool):
        return _without_seed(tree)
    job = copy.deepcopy(_without_seed(tree))
    job["version"] = JOB_VERSION
    for part, defaults in _DEFAULTS_1.items():
        own = job.setdefault(part, {})
        if isinstance(own, dict):
            job[part] = {**defaults, **own}
    wrap, sides = job.get("wrap"), job.get("sides")
    if isinstance(wrap, dict):
        _rename_value(wrap, "corners", _CORNERS)
    if isinstance(sides, dict):
        for one in (sides, *(sides.get(name) for name in _SIDE_NAMES)):
            if isinstance(one, dict):
                _rename_side(one)
    return job


def opening_notes(tree: Mapping[str, Any]) -> list[Note]:
    """Tell what of a job of an earlier version is worth a look when it is opened.

    Parameters
    ----------
    tree : mapping
        A job as parsed JSON, as it was before `migrated`.

    Returns
    -------
    list of Note
        Empty for a job of the present version.

    Examples
    --------
    >>> [note.code for note in opening_notes({"version": 1, "sides": {"left": {"fill": "grown"}}})]
    ['job-older', 'continued-renamed']
    >>> opening_notes({"version": 2})
    []
    """
    version = tree.get("version")
    sides = tree.get("sides")
    parts = [sides, *(sides.get(name) for name in _SIDE_NAMES)] if isinstance(sides, dict) else []
    filled = {one.get("fill") for one in parts if isinstance(one, dict)}
    if version != 1 or isinstance(version, bool):
        return [_seed_note()] if "continued" in filled and _has_seed(tree) else []
    notes = [
        Note(
            code="job-older",
            severity=Severity.HINT,
            place=Place.FACE,
            message=say(
                "The job was saved by version 1 of this program. It opens as it was; what it leaves out "
                "keeps the defaults of version 1."
            ),
            remedy=say("Save it to bring the file to the present version."),
        )
    ]
    if "grown" in filled:
        notes.append(
            Note(
                code="continued-renamed",
                severity=Severity.WATCH,
                place=Place.FACE,
                message=say(
                    "Version 1 called the fill of some sides “grown”; it is called “continued”. They follow "
                    "the lines that run into the edge, so they look different{left_out}.",
                    left_out=say(", and the number that chose among them is left out")
                    if _has_seed(tree)
                    else "",
                ),
                remedy=say("Look at these sides before you print."),
                field="sides.fill",
            )
        )
    return notes


def newer_name(field: str, value: str = "") -> str:
    """Tell what a name or value of version 1 is called in the present version.

    Parameters
    ----------
    field : str
        A dotted field name.
    value : str
        Its value as text.

    Returns
    -------
    str
        For example `sides.blur_mm`, or `sides.fill=run-on`; empty where nothing has another name.

    Examples
    --------
    >>> newer_name("sides.left.softness_mm"), newer_name("sides.fill", "carry"), newer_name("name")
    ('sides.left.blur_mm', 'sides.fill=run-on', '')
    """
    *path, last = field.split(".")
    if path[:1] == ["sides"] and last in _SIDE_FIELDS:
        return ".".join((*path, _SIDE_FIELDS[last]))
    values = {"fill": _FILLS, "corners": _CORNERS, "colour": _COLOURS}.get(last, {})
    if path[:1] in (["sides"], ["wrap"]) and value in values:
        return f"{field}={values[value]}"
    return ""


def _seed_note() -> Note:
    return Note(
        code="continued-anew",
        severity=Severity.WATCH,
        place=Place.FACE,
        message=say(
            "The continued sides look different: they follow the lines that run into the edge. The number "
            "that chose among them is left out."
        ),
        remedy=say("Look at these sides before you print."),
        field="sides.fill",
    )


def _has_seed(tree: Mapping[str, Any]) -> bool:
    sides = tree.get("sides")
    seed = sides.get("seed") if isinstance(sides, dict) else None
    return type(seed) is int and 0 <= seed <= _LAST_SEED


def _without_seed(tree: Mapping[str, Any]) -> Tree:
    job = dict(tree)
    if _has_seed(tree):
        job["sides"] = {name: value for name, value in tree["sides"].items() if name != "seed"}
    return job


def _rename_side(side: Tree) -> None:
    for old, new in _SIDE_FIELDS.items():
        if old in side and new not in side:
            side[new] = side.pop(old)
    _rename_value(side, "fill", _FILLS)
    _rename_value(side, "colour", _COLOURS)


def _rename_value(part: Tree, name: str, values: Mapping[str, str]) -> None:
    given = part.get(name)
    if isinstance(given, str):
        part[name] = values.get(given, given)
