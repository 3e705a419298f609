"""All canvases on the sheets or the roll: none overlaps, none leaves it, as few as rows and columns allow."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pycore.contract.check import check_job
from pycore.contract.job import Job
from pycore.layout.flat import flat_sizes
from pycore.layout.group_notes import group_notes
from pycore.layout.plan import SheetPlan, plan_sheets
from pycore.layout.sheet import fit_sheet
from pycore.tasks.layout import lay_out

#: Derived: canvases of 100 + 2 x (20 + 30) = 200 mm by 150 + 100 = 250 mm.
SMALL: dict[str, Any] = {
    "face": {"width_mm": 100, "height_mm": 150},
    "bars": {"depth_mm": 20},
    "wrap": {"turnover_mm": 30},
    "canvas": {"thickness_mm": 0},
}


def planned(panels: int, width: float, height: float | None) -> SheetPlan | None:
    sheet = {"width_mm": width} | ({} if height is None else {"height_mm": height})
    return plan_sheets(check_job({**SMALL, "group": {"panels": panels}, "sheet": sheet}))


def test_a_roll_is_used_the_way_that_takes_less_of_it() -> None:
    """Derived: on 610 mm three stand beside one another (600), 250 mm long; turned it would take two rows."""
    plan = planned(3, 610, None)
    assert plan is not None
    assert (plan.turned, plan.length_mm, len(plan.sheets)) == (False, 250, 1)
    assert [one.position_mm for one in plan.sheets[0]] == [(5, 0), (205, 0), (405, 0)]
    # Derived: on 510 mm two stand (400), two rows of 250; turned two lie (500), two rows of 200: less.
    turned = planned(3, 510, None)
    assert turned is not None
    assert (turned.turned, turned.length_mm) == (True, 400)


def test_as_few_sheets_as_hold_them() -> None:
    """Derived: 420 x 260 mm holds two upright, one turned: five take 2, 2 and 1."""
    plan = planned(5, 420, 260)
    assert plan is not None
    assert [[one.panel for one in sheet] for sheet in plan.sheets] == [[1, 2], [3, 4], [5]]
    assert plan.turned is False


def test_nothing_where_not_even_one_fits() -> None:
    assert planned(2, 199, 240) is None


def test_ink_keeps_to_the_margins_at_the_sheets_edge() -> None:
    """Derived: 24 mm of bare turn-over; a margin of 30 pushes the outermost canvases 6 mm in."""
    job = {**SMALL, "group": {"panels": 2}, "sheet": {"width_mm": 412, "margin_mm": [0, 30, 0, 30]}}
    plan = plan_sheets(check_job(job))
    assert plan is not None
    assert plan.sheets[0][0].position_mm[0] == pytest.approx(6)
    job["sheet"] = {"width_mm": 411.9, "margin_mm": [0, 30, 0, 30]}
    narrow = plan_sheets(check_job(job))
    assert narrow is not None
    # Derived: only one fits across: two rows, turned 200 mm each.
    assert narrow.length_mm == pytest.approx(400)


JOBS = st.builds(
    lambda panels, face, depth, width, height, margin: check_job(
        {
            "group": {"panels": panels},
            "face": {"width_mm": face[0], "height_mm": face[1]},
            "bars": {"depth_mm": depth},
            "sheet": {"width_mm": width, "margin_mm": margin}
            | ({} if height is None else {"height_mm": height}),
        }
    ),
    st.integers(2, 5),
    st.tuples(st.floats(50, 400), st.floats(50, 400)),
    st.floats(6, 50),
    st.floats(200, 1200),
    st.none() | st.floats(200, 1200),
    st.lists(st.floats(0, 60), min_size=4, max_size=4),
)


@settings(max_examples=80, deadline=None)
@given(job=JOBS)
def test_canvases_lie_on_the_sheet_apart_and_with_their_ink_inside_the_margins(job: Job) -> None:
    plan, sizes = plan_sheets(job), flat_sizes(job)
    assert (plan is None) == (not fit_sheet(job).fits)
    if plan is None:
        return
    panels = [one.panel for sheet in plan.sheets for one in sheet]
    assert panels == list(range(1, job.group.panels + 1))
    wide, high = sizes.canvas_mm[::-1] if plan.turned else sizes.canvas_mm
    inked = sizes.inked_mm[::-1] if plan.turned else sizes.inked_mm
    dry = ((wide - inked[0]) / 2, (high - inked[1]) / 2)
    top, right, bottom, left = job.sheet.margin_mm
    for sheet in plan.sheets:
        for one in sheet:
            x, y = one.position_mm
            assert x >= max(0, left - dry[0]) - 1e-6
            assert y >= max(0, top - dry[1]) - 1e-6
            assert x + wide <= job.sheet.width_mm - max(0, right - dry[0]) + 1e-6
            assert y + high <= plan.length_mm - max(0, bottom - dry[1]) + 1e-6
            for other in sheet[: one.panel - sheet[0].panel]:
                apart = (abs(x - other.position_mm[0]), abs(y - other.position_mm[1]))
                assert apart[0] >= wide - 1e-6 or apart[1] >= high - 1e-6


def test_notes_name_the_panels_of_each_sheet() -> None:
    job = check_job({**SMALL, "group": {"panels": 3}, "sheet": {"width_mm": 420, "height_mm": 260}})
    shared, several = group_notes(job, plan=plan_sheets(job))
    assert (shared.code, several.code) == ("panels-share", "sheets-several")
    assert "panels 1, 2; panel 3" in several.message
    alone = check_job({**SMALL, "group": {"panels": 2}, "sheet": {"width_mm": 220, "height_mm": 260}})
    assert [note.code for note in group_notes(alone, plan=plan_sheets(alone))] == ["sheets-several"]


def test_notes_say_what_is_left_beside_all_canvases() -> None:
    """Derived: three canvases of 200 mm leave 2 mm of 602, and of one roll that holds one canvas 410."""
    tree: dict[str, Any] = {**SMALL, "group": {"panels": 3}, "sheet": {"width_mm": 602}}
    (tight,) = (note for note in lay_out(check_job(tree)).notes if note.code == "sheet-tight")
    assert tight.message.startswith("The canvases leave only 2.0 mm of the roll free")
    tree["sheet"] = {"width_mm": 610}
    assert "sheet-tight" not in [note.code for note in lay_out(check_job(tree)).notes]
    # Of sheets 2 mm along count, too: 250 of 252.
    tree["sheet"] = {"width_mm": 610, "height_mm": 252}
    assert "sheet-tight" in [note.code for note in lay_out(check_job(tree)).notes]
    # And of two rows: 2 x 250 of 502.
    tree["sheet"] = {"width_mm": 420, "height_mm": 502}
    assert "sheet-tight" in [note.code for note in lay_out(check_job(tree)).notes]


def test_notes_say_what_shows_twice() -> None:
    """Derived: 20 mm run on from both sides into a gap of 30 mm overlap by 10."""
    job = check_job({**SMALL, "group": {"panels": 2}, "sides": {"fill": "run-on"}})
    note = group_notes(job, plan=None)[-1]
    assert note.code == "shown-twice"
    assert "Between panels 1 and 2, 10 mm of the picture show twice" in note.message
    three = check_job({**SMALL, "group": {"panels": 3}, "sides": {"fill": "run-on"}})
    assert "Between every two neighbours of the 3 panels, 10 mm" in group_notes(three, plan=None)[-1].message
    wide = check_job({**SMALL, "group": {"panels": 2, "gap_mm": 40}, "sides": {"fill": "run-on"}})
    assert group_notes(wide, plan=None) == []
