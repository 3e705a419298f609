"""Edits of a job: `field=value`."""

from __future__ import annotations

from typing import Any

import pytest

from pycore.contract.check import check_job, edited_job, job_tree
from pycore.contract.edits import edit_tree
from pycore.contract.job import Job
from pycore.errors import FieldError


def _edited(*edits: str) -> Job:
    return check_job(edit_tree(job_tree(Job()), edits))


def test_an_edit_without_equals_sign() -> None:
    with pytest.raises(FieldError, match="--set must be field=value"):
        edit_tree({}, ["face.width_mm"])


def test_edits_leave_the_tree_they_were_given_alone() -> None:
    tree: dict[str, Any] = {"face": {"width_mm": 100}}
    edit_tree(tree, ["face.width_mm=200"])
    assert tree == {"face": {"width_mm": 100}}


def test_one_value_of_a_list_is_edited_by_its_number() -> None:
    """As the guide has it; the other values stay, or are the usual ones where the job leaves the list out."""
    changed = _edited("canvas.stretch_percent.0=0.5", "sheet.margin_mm=[5,6,7,8]", "sheet.margin_mm.2=20")
    assert changed.canvas.stretch_percent == (0.5, 0)
    assert changed.sheet.margin_mm == (5, 6, 20, 8)
    assert edited_job({}, ["sheet.margin_mm.3=9"]).sheet.margin_mm == (3, 3, 3, 9)
    with pytest.raises(
        FieldError, match=r"^How much the canvas gives across must be -5 to 15 percent; you gave 90"
    ):
        _edited("canvas.stretch_percent.0=90")


@pytest.mark.parametrize("place", ["2", "-1", "x", "0.5"])
def test_a_list_has_no_other_places(place: str) -> None:
    with pytest.raises(FieldError) as caught:
        _edited(f"canvas.stretch_percent.{place}=1")
    assert caught.value.field == f"canvas.stretch_percent.{place}"
    if place != "0.5":
        assert "has 2 values, canvas.stretch_percent.0 to canvas.stretch_percent.1" in caught.value.message
