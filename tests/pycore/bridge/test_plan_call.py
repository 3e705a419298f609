"""The call about sheets and rolls as the page makes it."""

from __future__ import annotations

import pytest

from pycore.bridge.session import Session
from pycore.contract.check import check_job
from pycore.errors import FieldError
from pycore.plan.make import make_plan
from pycore.plan.options import PlanJob, PlanOptions
from pycore.plan.result import Plan

from .test_session import answer

TRIO = {"name": "trio", "group": {"panels": 3}, "sheet": {"width_mm": 1118}}


def test_the_plan_of_the_open_job() -> None:
    params = {"job": TRIO, "copies": 2, "options": {"gap_mm": 4, "price_per_m2": 20}}
    reply = answer(Session(), "plan", params).reply
    assert isinstance(reply, Plan)
    one = PlanJob(name="trio", job=check_job(TRIO), copies=2)
    assert reply == make_plan([one], options=PlanOptions(gap_mm=4, price_per_m2=20))
    assert reply.figures.pieces == 6


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"options": {"price_per_m2": -3}}, "The price of a square metre must be 0 to 1000000; you gave -3."),
        ({"options": {"gap_mm": 900}}, "The gap between pieces must be 0 to 500 mm; you gave 900."),
        ({"copies": 0}, "The number of copies must be 1 to 1000; you gave 0."),
        ({"options": {"pins": [{"piece": "duo", "x_mm": 0, "y_mm": 0}]}}, "No piece is called 'duo'."),
    ],
)
def test_what_cannot_be_planned_is_said(change: dict[str, object], said: str) -> None:
    with pytest.raises(FieldError) as raised:
        answer(Session(), "plan", {"job": TRIO, "options": {}, **change})
    assert raised.value.message == said
