"""The four sides of a job judged from its picture, with the fill that suits each."""

from __future__ import annotations

from typing import Final

from pycore.contract.job import Fill, Job, SideFill, Sides, side_fill
from pycore.contract.notes import worst_first
from pycore.conventions import Side
from pycore.edges.advice import advise
from pycore.edges.judge import judge, worst
from pycore.edges.notes import edge_note, mirrored_note, rim_note
from pycore.edges.report import EdgesReport, SideReport
from pycore.edges.rims import shown_rims_mm
from pycore.edges.working import working_faces
from pycore.layout.group import panel_jobs
from pycore.render.laid_sides import laid_sides, move_of_crop
from pycore.render.run_on_sides import run_on_sides
from pycore.tasks.open_picture import OpenPicture

#: Faults that a move of the crop mends: what stands at the edge is then whole, or gone.
_MENDED_BY_MOVING: Final = ("doubled", "repeated", "severed", "bent")


def judge_edges(job: Job, picture: OpenPicture) -> EdgesReport:
    """Judge the four sides of a job on its picture; of a group each side as its worst panel has it.

    Parameters
    ----------
    job : Job
        A checked job.
    picture : OpenPicture

    Returns
    -------
    EdgesReport

    Raises
    ------
    FieldError
        The crop holds less than a pixel.
    """
    width_px, height_px = picture.size_px
    plans = picture.preview.plans
    faces = working_faces(job, picture.preview.reduced, width_px=width_px, height_px=height_px)
    panels = panel_jobs(_bare(job), width_px=width_px, height_px=height_px)
    laid = [laid_sides(plans, panel) for panel in panels]
    sides, notes = [], []
    run_on = run_on_sides(plans, job)
    for figures in worst([judge(*of_panel) for of_panel in zip(faces, laid, run_on, strict=True)]):
        side = figures.side
        fill = side_fill(job.sides, side).fill
        advice = advise(figures, fill)
        move = None
        if advice.fault in _MENDED_BY_MOVING:
            move = move_of_crop(plans, job, side, laid[0][side])
        sides.append(
            SideReport(
                side=side,
                fill=fill,
                busy=figures.busy,
                doubled=figures.doubled,
                broken=figures.broken,
                cut=figures.cut,
                chevrons=figures.chevrons,
                repeated=figures.repeated,
                smeared=figures.smeared,
                bent=figures.bent,
                severed=figures.severed,
                streaked=figures.streaked,
                mirrored=figures.mirrored,
                better=advice.better,
                fault=advice.fault,
                reason=advice.reason,
                move=move,
            )
        )
        instead = fill is Fill.CONTINUED and figures.mirrored
        note = edge_note(figures, advice, move, instead=instead)
        if note is not None:
            notes.append(note)
    mirrored = mirrored_note(sides, told={note.field for note in notes})
    if mirrored is not None:
        notes.append(mirrored)
    rim = rim_note(_shown_rims_mm(job, picture))
    if rim is not None:
        notes.append(rim)
    return EdgesReport(sides=sides, notes=worst_first(notes))


def _shown_rims_mm(job: Job, picture: OpenPicture) -> dict[Side, float]:
    """By side, what the panels' faces show of the picture's rims at most."""
    if not picture.rims:
        return {}
    width_px, height_px = picture.size_px
    shown: dict[Side, float] = {}
    for panel in panel_jobs(job, width_px=width_px, height_px=height_px):
        for side, width_mm in shown_rims_mm(panel, picture.rims, size_px=picture.size_px).items():
            shown[side] = max(width_mm, shown.get(side, 0.0))
    return shown


def _bare(job: Job) -> Job:
    """The job as it is judged: as if no side ran on, so that figures do not move with what they judge.

    The bands stay, since a wider one draws out fewer streaks.
    """
    bands = {side.value: SideFill(band_mm=side_fill(job.sides, side).band_mm) for side in Side}
    return job.model_copy(update={"sides": Sides(fill=Fill.CONTINUED, **bands)})
