"""What to watch on the bars: the braces that they need."""

from __future__ import annotations

from pycore.bars.frame import frame_of
from pycore.contract.job import Job
from pycore.contract.notes import Note, Place, Severity
from pycore.speech import say


def bars_notes(job: Job) -> list[Note]:
    """Say so where the bars of a panel need braces, as many as the list of bars has.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    list of Note

    Examples
    --------
    >>> from pycore.contract.job import Face
    >>> [note.message for note in bars_notes(Job(face=Face(width_mm=700)))]
    ['A span of 700 mm needs a cross-brace (common practice).']
    """
    frame = frame_of(job)
    count = frame.upright_braces + frame.lying_braces
    if count == 0:
        return []
    longest = max(frame.width_mm, frame.height_mm)
    return [
        Note(
            code="brace",
            severity=Severity.HINT,
            place=Place.BACK,
            message=say("A span of {longest:g} mm needs a cross-brace (common practice).", longest=longest)
            if count == 1
            else say(
                "Bars of {width:g} and {height:g} mm need {count} cross-braces (common practice).",
                width=frame.width_mm,
                height=frame.height_mm,
                count=count,
            ),
            remedy=say("Fit it across the middle before you stretch the canvas.")
            if count == 1
            else say("Fit them at equal distances before you stretch the canvas."),
            field="face.width_mm" if frame.width_mm >= frame.height_mm else "face.height_mm",
        )
    ]
