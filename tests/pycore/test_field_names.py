"""Every field of the job has a plain name and its unit; a misspelt one finds its nearest."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from pycore.contract.job import Job
from pycore.contract.schema import job_schema
from pycore.errors import FieldError, OutputError
from pycore.field_names import FIELD_NAMES, nearest_field, plain_name, unit_of

SIDES = ("top", "right", "bottom", "left")

#: Derived: the units that the contract's names end in.
UNITS = {
    "mm": "mm",
    "percent": "percent",
    "gsm": "g/m2",
    "ppi": "pixels per inch",
    "de": "ΔE00",
    "m3": "kg/m3",
}


def fields(tree: dict[str, Any], prefix: str = "") -> Iterator[str]:
    for name, value in tree.items():
        yield f"{prefix}{name}"
        if isinstance(value, dict):
            yield from fields(value, f"{prefix}{name}.")


def all_fields() -> set[str]:
    parts = job_schema()["$defs"]
    crop = {f"picture.crop.{name}" for name in parts["Crop"]["properties"]}
    own = {f"sides.{side}.{name}" for side in SIDES for name in parts["SideFill"]["properties"]}
    return {*fields(Job().model_dump(mode="json")), *crop, *own}


def test_every_field_has_a_name_that_is_not_its_own() -> None:
    for field in all_fields():
        assert plain_name(field) != field, field
        assert plain_name(field)[0].isupper(), field


def test_no_name_is_left_over() -> None:
    lists = (("sheet.margin_mm", 4), ("canvas.stretch_percent", 2))
    entries = {f"{field}.{place}" for field, count in lists for place in range(count)}
    assert set(FIELD_NAMES) <= all_fields() | entries


def test_units_are_those_that_the_names_end_in() -> None:
    for field in all_fields():
        last = field.rpartition(".")[2]
        ending = last.rpartition("_")[2]
        if ending in UNITS:
            assert unit_of(field) == UNITS[ending], field
        elif field != "picture.turn":
            assert unit_of(field) == "", field


@pytest.mark.parametrize(
    ("written", "nearest"),
    [
        ("bars.depth", "bars.depth_mm"),
        ("depth_mm", "bars.depth_mm"),
        ("face.widht_mm", "face.width_mm"),
        ("width_mm", "face.width_mm"),
        ("sides.left.fil", "sides.left.fill"),
        ("sides.colour_mm", "sides.colour"),
        ("wrap.turnover", "wrap.turnover_mm"),
        ("color.intent", "colour.intent"),
        ("__proto__", ""),
        ("toString", ""),
        ("wheels", ""),
    ],
)
def test_a_misspelt_field_finds_its_nearest(written: str, nearest: str) -> None:
    assert nearest_field(written) == nearest


def test_an_error_speaks_in_sentences() -> None:
    wrong = FieldError(field="bars.depth_mm", expected="6 to 100 mm", got="3", remedy="use deeper bars")
    assert wrong.message == "Bar depth must be 6 to 100 mm; you gave 3."
    assert str(wrong) == "Bar depth must be 6 to 100 mm; you gave 3. Use deeper bars."
    moved = wrong.about("--depths")
    assert moved.message == "--depths must be 6 to 100 mm; you gave 3."
    assert (moved.code, moved.field, moved.got) == ("field", "--depths", "3")
    made = OutputError(field="out", expected="8 bits", got="16", remedy="try again")
    assert made.message == "The written file must be 8 bits; it is 16."
    said = FieldError(field="x", expected="a", got="b", remedy="mend it", said="The job has no field x.")
    assert str(said) == "The job has no field x. Mend it."
