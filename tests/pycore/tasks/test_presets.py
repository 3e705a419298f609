"""Presets taken into a job and a plan, and kept from a job."""

from __future__ import annotations

import pytest

from pycore.contract.check import check_job
from pycore.contract.job import Job
from pycore.contract.presets import PresetKind, Presets
from pycore.contract.presets_check import check_presets_tree
from pycore.errors import FieldError
from pycore.plan.options import PlanJob, PlanOptions
from pycore.tasks.plan import plan_jobs
from pycore.tasks.presets import join_presets, keep_preset, preset_stock, take_preset

OWN = check_presets_tree(
    {
        "version": 1,
        "sheets": [{"name": "Matte", "width_mm": 594, "height_mm": 841, "margin_mm": [5, 5, 20, 5]}],
        "rolls": [{"name": "Wide", "width_mm": 1118, "length_mm": 500, "price_per_m2": 20}],
        "bars": [
            {"name": "Deep", "depth_mm": 38, "width_mm": 45, "wood": "pine", "price_per_m": 3},
            {"name": "Broad", "depth_mm": 38, "width_mm": 150},
        ],
        "canvases": [
            {
                "name": "Cotton",
                "thickness_mm": 0.5,
                "weight_gsm": 410,
                "stretch_percent": [0.5, 1],
                "profile": "cotton.icc",
            },
            {"name": "Bare", "thickness_mm": 0.6, "weight_gsm": 300},
        ],
    }
)
JOB = check_job({"name": "Low tide", "canvas": {"coated": True}, "colour": {"profile": "mine.icc"}})


def taken(kind: PresetKind, name: str) -> Job:
    return take_preset(JOB, OWN, kind=kind, name=name)


def test_each_kind_changes_its_part_alone() -> None:
    sheet = taken(PresetKind.SHEET, "Matte")
    assert sheet.sheet.model_dump(mode="json") == {
        "width_mm": 594,
        "height_mm": 841,
        "margin_mm": [5, 5, 20, 5],
    }
    assert sheet.model_copy(update={"sheet": JOB.sheet}) == JOB
    assert taken(PresetKind.ROLL, "Wide").sheet.height_mm is None
    bars = taken(PresetKind.BARS, "Deep")
    assert (bars.bars.depth_mm, bars.bars.width_mm, bars.bars.wood.value) == (38, 45, "pine")
    assert bars.model_copy(update={"bars": JOB.bars}) == JOB
    cotton = taken(PresetKind.CANVAS, "Cotton")
    assert (cotton.canvas.weight_gsm, cotton.canvas.coated, cotton.colour.profile) == (
        410,
        True,
        "cotton.icc",
    )
    assert taken(PresetKind.CANVAS, "Bare").colour.profile == "mine.icc"


def test_what_the_job_cannot_have_is_refused() -> None:
    with pytest.raises(FieldError) as caught:
        taken(PresetKind.BARS, "Broad")
    assert caught.value.field == "bars.width_mm"
    with pytest.raises(
        FieldError, match=r"no entry 'Oak' among their bars\. Choose one of 'Deep', 'Broad'\."
    ):
        taken(PresetKind.BARS, "Oak")
    with pytest.raises(FieldError, match="save an entry of that kind first".capitalize()):
        take_preset(JOB, Presets(), kind=PresetKind.ROLL, name="Wide")


def test_a_roll_is_planned_no_longer_than_it_is() -> None:
    roll = preset_stock(OWN, kind=PresetKind.ROLL, name="Wide")
    plan = plan_jobs([PlanJob(name="a", job=Job(), copies=4)], options=PlanOptions(stocks=(roll,), gap_mm=0))
    # Derived: the canvas is 390.9 x 290.9 mm (test_make.py), two lie across 1118 mm, and two such rows are
    # 581.8 mm long: more than the 500 mm that are on the roll.
    assert [sheet.height_mm for sheet in plan.sheets] == pytest.approx([290.9, 290.9], abs=0.05)
    # Derived: 1.118 m x 0.5818 m at 20 a square metre.
    assert plan.figures.cost == pytest.approx(13.009, abs=5e-4)


def test_presets_are_joined_by_name() -> None:
    other = check_presets_tree(
        {
            "version": 1,
            "rolls": [{"name": "Narrow", "width_mm": 432}],
            "bars": [{"name": "Broad", "depth_mm": 20}, {"name": "Deep", "depth_mm": 38, "width_mm": 45}],
            "sheets": [entry.model_dump(mode="json", exclude_none=True) for entry in OWN.sheets],
        }
    )
    joined = join_presets(OWN, other)
    assert (joined.added, joined.replaced) == (1, 2)
    assert [entry.name for entry in joined.presets.rolls] == ["Wide", "Narrow"]
    assert joined.presets.bars == (other.bars[1], other.bars[0])
    assert joined.presets.canvases == OWN.canvases


def test_what_is_kept_gives_the_job_back() -> None:
    own = Presets()
    for kind, price in ((PresetKind.SHEET, 12.5), (PresetKind.BARS, 3.0), (PresetKind.CANVAS, None)):
        own = keep_preset(own, JOB, kind=kind, name="Mine", price=price)
    assert (own.sheets[0].price_per_m2, own.bars[0].price_per_m) == (12.5, 3)
    again = check_job({"name": "Low tide", "canvas": {"coated": True}, "bars": {"depth_mm": 60}})
    for kind in (PresetKind.SHEET, PresetKind.BARS, PresetKind.CANVAS):
        again = take_preset(again, own, kind=kind, name="Mine")
    assert again == JOB


def test_an_entry_of_the_name_is_replaced_in_its_place() -> None:
    own = keep_preset(OWN, JOB, kind=PresetKind.BARS, name="Deep")
    assert [entry.name for entry in own.bars] == ["Deep", "Broad"]
    assert (own.bars[0].depth_mm, own.bars[0].price_per_m) == (20, None)


@pytest.mark.parametrize(
    ("name", "price", "field"), [("", None, "sheets.1.name"), ("New", -2.0, "sheets.1.price_per_m2")]
)
def test_what_cannot_be_kept_is_refused(name: str, price: float | None, field: str) -> None:
    with pytest.raises(FieldError) as caught:
        keep_preset(OWN, JOB, kind=PresetKind.SHEET, name=name, price=price)
    assert caught.value.field == field
    with pytest.raises(FieldError, match="The job has a sheet, not a roll"):
        keep_preset(OWN, JOB, kind=PresetKind.ROLL, name="New")
