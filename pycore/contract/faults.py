"""What the contract's validator found wrong, in words for whoever gave it."""

from __future__ import annotations

import json
import re
from typing import Any, Final

from pydantic import BaseModel
from pydantic_core import ErrorDetails

from pycore.contract.migrations import newer_name
from pycore.errors import FieldError, shown
from pycore.field_names import nearest_field, unit_of
from pycore.speech import say

#: No field has a longer name.
_LONGEST_KEY: Final = 60


def field_error(detail: ErrorDetails) -> FieldError:
    """The clear error for one fault.

    Parameters
    ----------
    detail : ErrorDetails
        One of `ValidationError.errors()`.

    Returns
    -------
    FieldError

    Examples
    --------
    >>> from pydantic import ValidationError
    >>> from pycore.contract.job import Face
    >>> try:
    ...     Face.model_validate_json("3", strict=True)
    ... except ValidationError as wrong:
    ...     print(field_error(wrong.errors()[0]))
    The job must be an object with fields of its own; you gave 3. Write { … }, or leave it out.
    """
    field = ".".join(_plain(part) for part in detail["loc"]) or "job"
    kind = detail["type"]
    limits = detail.get("ctx", {})
    got = _json_words(detail["input"])
    expected, remedy = detail["msg"][0].lower() + detail["msg"][1:], say("give another value")
    said = ""
    if kind == "extra_forbidden":
        near = newer_name(field) or nearest_field(field)
        expected, got, remedy = (
            say("a field of the job"),
            say("an unknown key"),
            say("check its spelling, or leave it out"),
        )
        said = say(
            "The job has no field {field}{near}",
            field=field,
            near=say("; did you mean {near}?", near=near) if near else ".",
        )
    elif kind == "missing":
        expected, got, remedy = _range_of(field) or say("a value"), say("nothing"), say("give it as well")
    elif kind == "model_type":
        expected, remedy = say("an object with fields of its own"), say("write {{ … }}, or leave it out")
    elif kind == "tuple_type":
        expected, remedy = say("a list of numbers"), say("write for example [3,3,3,3] or [0.5,1]")
    elif kind == "too_long":
        expected, remedy = say("{limits} numbers", limits=limits["max_length"]), say("give as many")
    elif kind in {"greater_than_equal", "less_than_equal", "greater_than"}:
        expected, remedy = _range_of(field) or expected, say("give a value in that range")
    elif kind in {"enum", "literal_error"}:
        several = " or " in str(limits["expected"])
        # The validator puts the English word before the last of them.
        choices = str(limits["expected"]).replace(" or ", say(" or "))
        expected, remedy = (
            (say("one of {choices}", choices=choices), say("choose one of these"))
            if several
            else (choices, say("write that"))
        )
        newer = newer_name(field, str(detail["input"])).rpartition("=")[2]
        if newer:
            remedy = say("write {newer}, as “{detail}” is called", newer=newer, detail=detail["input"])
    elif kind in {"finite_number", "float_type", "int_type", "float_parsing"}:
        expected = _range_of(field) or say("a finite number")
        remedy = say("give a plain number, in the unit that the name says")
        if re.fullmatch(r"-?\d+,\d+", str(detail["input"])):
            remedy = say("write {number:s}, with a point", number=str(detail["input"]).replace(",", "."))
    elif kind == "string_type":
        expected, remedy = say("text"), say("write it between double quotes")
    elif kind == "string_pattern_mismatch" and field.endswith("sha256"):
        expected, remedy = (
            say("64 hexadecimal digits in lower case"),
            say("leave it out, and open the picture again"),
        )
    elif kind == "string_pattern_mismatch":
        expected, remedy = say("'edge' or a colour as '#rrggbb'"), say("write for example #d8cbb4")
        if newer_name(field, str(detail["input"])):
            remedy = say("write edge, as “arris” is called")
    elif kind == "string_too_long":
        expected, remedy = say("at most {limits} characters", limits=limits["max_length"]), say("shorten it")
    elif kind == "bool_type":
        expected, remedy = say("true or false"), say("write true or false")
    elif kind == "json_invalid":
        # Python's parser has passed it: what is left to refuse is half of a surrogate pair in a text.
        expected, got, remedy = (
            say("text that is Unicode"),
            say("half of a character"),
            say("write its \\u pair whole"),
        )
    return FieldError(field=field, expected=expected, got=got, remedy=remedy, said=said)


def _plain(part: str | int) -> str:
    """A key as it may stand in a message: with no control characters, not invisible, and not long."""
    text = str(part)
    return text if text and text.isprintable() and len(text) <= _LONGEST_KEY else shown(text)


def _json_words(value: Any) -> str:
    """A value in the words of a job file, not in Python's."""
    if value is None:
        return say("nothing (null)")
    return json.dumps(value) if isinstance(value, bool) else shown(value)


def _range_of(field: str) -> str | None:
    """`50 to 5000 mm`, read from the contract's own schema so that no message can disagree with it."""
    # A job without faults needs no schema, and a start is shorter without it.
    from pycore.contract.schema import field_schema

    schema = field_schema(field)
    if schema is None:
        return None
    low = schema.get("minimum", schema.get("exclusiveMinimum"))
    high = schema.get("maximum")
    if low is None or high is None:
        return None
    unit = unit_of(field)
    above = say("above ") if "exclusiveMinimum" in schema else ""
    return say(
        "{above}{low:g} to {high:g}{unit}{unit2}",
        above=above,
        low=low,
        high=high,
        unit=" " if unit else "",
        unit2=unit,
    )


#: The ends of names that tell a unit.
_UNITS = {"_mm": " mm", "_gsm": " g/m2", "_kg_m3": " kg/m3", "_percent": " percent"}


def range_in(kind: type[BaseModel], name: str) -> str:
    """The range of a model's field in words, read from the model so that no message can disagree with it.

    Parameters
    ----------
    kind : type of model
    name : str
        The field's; where it holds several numbers, they have one range.

    Returns
    -------
    str
        Empty where it has none.

    Examples
    --------
    >>> from pycore.contract.job import Canvas
    >>> range_in(Canvas, "thickness_mm"), range_in(Canvas, "coated")
    ('0 to 3 mm', '')
    """
    schema = kind.model_json_schema()["properties"].get(name, {})
    choices = schema.get("prefixItems", schema.get("anyOf", [schema]))
    for one in choices:
        low = one.get("minimum", one.get("exclusiveMinimum"))
        if low is not None and "maximum" in one:
            unit = next((unit for end, unit in _UNITS.items() if name.endswith(end)), "")
            return say(
                "{words}{low:g} to {one:.9g}{unit}",
                words=say("above ") if "exclusiveMinimum" in one else "",
                low=low,
                one=one["maximum"],
                unit=unit,
            )
    return ""


def option_error(detail: ErrorDetails, kind: type[BaseModel], *, prefix: str) -> FieldError:
    """The clear error for one fault among options.

    Parameters
    ----------
    detail : ErrorDetails
        One of `ValidationError.errors()`.
    kind : type of model
        The options' own, for their ranges.
    prefix : str
        What stands before a field's name where the user writes it.

    Returns
    -------
    FieldError
    """
    wrong = field_error(detail)
    name = str(detail["loc"][0]) if detail["loc"] else "options"
    schema = kind.model_json_schema()["properties"].get(name, {})
    expected, remedy = wrong.expected, wrong.remedy
    if "minimum" in schema and "maximum" in schema:
        expected, remedy = (
            say("{schema:.9g} to {schema2:.9g}", schema=schema["minimum"], schema2=schema["maximum"]),
            say("choose a number in that range"),
        )
    got = str(len(detail["input"])) if detail["type"] == "string_too_long" else wrong.got
    return FieldError(field=prefix + name.replace("_", "-"), expected=expected, got=got, remedy=remedy)
