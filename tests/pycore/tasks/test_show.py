"""What is made again after a change, and what is not."""

from __future__ import annotations

import pytest

from pycore.contract.check import check_job, job_tree
from pycore.contract.dependencies import Result
from pycore.contract.edits import edit_tree
from pycore.contract.job import Job
from pycore.tasks.show import COSTLY_PARTS, parts_to_show

BOTH = COSTLY_PARTS


def edited(edit: str) -> Job:
    return check_job(edit_tree(job_tree(Job()), [edit]))


@pytest.mark.parametrize(
    ("edit", "parts"),
    [
        ("name=Low tide", frozenset()),
        ("sheet.width_mm=610", frozenset()),
        ("print.ppi=360", frozenset()),
        ("canvas.weight_gsm=400", frozenset()),
        ("picture.turn=90", {Result.TEXTURE}),
        ("sides.fill=plain", {Result.TEXTURE}),
        ("sides.left.fill=run-on", {Result.TEXTURE}),
        ("face.width_mm=310", BOTH),
        ("bars.depth_mm=22", BOTH),
        ("wrap.finish=lapped", BOTH),
        ("wrap.turnover_mm=30", BOTH),
        ("canvas.thickness_mm=0.5", BOTH),
        ("canvas.stretch_percent=[1,1]", BOTH),
    ],
)
def test_a_change_redoes_what_depends_on_it(edit: str, parts: set[Result]) -> None:
    assert parts_to_show(Job(), edited(edit)) == parts
    assert parts_to_show(edited(edit), Job()) == parts


def test_the_first_show_makes_everything() -> None:
    assert parts_to_show(None, Job()) == BOTH
