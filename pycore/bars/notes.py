"""What to watch on the bars: the braces that they need, and whether they hold the whole turn-over."""

from __future__ import annotations

from typing import Final

from pycore.bars.frame import bar_width_mm, frame_of
from pycore.contract.job import Job
from pycore.contract.notes import Note, Place, Severity
from pycore.speech import say

#: So much of the turn-over may reach past the bars unsaid: a width by the rule is no sold one.
_UNSAID_MM: Final = 5.0


def bars_notes(job: Job) -> list[Note]:
    """Say so where the turn-over is wider than the bars, and where they need braces, as the list of bars has.

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
    return [*_loose(job), *_braces(job)]


def _loose(job: Job) -> list[Note]:
    turned, width = job.wrap.turnover_mm, bar_width_mm(job)
    if turned <= width + _UNSAID_MM:
        return []
    return [
        Note(
            code="turnover-loose",
            severity=Severity.WATCH,
            place=Place.BACK,
            message=say(
                "A turn-over of {turnover_mm:g} mm is wider than the bars of {width_mm:g} mm: what reaches "
                "past them hangs loose.",
                turnover_mm=turned,
                width_mm=width,
            ),
            remedy=say("Make it narrower than the bars, or take wider bars."),
            field="wrap.turnover_mm",
        )
    ]


def _braces(job: Job) -> list[Note]:
    frame = frame_of(job)
    count = frame.upright_braces + frame.lying_braces
    if count == 0:
        return []
    longest = max(frame.width_mm, frame.height_mm)
    each = "" if job.group.panels == 1 else say(" in each panel")
    return [
        Note(
            code="brace",
            severity=Severity.HINT,
            place=Place.BACK,
            message=say(
                "A span of {longest:g} mm needs a cross-brace{each} (common practice).",
                longest=longest,
                each=each,
            )
            if count == 1
            else say(
                "Bars of {width:g} and {height:g} mm need {count} cross-braces{each} (common practice).",
                width=frame.width_mm,
                height=frame.height_mm,
                count=count,
                each=each,
            ),
            remedy=say("Fit it across the middle before you stretch the canvas.")
            if count == 1
            else say("Fit them at equal distances before you stretch the canvas."),
            field="face.width_mm" if frame.width_mm >= frame.height_mm else "face.height_mm",
        )
    ]
