"""What a user gives becomes a checked job or one clear error."""

from __future__ import annotations

import json
import sys
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pycore.contract.check import check_job, job_tree, parse_job, read_job
from pycore.contract.edits import edit_tree
from pycore.contract.job import Fill, Job, side_fill
from pycore.conventions import Side
from pycore.errors import FieldError

# The contract's own table: field, smallest, largest.
BOUNDS = [
    ("face.width_mm", 50, 5000),
    ("face.height_mm", 50, 5000),
    ("bars.depth_mm", 6, 100),
    ("wrap.turnover_mm", 0, 150),
    ("wrap.setback_mm", 0, 5),
]


def edited(*edits: str) -> Job:
    return check_job(edit_tree(job_tree(Job()), edits))


def test_defaults_are_the_contract_s() -> None:
    """Derived from the contract's table of defaults."""
    job = Job()
    assert (job.face.width_mm, job.face.height_mm, job.bars.depth_mm) == (300, 200, 20)
    assert (job.wrap.turnover_mm, job.wrap.ink_over_mm, job.wrap.setback_mm, job.wrap.tab_mm) == (
        25,
        6,
        0,
        10,
    )
    assert (job.sheet.width_mm, job.sheet.height_mm, job.sheet.margin_mm) == (329, 483, (3, 3, 3, 3))
    assert (job.sides.fill.value, job.sides.blur_mm, job.sides.band_mm) == ("mirror", 0, 3)
    assert (job.canvas.thickness_mm, job.canvas.weight_gsm, job.canvas.stretch_percent) == (0.45, 380, (0, 0))
    assert (job.colour.intent.value, job.colour.black_point_compensation) == ("relative", True)
    assert (job.print.ppi, job.print.convert.value, job.print.bits, job.print.marks) == (300, "keep", 8, True)


@pytest.mark.parametrize(("field", "low", "high"), BOUNDS)
def test_bounds_hold_and_are_named(field: str, low: float, high: float) -> None:
    for good in (low, high):
        # With ink-over 0, no turn-over is too narrow for it.
        edited("wrap.ink_over_mm=0", f"{field}={good}")
    for bad in (low - 0.001, high + 0.001):
        with pytest.raises(FieldError) as caught:
            edited("wrap.ink_over_mm=0", f"{field}={bad}")
        assert caught.value.field == field
        assert caught.value.expected == f"{low} to {high} mm"
        assert caught.value.got == f"{bad}"


@pytest.mark.parametrize(
    "bad", ["NaN", "Infinity", "-Infinity", "1e999", "210mm", "[1]", "true", "null", '"210"']
)
def test_only_finite_numbers_are_lengths(bad: str) -> None:
    with pytest.raises(FieldError) as caught:
        edited(f"face.width_mm={bad}")
    assert caught.value.field == "face.width_mm"
    assert "50 to 5000" in caught.value.expected


@pytest.mark.parametrize("name", ["face.widht_mm", "fase", "sides.top.depth", "wrap.over.pair"])
def test_unknown_keys_are_named(name: str) -> None:
    with pytest.raises(FieldError) as caught:
        edited(f"{name}=1")
    assert caught.value.field == name
    assert caught.value.remedy


@pytest.mark.parametrize(
    ("edit", "field", "expected"),
    [
        ("wrap.finish=rolled", "wrap.finish", "one of 'tucked', 'lapped' or 'trimmed'"),
        ("picture.turn=45", "picture.turn", "one of 0, 90, 180 or 270"),
        ("sides.colour=red", "sides.colour", "'edge' or a colour as '#rrggbb'"),
        ("print.marks=1", "print.marks", "true or false"),
        ("sheet.margin_mm=[3,3,3,900]", "sheet.margin_mm.3", "0 to 100 mm"),
        ("wrap.ink_over_mm=26", "wrap.ink_over_mm", "0 to the turn-over of 25 mm"),
    ],
)
def test_each_kind_of_fault_has_its_words(edit: str, field: str, expected: str) -> None:
    with pytest.raises(FieldError) as caught:
        edited(edit)
    assert (caught.value.field, caught.value.expected) == (field, expected)


def test_the_tab_is_bound_to_the_depth_only_when_trimmed() -> None:
    assert edited("bars.depth_mm=18").wrap.tab_mm == 10
    with pytest.raises(FieldError, match="half the bar depth, 9 mm"):
        edited("bars.depth_mm=18", "wrap.finish=trimmed")
    assert edited("bars.depth_mm=18", "wrap.finish=trimmed", "wrap.tab_mm=9").wrap.tab_mm == 9


def test_a_crop_past_the_edge_is_refused() -> None:
    with pytest.raises(FieldError, match=r"ends at 1\.1, beyond 1") as caught:
        edited('picture.crop={"x":0.5,"y":0,"width":0.6,"height":1}')
    assert caught.value.field == "picture.crop.x"


def test_a_sheet_without_a_height_is_a_roll() -> None:
    assert check_job({"sheet": {"width_mm": 610}}).sheet.height_mm is None
    assert edited("sheet.height_mm=null").sheet.height_mm is None
    assert edited("sheet.height_mm=").sheet.height_mm is None
    assert edited("sheet.width_mm=610").sheet.height_mm == 483


def test_text_stays_text() -> None:
    job = edited("name=12", "client=null", 'notes={"a": 1}', "picture.file=")
    assert (job.name, job.client, job.notes, job.picture.file) == ("12", "null", '{"a": 1}', "")


def test_a_side_follows_the_others_where_it_says_nothing() -> None:
    job = edited("sides.fill=fade", "sides.blur_mm=4", "sides.left.fill=plain")
    left, top = side_fill(job.sides, Side.LEFT), side_fill(job.sides, Side.TOP)
    assert (left.fill, left.blur_mm, top.fill) == (Fill.PLAIN, 4, Fill.FADE)


@pytest.mark.parametrize(
    "text",
    ["", "{", "[]", "3", "null", '{"name": "a", "name": "b"}', "[" * 100_000, '{"face": {"width_mm": NaN}}'],
)
def test_job_files_that_are_none(text: str) -> None:
    with pytest.raises(FieldError):
        read_job(text)


def test_a_key_that_stands_twice_is_named() -> None:
    with pytest.raises(FieldError, match="'name' stands twice"):
        parse_job('{"name": "a", "name": "b"}')


#: In Pyodide a few kinds of characters: to list all of Unicode takes longer there than all other checks.
TEXTS = st.text("a0. _-\n\0é\ud800🖼", max_size=8) if sys.platform == "emscripten" else st.text(max_size=8)


@settings(max_examples=80)
@given(
    st.recursive(
        st.none() | st.booleans() | st.floats() | st.integers() | TEXTS,
        lambda inner: (
            st.lists(inner, max_size=4)
            | st.dictionaries(
                st.sampled_from(["face", "bars", "width_mm", "sides", "top", "version", "x"]), inner
            )
        ),
        max_leaves=8,
    )
)
def test_any_json_is_a_job_or_a_field_error(tree: Any) -> None:
    try:
        job = check_job(tree)
    except FieldError as error:
        wrong = error
    else:
        assert check_job(job_tree(job)) == job
        return
    assert wrong.field
    assert "\n" not in str(wrong)


def test_a_job_survives_its_file() -> None:
    job = edited(
        "name=Low tide", "sides.top.fill=run-on", "sheet.height_mm=null", "canvas.stretch_percent=[1,0.5]"
    )
    assert read_job(json.dumps(job_tree(job))) == job
