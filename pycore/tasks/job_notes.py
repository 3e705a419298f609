"""What stops a job before ink is spent: corners that cannot be folded, sides that cannot be filled."""

from __future__ import annotations

from pycore.contract.job import Job
from pycore.contract.notes import Note, Place, Severity
from pycore.errors import GeometryError
from pycore.fill.checks import check_fills
from pycore.fold.notes import fold_notes
from pycore.fold.spec import fold_spec
from pycore.layout.grid import pixel_grid
from pycore.layout.notes import layout_notes
from pycore.layout.sheet import fit_sheet


def job_notes(job: Job) -> list[Note]:
    """Whether the corners can be folded and the sides filled, and what to watch on the fold.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    list of Note

    Examples
    --------
    >>> from pycore.contract.check import check_job
    >>> small = check_job({"face": {"width_mm": 100, "height_mm": 100}})
    >>> [(note.code, note.severity.value) for note in job_notes(small)]
    [('corners-cannot-fold', 'stop')]
    """
    notes: list[Note] = []
    try:
        notes += fold_notes(fold_spec(job))
    except GeometryError as wrong:
        notes.append(_stop("corners-cannot-fold", Place.CORNERS, "The corners cannot be folded", wrong))
    try:
        check_fills(pixel_grid(job, ppi=job.print.ppi), job)
    except GeometryError as wrong:
        notes.append(_stop("sides-cannot-be-filled", Place.FACE, "The sides cannot be filled", wrong))
    return notes


def stopping_notes(job: Job) -> list[Note]:
    """The notes that a print file should not be made over: sheet too small, corners that cannot fold.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    list of Note

    Examples
    --------
    >>> [note.code for note in stopping_notes(Job())]
    ['sheet-short']
    """
    notes = [*layout_notes(job, fit=fit_sheet(job), use=None), *job_notes(job)]
    return [note for note in notes if note.severity is Severity.STOP]


def _stop(code: str, place: Place, message: str, wrong: GeometryError) -> Note:
    return Note(
        code=code,
        severity=Severity.STOP,
        place=place,
        message=f"{message}: expected {wrong.expected}, got {wrong.got}.",
        remedy=f"{wrong.remedy[0].upper()}{wrong.remedy[1:]}.",
        field=wrong.field,
    )
