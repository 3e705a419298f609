"""The fields of a job file as the guide lists them, read from the job's schema."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from html import escape
from typing import Any, Final

from pycore.contract.job import Job
from pycore.contract.schema import schema_text

#: The unit by a name's ending; longest first.
_UNITS: Final = {
    "_mm": "mm",
    "_gsm": "g/m²",
    "_percent": "%",
    "_de": "ΔE00",
    "ppi": "pixels per inch",
    "turn": "degrees",
}

#: Fields of one side that follow those of all sides; listed once.
_SIDES: Final = ("top", "right", "bottom", "left")


@dataclass(frozen=True, kw_only=True)
class FieldRow:
    """A line of the table, as text."""

    field: str
    unit: str
    values: str
    default: str
    meaning: str


def field_rows() -> list[FieldRow]:
    """Every field of the job, in the order of the file.

    Returns
    -------
    list of FieldRow

    Raises
    ------
    ValueError
        A field has no text in the contract.
    """
    schema: dict[str, Any] = json.loads(schema_text())
    defaults = Job().model_dump(mode="json")
    rows = list(_rows(schema, schema, (), defaults))
    silent = [row.field for row in rows if not row.meaning]
    if silent:
        raise ValueError(f"pycore/contract/job.py says nothing of {', '.join(silent)}")
    return rows


def table_html() -> str:
    """The table's rows as HTML."""
    lines = []
    for row in field_rows():
        cells = (f"<code>{escape(row.field)}</code>", row.unit, row.values, row.default, row.meaning)
        tail = "".join(f"<td>{one if one.startswith('<') else escape(one)}</td>" for one in cells[1:])
        lines.append(f'          <tr><th scope="row">{cells[0]}</th>{tail}</tr>')
    return "\n".join(lines)


def _rows(
    root: dict[str, Any], model: dict[str, Any], path: tuple[str, ...], defaults: Any
) -> Iterator[FieldRow]:
    for name, given in model["properties"].items():
        if path == ("sides",) and name in _SIDES:
            if name == _SIDES[0]:
                yield FieldRow(
                    field="sides.top, .right, .bottom, .left",
                    unit="",
                    values="fill, blur_mm, band_mm, colour",
                    default="absent",
                    meaning="One side's own; what is absent follows all sides.",
                )
            continue
        node, may_be_absent = _plain(root, given)
        default = None if defaults is None else defaults.get(name)
        if "properties" in node and not may_be_absent:
            yield from _rows(root, node, (*path, name), default)
            continue
        yield FieldRow(
            field=".".join((*path, name)),
            unit=next((unit for end, unit in _UNITS.items() if name.endswith(end)), ""),
            values=_values(root, node),
            default="absent" if default is None else _value(default),
            meaning=given.get("description", ""),
        )


def _plain(root: dict[str, Any], node: dict[str, Any]) -> tuple[dict[str, Any], bool]:
    """A node without its reference, and whether it may be absent."""
    kinds = node.get("anyOf", [node])
    (kept,) = [one for one in kinds if one != {"type": "null"}]
    if "$ref" in kept:
        kept = root["$defs"][kept["$ref"].rsplit("/", 1)[1]]
    return kept, len(kinds) > 1


def _values(root: dict[str, Any], node: dict[str, Any]) -> str:
    """What may stand there."""
    if "const" in node:
        return _value(node["const"])
    if "enum" in node:
        return ", ".join(_value(one) for one in node["enum"])
    if "prefixItems" in node:
        items = [_plain(root, one)[0] for one in node["prefixItems"]]
        return f"{len(items)} numbers, {_values(root, items[0])} each"
    if "properties" in node:
        parts = [f"{name} {_values(root, _plain(root, one)[0])}" for name, one in node["properties"].items()]
        return "; ".join(parts)
    if node.get("pattern"):
        return "64 hexadecimal digits, or empty" if "[0-9a-f]{64}" in node["pattern"] else "edge, #rrggbb"
    if node["type"] == "boolean":
        return "true, false"
    if node["type"] == "string":
        return f"text, at most {node['maxLength']} characters"
    low = node.get("minimum", node.get("exclusiveMinimum"))
    words = f"{low:g} to {node['maximum']:g}"
    return f"over {words}" if "exclusiveMinimum" in node else words


def _value(value: Any) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, (int, float)):
        return f"{value:g}"
    if isinstance(value, list):
        return ", ".join(_value(one) for one in value)
    return str(value) or "empty"
