"""The committed schemas and table are those of the models, and are shaped as the generator of types needs."""

from __future__ import annotations

import json
from typing import Any

import pytest

from pycore.bridge import schema
from pycore.contract.descriptions import describe_fields, models_by_name
from pycore.contract.job import Job

#: Descriptions are read from the sources, which the browser's compiled core has not.
pytestmark = pytest.mark.native


@pytest.fixture(scope="module")
def written(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """The files as they are written now, by name."""
    folder = tmp_path_factory.mktemp("schemas")
    return {path.name: path.read_text(encoding="utf-8") for path in schema.write_schemas(folder)}


@pytest.fixture(scope="module")
def shaped() -> dict[str, Any]:
    """The contract's schema; nothing changes it."""
    return schema.bridge_schema()


@pytest.mark.parametrize(
    "name", ["contract.schema.json", "job.schema.json", "dependencies.json", "bar_rules.json"]
)
def test_the_committed_schema_is_that_of_the_models(name: str, written: dict[str, str]) -> None:
    committed = (schema.CONTRACT_FOLDER / name).read_text(encoding="utf-8")
    assert committed == written[name], "run: python -m pycore.bridge.schema, then npm run types in web/"


def test_nothing_at_the_bridge_is_ever_null(written: dict[str, str]) -> None:
    text = written["contract.schema.json"]
    assert '"null"' not in text
    # Derived: only the values of a note and of an error may be of several types.
    assert text.count('"anyOf"') == 2


def test_what_may_be_absent_is_optional_and_the_rest_is_required(shaped: dict[str, Any]) -> None:
    sheet = shaped["$defs"]["Sheet"]
    # derived: of Sheet's three fields only height_mm is declared `| None`.
    assert sheet["required"] == ["width_mm", "margin_mm"]
    assert sheet["properties"]["height_mm"]["type"] == "number"


def test_parameters_with_a_default_may_be_left_out(shaped: dict[str, Any]) -> None:
    # derived: ShowParams gives preview_px and fresh defaults, so that a caller must only name the job.
    assert shaped["$defs"]["ShowParams"]["required"] == ["job"]


def test_a_tuple_is_a_list_of_items_of_fixed_length(shaped: dict[str, Any], written: dict[str, str]) -> None:
    margin = shaped["$defs"]["Sheet"]["properties"]["margin_mm"]
    # derived: margin_mm is a tuple of four.
    assert len(margin["items"]) == margin["minItems"] == margin["maxItems"] == 4
    assert "prefixItems" not in written["contract.schema.json"]


def test_no_property_carries_a_title_that_would_name_a_type(shaped: dict[str, Any]) -> None:
    definitions: dict[str, Any] = shaped["$defs"]
    titled = [
        f"{name}.{field}"
        for name, one in definitions.items()
        for field, value in one.get("properties", {}).items()
        if "title" in value
    ]
    assert titled == []


def test_the_job_schema_is_the_contract_of_job_files() -> None:
    committed = json.loads((schema.CONTRACT_FOLDER / "job.schema.json").read_text(encoding="utf-8"))
    described = Job.model_json_schema(mode="validation")
    describe_fields(described, models_by_name())
    assert committed == described


def test_fields_are_described_where_the_models_describe_them(shaped: dict[str, Any]) -> None:
    definitions = shaped["$defs"]
    # derived: the texts that stand under these fields.
    assert definitions["Colour"]["properties"]["clip_threshold_de"]["description"].startswith("From which")
    assert definitions["ModelParams"]["properties"]["texture_px"]["description"].startswith("About how many")
