"""Presets: what is wrong with a file is said in one sentence, with its field."""

from __future__ import annotations

import json
from typing import Any

import pytest
from pydantic import BaseModel

from pycore.contract.job import Bars, Canvas, Sheet
from pycore.contract.presets import (
    LONGEST_PRESETS,
    MOST_PRESETS,
    BarsPreset,
    CanvasPreset,
    RollPreset,
    SheetPreset,
)
from pycore.contract.presets_check import check_presets
from pycore.errors import FieldError

SHEET = {"name": "Matte", "width_mm": 297, "height_mm": 420}
ROLL = {"name": "Wide", "width_mm": 1118}
BARS = {"name": "Deep", "depth_mm": 38}
CANVAS = {"name": "Cotton", "thickness_mm": 0.45, "weight_gsm": 380}


def text(**lists: Any) -> str:
    return json.dumps({"version": 1, **lists})


def test_every_kind_is_read_and_written_the_same() -> None:
    lists = {
        "sheets": [{**SHEET, "margin_mm": [3, 3, 20, 3], "price_per_m2": 24.5}],
        "rolls": [{**ROLL, "length_mm": 12000, "margin_mm": [0, 5, 0, 5], "price_per_m2": 18}],
        "bars": [{**BARS, "width_mm": 45, "wood": "pine", "density_kg_m3": 480, "price_per_m": 3.2}],
        "canvases": [{**CANVAS, "stretch_percent": [0.5, 1], "profile": "cotton.icc"}],
    }
    read = check_presets(text(**lists))
    assert json.loads(read.model_dump_json()) == {"version": 1, **lists}


@pytest.mark.parametrize(
    ("given", "field", "message"),
    [
        ("{", "presets", "not JSON"),
        ("[]", "presets", "must be a JSON object; you gave []"),
        ('{"version": 1, "version": 1}', "presets", "the key 'version' stands twice"),
        ("{}", "version", "The version of the presets must be 1; you gave nothing."),
        ('{"version": 2}', "version", "The version of the presets must be 1; you gave 2."),
        ('{"version": true}', "version", "must be 1; you gave True."),
        (text(papers=[]), "papers", "There is no field 'papers' in the presets."),
        (text(sheets=3), "sheets", "The list “sheets” must be a list of entries; you gave 3."),
        (text(sheets=["A3"]), "sheets.0", "The sheet number 1 must be an object with fields of its own;"),
        (
            text(sheets=[{**SHEET, "width_mm": 0}]),
            "sheets.0.width_mm",
            "The width of the sheet 'Matte' must be 50 to 5000 mm; you gave 0.",
        ),
        (
            text(sheets=[SHEET, {"name": "B", "width_mm": 300}]),
            "sheets.1.height_mm",
            "The height of the sheet 'B' must be 50 to 20000 mm; you gave nothing.",
        ),
        (
            text(sheets=[{**SHEET, "margin_mm": [3, 3, 3]}]),
            "sheets.0.margin_mm.3",
            "A margin of the sheet 'Matte' must be 0 to 100 mm; you gave nothing.",
        ),
        (
            text(rolls=[{**ROLL, "price_per_m2": -1}]),
            "rolls.0.price_per_m2",
            "The price of a square metre of the roll 'Wide' must be 0 to 1000000; you gave -1.",
        ),
        (
            text(rolls=[{**ROLL, "length_mm": 0}]),
            "rolls.0.length_mm",
            "The length of the roll 'Wide' must be above 0 to 100000 mm; you gave 0.",
        ),
        (
            text(rolls=[{**ROLL, "height_mm": 300}]),
            "rolls.0.height_mm",
            "There is no field 'height_mm' in the roll 'Wide'.",
        ),
        (
            text(bars=[{**BARS, "price_per_m": "3"}]),
            "bars.0.price_per_m",
            "The price of a metre of the bars 'Deep' must be 0 to 1000000; you gave '3'.",
        ),
        (text(bars=[{**BARS, "wood": "oak"}]), "bars.0.wood", "The wood of the bars 'Deep' must be one of"),
        (text(bars=[BARS, BARS]), "bars.1.name", "Two entries of bars have the name 'Deep'."),
        (
            text(bars=[{"depth_mm": 38}]),
            "bars.0.name",
            "The name of the bars number 1 must be given; you gave nothing.",
        ),
        (
            text(bars=[{**BARS, "name": ""}]),
            "bars.0.name",
            "The name of the bars number 1 must be a line of text; you gave ''.",
        ),
        (text(bars=[{**BARS, "name": " x"}]), "bars.0.name", "without spaces around it"),
        (text(bars=[{**BARS, "name": "a\nb"}]), "bars.0.name", "must be a line of text"),
        (
            '{"version": 1, "canvases": [{"name": "Cotton", "thickness_mm": NaN, "weight_gsm": 380}]}',
            "canvases.0.thickness_mm",
            "The thickness of the canvas 'Cotton' must be 0 to 3 mm; you gave nan.",
        ),
        (
            text(canvases=[{**CANVAS, "stretch_percent": [0, 99]}]),
            "canvases.0.stretch_percent.1",
            "How much it gives of the canvas 'Cotton' must be -5 to 15 percent; you gave 99.",
        ),
    ],
)
def test_a_fault_is_one_sentence_with_its_field(given: str, field: str, message: str) -> None:
    with pytest.raises(FieldError) as caught:
        check_presets(given)
    assert caught.value.field == field
    assert message in str(caught.value)
    assert "\n" not in str(caught.value)


def test_too_much_is_refused() -> None:
    with pytest.raises(FieldError, match=f"at most {LONGEST_PRESETS} characters"):
        check_presets(text() + " " * LONGEST_PRESETS)
    many = [{**ROLL, "name": str(number)} for number in range(MOST_PRESETS + 1)]
    assert len(check_presets(text(rolls=many[:-1])).rolls) == MOST_PRESETS
    with pytest.raises(FieldError, match=r"a list of at most 200 entries; you gave 201\. Leave some out\."):
        check_presets(text(rolls=many))


def bounds(kind: type[BaseModel], field: str) -> list[dict[str, Any]]:
    """The numbers that a field's schema bounds."""
    node = kind.model_json_schema()["properties"][field]
    choices = node.get("prefixItems", node.get("anyOf", [node]))
    return [{key: one[key] for key in ("minimum", "maximum")} for one in choices if "maximum" in one]


@pytest.mark.parametrize(
    ("preset", "of_job", "fields"),
    [
        (SheetPreset, Sheet, ("width_mm", "height_mm", "margin_mm")),
        (RollPreset, Sheet, ("width_mm", "margin_mm")),
        (BarsPreset, Bars, ("depth_mm", "width_mm", "density_kg_m3")),
        (CanvasPreset, Canvas, ("thickness_mm", "weight_gsm", "stretch_percent")),
    ],
)
def test_bounds_are_those_of_the_job(
    preset: type[BaseModel], of_job: type[BaseModel], fields: tuple[str, ...]
) -> None:
    for field in fields:
        assert bounds(preset, field) == bounds(of_job, field) != []
        # What a preset leaves out is what a job has that leaves it out.
        ours, theirs = preset.model_fields[field], of_job.model_fields[field]
        assert ours.is_required() or ours.default == theirs.default
