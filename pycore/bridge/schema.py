"""The contract between page and core as a JSON Schema that TypeScript types are generated from.

Run as `python -m pycore.bridge.schema`, it writes `web/src/contract/contract.schema.json` (all messages, in
the shape that the generator of types understands) and `job.schema.json` beside it (the job file's own
schema, unchanged), `dependencies.json` (what each result depends on) and `bar_rules.json` (the rules of thumb
by which the stage draws bars and fittings). Tests hold all four, and the types
made from them, to the models.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any, Final

from pycore.bars.rules import DRAWN
from pycore.bridge.messages import Contract
from pycore.contract.dependencies import DEPENDENCIES
from pycore.contract.descriptions import describe_fields, models_by_name
from pycore.contract.schema import schema_text as job_schema_text

#: Where the two schemas lie in the repository.
CONTRACT_FOLDER: Final = Path(__file__).resolve().parents[2] / "web" / "src" / "contract"

Node = dict[str, Any]


def bridge_schema() -> Node:
    """Every message at the bridge as JSON Schema, shaped for generating types.

    It differs from pydantic's own schema where the bridge is stricter or the generator plainer: what may be
    absent is an optional property and never null; what has a default is always present, except in the
    parameters of a call, where the caller may leave it out; a tuple is an array of listed items; properties
    carry no titles, which would otherwise each become a type's name.

    Returns
    -------
    dict

    Examples
    --------
    >>> bridge_schema()["$defs"]["ShowReply"]["required"]
    ['job', 'layout', 'bars', 'panels', 'worker_ms']
    """
    schema = Contract.model_json_schema(mode="serialization")
    describe_fields(schema, models_by_name())
    definitions: Node = schema.pop("$defs")
    shaped = _model(schema, defaults_may_be_left_out=False)
    shaped["$defs"] = {
        name: _model(one, defaults_may_be_left_out=name.endswith("Params"))
        for name, one in sorted(definitions.items())
    }
    return shaped


def schema_text() -> str:
    """The shaped schema as the text of its file."""
    return json.dumps(bridge_schema(), indent=2, ensure_ascii=False) + "\n"


def dependencies_text() -> str:
    """What each result depends on, as the text of the file that the page's keys are made from."""
    table = {
        result.value: {
            "fields": list(depends.fields),
            "while_bringing_in": list(depends.while_bringing_in),
        }
        for result, depends in DEPENDENCIES.items()
    }
    return json.dumps(table, indent=2) + "\n"


def bar_rules_text() -> str:
    """The numbers by which the stage draws bars and fittings, as the text of their file."""
    return json.dumps(DRAWN, indent=2) + "\n"


def write_schemas(folder: Path) -> list[Path]:
    """Write the schemas and the table into a folder.

    Parameters
    ----------
    folder : Path
        An existing folder.

    Returns
    -------
    list of Path
        The files written: the contract's, the job's, the table of dependencies, the rules for bars.

    Raises
    ------
    OSError
        The folder is missing or cannot be written to.
    """
    files = {
        folder / "contract.schema.json": schema_text(),
        folder / "job.schema.json": job_schema_text(),
        folder / "dependencies.json": dependencies_text(),
        folder / "bar_rules.json": bar_rules_text(),
    }
    for path, text in files.items():
        path.write_text(text, encoding="utf-8", newline="\n")
    return list(files)


def _model(node: Node, *, defaults_may_be_left_out: bool) -> Node:
    """One named definition: a model with properties, or an enum, which stays as it is."""
    if "properties" not in node:
        return dict(node)
    properties: Node = node["properties"]
    required = [
        name
        for name, one in properties.items()
        if not _nullable(one) and not (defaults_may_be_left_out and "default" in one)
    ]
    shaped = {key: value for key, value in node.items() if key not in {"properties", "required"}}
    shaped["properties"] = {name: _property(one) for name, one in properties.items()}
    if required:
        shaped["required"] = required
    return shaped


def _nullable(node: Node) -> bool:
    return {"type": "null"} in node.get("anyOf", [])


def _property(node: Node) -> Node:
    """The schema of a value, without title, default or null, and with tuples as listed items."""
    if _nullable(node):
        (kept,) = [one for one in node["anyOf"] if one != {"type": "null"}]
        node = {**kept, **{key: value for key, value in node.items() if key != "anyOf"}}
    shaped = {key: value for key, value in node.items() if key not in {"title", "default"}}
    if "prefixItems" in shaped:
        # The generator reads tuples as JSON Schema's draft 4 wrote them: `items` as a list.
        shaped["items"] = [_property(one) for one in shaped.pop("prefixItems")]
    elif isinstance(shaped.get("items"), dict):
        shaped["items"] = _property(shaped["items"])
    if "$ref" in shaped and len(shaped) > 1:
        # A reference with words beside it would make a second, numbered type of the same name.
        shaped["allOf"] = [{"$ref": shaped.pop("$ref")}]
    return shaped


if __name__ == "__main__":
    for written in write_schemas(CONTRACT_FOLDER):
        print(f"wrote {written.name}")
