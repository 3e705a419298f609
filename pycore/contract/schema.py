"""The JSON Schema of the job, and looking a dotted field up in it."""

from __future__ import annotations

import copy
import json
from functools import lru_cache
from typing import Any

from pycore.contract.descriptions import describe_fields, models_by_name
from pycore.contract.job import Job


@lru_cache(maxsize=1)
def job_schema() -> dict[str, Any]:
    """The contract as JSON Schema (draft 2020-12).

    Returns
    -------
    dict

    Examples
    --------
    >>> job_schema()["title"]
    'Job'
    """
    return Job.model_json_schema(mode="validation")


def schema_text() -> str:
    """The schema as the text of the file that the page's types are generated from.

    Examples
    --------
    >>> json.loads(schema_text())["title"]
    'Job'
    """
    schema = copy.deepcopy(job_schema())
    describe_fields(schema, models_by_name())
    return json.dumps(schema, indent=2, ensure_ascii=False) + "\n"


def field_schema(field: str) -> dict[str, Any] | None:
    """The part of the schema that describes one dotted field.

    Parameters
    ----------
    field : str
        For example `face.width_mm` or `sheet.margin_mm.0`.

    Returns
    -------
    dict or None
        None where the contract has no such field.

    Examples
    --------
    >>> field_schema("bars.depth_mm")["maximum"]
    100.0
    >>> field_schema("bars.colour") is None
    True
    """
    root = job_schema()
    node: dict[str, Any] | None = root
    for part in field.split("."):
        node = _child(root, node, part)
        if node is None:
            return None
    return _resolved(root, node)


def _child(root: dict[str, Any], node: dict[str, Any] | None, part: str) -> dict[str, Any] | None:
    here = _resolved(root, node)
    if here is None:
        return None
    if part.isdigit():
        items: list[dict[str, Any]] = here.get("prefixItems", [])
        return items[int(part)] if int(part) < len(items) else None
    child: dict[str, Any] | None = here.get("properties", {}).get(part)
    return child


def _resolved(root: dict[str, Any], node: dict[str, Any] | None) -> dict[str, Any] | None:
    """Follow references, and the one kind that is not null where a value may be absent."""
    while node is not None:
        if "$ref" in node:
            node = root["$defs"][node["$ref"].rpartition("/")[2]]
        elif "anyOf" in node:
            node = next((one for one in node["anyOf"] if one.get("type") != "null"), None)
        else:
            return node
    return None
