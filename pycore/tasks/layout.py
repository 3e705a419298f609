"""The layout of a job: sizes, sheet or roll, what becomes of the picture, and every note on them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pycore.bars.weight import trimmed_area_mm2
from pycore.contract.job import Convert, Job
from pycore.contract.notes import Note, Place, Severity, worst_first
from pycore.errors import GeometryError
from pycore.layout.report import Layout, layout_report
from pycore.tasks.job_notes import job_notes, sheet_fit

if TYPE_CHECKING:
    from pycore.tasks.open_picture import OpenPicture


def lay_out(job: Job, picture: OpenPicture | None = None) -> Layout:
    """Lay a job out.

    Parameters
    ----------
    job : Job
        A checked job.
    picture : OpenPicture, optional
        Without it the layout leaves out what depends on the picture.

    Returns
    -------
    Layout

    Raises
    ------
    FieldError
        The crop holds less than one pixel.

    Examples
    --------
    >>> lay_out(Job()).sheet.fits
    True
    """
    size_px = None if picture is None else picture.size_px
    layout = layout_report(
        job, picture_px=size_px, fit=sheet_fit(job), trimmed_mm2=_trimmed_mm2(job), more=job_notes(job)
    )
    if picture is None:
        return layout
    from pycore.render.notes import grey_notes, tone_notes

    # After the others of their severity: too few pixels are sure to show, a missing profile may not.
    about_picture = [*picture.info.notes, *grey_notes(picture.source, job), *tone_notes(picture.source)]
    return layout.model_copy(update={"notes": worst_first([*layout.notes, *about_picture])})


def _trimmed_mm2(job: Job) -> float | None:
    """The canvas's area without its cut corners; None where they cannot be folded, as a note says."""
    try:
        return trimmed_area_mm2(job)
    except GeometryError:
        return None


def printing_notes(job: Job, picture: OpenPicture) -> list[Note]:
    """What to read beside a print file.

    That is what does not work, what to look at again, and all about the picture and the sheet: a file that is
    wider than what can be printed must not be fitted to the page.

    Parameters
    ----------
    job : Job
        A checked job.
    picture : OpenPicture
        Its picture.

    Returns
    -------
    list of Note
        The worst first.

    Raises
    ------
    FieldError
        The crop holds less than one pixel.
    """
    about_picture = picture.info.notes
    # Of inks that are kept without a profile the print file's own note says the same.
    said_of_file = {"profile-missing"} if job.print.convert is Convert.KEEP else set()
    return [
        note
        for note in lay_out(job, picture).notes
        if note.severity is not Severity.HINT or note.place is Place.SHEET or note in about_picture
        if note.code not in said_of_file
    ]
