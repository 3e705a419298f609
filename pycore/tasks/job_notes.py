"""What does not work in a job: corners that cannot be folded, sides that cannot be filled."""

from __future__ import annotations

from pycore.bars.notes import bars_notes
from pycore.contract.job import Job
from pycore.contract.notes import Note, Place, Severity
from pycore.errors import GeometryError
from pycore.field_names import plain_name
from pycore.fill.checks import check_fills
from pycore.fold.notes import fold_notes
from pycore.fold.spec import fold_spec, foldable_mm
from pycore.layout.grid import pixel_grid
from pycore.layout.notes import layout_notes
from pycore.layout.sheet import SheetFit, fit_sheet
from pycore.speech import say, values_of


def job_notes(job: Job) -> list[Note]:
    """Whether the corners can be folded and the sides filled, and what to watch on the fold and the bars.

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
    >>> small = check_job({"face": {"width_mm": 80, "height_mm": 80}})
    >>> [(note.code, note.severity.value) for note in job_notes(small)]
    [('corners-cannot-fold', 'stop'), ('turnover-loose', 'watch')]
    """
    notes: list[Note] = []
    try:
        notes += fold_notes(fold_spec(job))
    except GeometryError as wrong:
        notes.append(_stop("corners-cannot-fold", Place.CORNERS, wrong))
    try:
        check_fills(pixel_grid(job, ppi=job.print.ppi), job)
    except GeometryError as wrong:
        notes.append(_stop("sides-cannot-be-filled", Place.FACE, wrong))
    return [*notes, *bars_notes(job)]


def sheet_fit(job: Job) -> SheetFit:
    """Place the canvas on the sheet, and find the largest depth and turn-over that sheet and corners allow.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    SheetFit

    Examples
    --------
    >>> round(sheet_fit(Job()).largest_depth_mm or 0, 2)
    39.05
    """
    depth_mm, turnover_mm = foldable_mm(job)
    return fit_sheet(job, most_depth_mm=depth_mm, most_turnover_mm=turnover_mm)


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
    >>> from pycore.contract.job import Bars
    >>> [note.code for note in stopping_notes(Job(bars=Bars(depth_mm=50)))]
    ['sheet-short']
    """
    notes = [*layout_notes(job, fit=sheet_fit(job), use=None), *job_notes(job)]
    return [note for note in notes if note.severity is Severity.STOP]


def _stop(code: str, place: Place, wrong: GeometryError) -> Note:
    message = say(
        "{plain_name} must be {expected}; it is {got}.",
        plain_name=plain_name(wrong.field),
        expected=wrong.expected,
        got=wrong.got,
    )
    return Note(
        code=code,
        severity=Severity.STOP,
        place=place,
        message=message,
        remedy=f"{wrong.remedy[0].upper()}{wrong.remedy[1:]}.",
        field=wrong.field,
        values=values_of(message, wrong.remedy),
    )
