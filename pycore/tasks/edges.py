"""The four sides of a job judged from its picture, with the fill that suits each."""

from __future__ import annotations

from pycore.contract.job import Job, side_fill
from pycore.contract.notes import worst_first
from pycore.edges.advice import advise
from pycore.edges.judge import judge, worst
from pycore.edges.notes import edge_note
from pycore.edges.report import EdgesReport, SideFigures
from pycore.edges.working import working_faces
from pycore.tasks.open_picture import OpenPicture


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
    faces = working_faces(job, picture.preview.reduced, width_px=width_px, height_px=height_px)
    sides, notes = [], []
    for figures in worst([judge(face) for face in faces]):
        fill = side_fill(job.sides, figures.side).fill
        advice = advise(figures, fill)
        sides.append(
            SideFigures(
                side=figures.side,
                fill=fill,
                busy=figures.busy,
                doubled=figures.doubled,
                broken=figures.broken,
                cut=figures.cut,
                better=advice.better,
                reason=advice.reason,
            )
        )
        note = edge_note(figures, advice)
        if note is not None:
            notes.append(note)
    return EdgesReport(sides=sides, notes=worst_first(notes))
