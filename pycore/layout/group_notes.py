"""What to watch on a group of panels."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pycore.contract.job import AcrossGap, Fill, Hung, Job, side_fill
from pycore.contract.notes import Note, Place, Severity
from pycore.conventions import Side
from pycore.layout.flat import flat_sizes
from pycore.layout.notes import TIGHT_MM, tight_note
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
    ['sheet-tight', 'panels-share', 'sheets-several']
    """
    if job.group.panels == 1:
        return []
    return [*_plan_notes(job, plan), *_run_on_notes(job)]


def shared_notes(of_each: Sequence[Sequence[Note]]) -> list[Note]:
    """The notes that every panel's file has, to be said once for all of them.

    Parameters
    ----------
    of_each : sequence of sequence of Note
        About each panel's file.

    Returns
    -------
    list of Note
        None where there is a single file, whose notes are its own.

    Examples
    --------
    >>> note = Note(code="x", severity=Severity.HINT, place=Place.BACK, message="None.", remedy="")
    >>> other = note.model_copy(update={"message": "Panel 2's."})
    >>> [one.message for one in shared_notes([[note], [note, other]])], shared_notes([[note]])
    (['None.'], [])
    """
    if len(of_each) < 2:
        return []
    return [note for note in of_each[0] if all(note in notes for notes in of_each[1:])]


def _plan_notes(job: Job, plan: SheetPlan | None) -> Iterator[Note]:
    if plan is None:
        return
    loaded = "roll" if job.sheet.height_mm is None else "sheet"
    yield from _tight_notes(job, plan, loaded)
    if job.print.marks and any(len(sheet) > 1 for sheet in plan.sheets):
        yield Note(
            code="panels-share",
            severity=Severity.HINT,
            place=Place.SHEET,
            message=say(
                "Several canvases lie on one {loaded}, and each print file is one canvas: its marks are "
                "drawn for its place there.",
                loaded=loaded,
            ),
            remedy=say(
                "Lay the files as the sheet view and the ticket have them; a file that is printed by itself "
                "may lose marks in the margins."
            ),
            field="group.panels",
        )
    if len(plan.sheets) == 1:
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


def _tight_notes(job: Job, plan: SheetPlan, loaded: str) -> Iterator[Note]:
    """Whether some sheet is left hardly any room beside its canvases."""
    canvas_mm = flat_sizes(job).canvas_mm
    across_mm, along_mm = canvas_mm[::-1] if plan.turned else canvas_mm
    spares = []
    for sheet in plan.sheets:
        lefts, tops = ([one.position_mm[axis] for one in sheet] for axis in (0, 1))
        spares.append(job.sheet.width_mm - (max(lefts) - min(lefts) + across_mm))
        # A roll is cut to the canvases' length: nothing can be left along it.
        if job.sheet.height_mm is not None:
            spares.append(job.sheet.height_mm - (max(tops) - min(tops) + along_mm))
    if min(spares) < TIGHT_MM:
        yield tight_note(
            message=say(
                "The canvases leave only {spare_mm:.1f} mm of the {loaded} free; if that feeds "
                "askew, the print is cut off.",
                spare_mm=max(0.0, min(spares)),
                loaded=loaded,
            ),
            loaded=loaded,
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
