"""Checking what a plan is asked for: one clear sentence for the first thing that is wrong."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any, Final, TypeVar

from pydantic import BaseModel, ValidationError

from pycore.contract.faults import field_error, range_in
from pycore.errors import FieldError, shown
from pycore.plan.options import Pin, PlanJob, PlanOptions, Stock
from pycore.speech import say

Kind = TypeVar("Kind", bound=BaseModel)

#: What the fields are called in a sentence.
_NAMES: Final = {
    "stocks": say("The sheets and rolls"),
    "name": say("The name of a sheet or roll"),
    "width_mm": say("The width of a sheet or roll"),
    "height_mm": say("The height of a sheet"),
    "margin_mm": say("A margin"),
    "longest_mm": say("The longest piece of a roll"),
    "price_per_m2": say("The price of a square metre"),
    "gap_mm": say("The gap between pieces"),
    "knife_mm": say("The knife's width"),
    "turning": say("Whether pieces may be turned"),
    "pins": say("The pinned pieces"),
    "piece": say("The name of a pinned piece"),
    "sheet": say("The sheet of a pinned piece"),
    "x_mm": say("The place of a pinned piece across"),
    "y_mm": say("The place of a pinned piece down"),
    "turned": say("Whether a pinned piece is turned"),
    "copies": say("The number of copies"),
}

_UNKNOWN: Final = say("A plan's options")


def check_options(tree: Mapping[str, Any]) -> PlanOptions:
    """Check options of a plan.

    Parameters
    ----------
    tree : mapping
        As parsed JSON. `None` stands for an absent optional value.

    Returns
    -------
    PlanOptions

    Raises
    ------
    FieldError
        For the first thing that is wrong.

    Examples
    --------
    >>> check_options({"stocks": [{"width_mm": 610}], "gap_mm": 4}).gap_mm
    4.0
    """
    return _checked(PlanOptions, tree)


def check_copies(copies: object) -> int:
    """Check how many copies of a job are wanted.

    Parameters
    ----------
    copies : object

    Returns
    -------
    int

    Raises
    ------
    FieldError
        It is no whole number in range.

    Examples
    --------
    >>> check_copies(3)
    3
    """
    return _checked(PlanJob, {"name": "", "job": {}, "copies": copies}).copies


def _checked(kind: type[Kind], tree: Mapping[str, Any]) -> Kind:
    try:
        return kind.model_validate_json(json.dumps(tree), strict=True)
    except ValidationError as wrong:
        detail = wrong.errors(include_url=False)[0]
    path = [str(part) for part in detail["loc"]]
    words = [part for part in path if not part.isdigit()]
    last = words[-1] if words else ""
    owner: type[BaseModel] = kind
    if words[1:]:
        owner = Stock if words[0] == "stocks" else Pin
    name = _NAMES.get(last, _UNKNOWN)
    got = shown(detail["input"])
    if detail["type"] == "extra_forbidden":
        raise FieldError(
            field=".".join(path),
            expected=say("an option of a plan"),
            got=shown(last),
            remedy=say("check its spelling, or leave it out"),
            said=say("A plan has no option {last}.", last=shown(last)),
        )
    within = range_in(owner, last)
    expected = within or (say("a list") if detail["type"] == "tuple_type" else field_error(detail).expected)
    if detail["type"] == "missing":
        got = say("nothing")
    raise FieldError(
        field=".".join(path) or "options",
        expected=expected,
        got=got,
        remedy=say("give a value in that range") if within else say("give another value"),
        said=say("{name} must be {expected}; you gave {got}.", name=name, expected=expected, got=got),
    )
