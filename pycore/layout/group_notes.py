"""What to watch on a group of panels."""

from __future__ import annotations

from collections.abc import Iterator

from pycore.contract.job import AcrossGap, Fill, Hung, Job, side_fill
from pycore.contract.notes import Note, Place, Severity
from pycore.conventions import Side
from pycore.layout.plan import SheetPlan
from pycore.speech import join_said, say


def group_notes(job: Job, *, plan: SheetPlan | None) -> list[Note]:
    """The notes that only several panels give rise to.

    Parameters
    ----------
    job : Job
        A checked job.
    plan : SheetPlan or None
        From `plan_sheets`; None where no canvas fits, which the layout's own notes say.

    Returns
    -------
    list of Note
        None for a single panel.

    Examples
    --------
    >>> from pycore.contract.check import check_job
    >>> from pycore.layout.plan import plan_sheets
    >>> three = check_job({"face": {"width_mm": 200, "height_mm": 150}, "group": {"panels": 3}})
    >>> [note.code for note in group_notes(three, plan=plan_sheets(three))]
    ['sheets-several']
    """
    if job.group.panels == 1:
        return []
    return [*_plan_notes(job, plan), *_run_on_notes(job)]


def panel_notes(notes: list[Note], job: Job, number: int) -> list[Note]:
    """Put a panel's number in front of the notes about it; of a single panel they stay as they are.

    Parameters
    ----------
    notes : list of Note
        About one panel.
    job : Job
        The group.
    number : int
        The panel's, from 1.

    Returns
    -------
    list of Note

    Examples
    --------
    >>> from pycore.contract.job import Group
    >>> note = Note(
    ...     code="x", severity=Severity.HINT, place=Place.BACK, message="No marks are drawn.", remedy=""
    ... )
    >>> panel_notes([note], Job(group=Group(panels=3)), 2)[0].message
    'Panel 2 of 3: No marks are drawn.'
    """
    count = job.group.panels
    if count == 1:
        return notes
    return [
        note.model_copy(
            update={
                "message": str(
                    say(
                        "Panel {number} of {count}: {message:s}",
                        number=number,
                        count=count,
                        message=note.message,
                    )
                ),
                "values": {"number": number, "count": count, **note.values},
            }
        )
        for note in notes
    ]


def _plan_notes(job: Job, plan: SheetPlan | None) -> Iterator[Note]:
    if plan is None or len(plan.sheets) == 1:
        return
    loads = [[one.panel for one in sheet] for sheet in plan.sheets]
    yield Note(
        code="sheets-several",
        severity=Severity.HINT,
        place=Place.SHEET,
        message=say(
            "The {panels} panels take {load_count} sheets: {loads}.",
            panels=job.group.panels,
            load_count=len(loads),
            loads=join_said([_panels(load) for load in loads], "; "),
        ),
        remedy=say(
            "Print them in one session on canvas from one roll, so that they match (common practice)."
        ),
        field="group.panels",
    )


def _panels(numbers: list[int]) -> str:
    listed = ", ".join(map(str, numbers))
    return say("panels {listed}", listed=listed) if numbers[1:] else say("panel {listed}", listed=listed)


def _run_on_notes(job: Job) -> Iterator[Note]:
    """Two neighbours' sides may show the same piece of picture."""
    between = (Side.LEFT, Side.RIGHT) if job.group.hung is Hung.ACROSS else (Side.TOP, Side.BOTTOM)
    running_on = [side for side in between if side_fill(job.sides, side).fill is Fill.RUN_ON]
    gap_mm = job.group.gap_mm if job.group.across_gap is AcrossGap.BEHIND else 0.0
    twice_mm = len(running_on) * job.bars.depth_mm - gap_mm
    if running_on and twice_mm > 0:
        count = job.group.panels
        pair = (
            say("panels 1 and 2")
            if count == 2
            else say("every two neighbours of the {count} panels", count=count)
        )
        yield Note(
            code="shown-twice",
            severity=Severity.HINT,
            place=Place(running_on[0].value),
            message=say(
                "Between {pair}, {twice_mm:g} mm of the picture show twice: on the side where it "
                "runs on, and on the other panel.",
                pair=pair,
                twice_mm=twice_mm,
            ),
            remedy=say("Mirror the sides between the panels, or hang the panels further apart."),
            field="group.gap_mm",
        )
