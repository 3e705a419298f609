"""The answer to the call about edges. Imported when the first of them comes."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pycore.bridge.answer import Answer, Steps
from pycore.bridge.showing_messages import EdgesReply, SideFigures
from pycore.contract.check import check_job
from pycore.contract.job import Job, side_fill
from pycore.contract.notes import worst_first
from pycore.edges.advice import advise
from pycore.edges.judge import judge, worst
from pycore.edges.notes import edge_note
from pycore.edges.working import working_faces
from pycore.render.preview import PreviewSource


def edges(params: Mapping[str, Any], preview: PreviewSource) -> Steps:
    """Answer `edges`: it is soon done, so there is no progress.

    Parameters
    ----------
    params : mapping
        As `EdgesParams`.
    preview : PreviewSource
        The open picture.

    Returns
    -------
    generator
        Yields nothing, returns the answer.

    Raises
    ------
    FieldError
        On the first step: the job is wrong, or its crop holds less than a pixel.
    """
    yield from ()
    return Answer(edges_reply(check_job(params["job"]), preview))


def edges_reply(job: Job, preview: PreviewSource) -> EdgesReply:
    """Judge the four sides of a job on its picture; of a group each side as its worst panel has it.

    Parameters
    ----------
    job : Job
        A checked job.
    preview : PreviewSource
        The open picture.

    Returns
    -------
    EdgesReply
    """
    source = preview.source
    faces = working_faces(job, preview.reduced, width_px=source.width_px, height_px=source.height_px)
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
    return EdgesReply(sides=sides, notes=worst_first(notes))
