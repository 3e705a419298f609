"""Notes about sides whose fill does not suit the picture there."""

from __future__ import annotations

from pycore.contract.notes import Note, Place, Severity
from pycore.edges.advice import FILL_NAMES, WATCH_HARM, Advice
from pycore.edges.judge import EdgeFigures

_FAULTS = {
    "busy": "shows streaks: the picture is busy beside its front edge, and drawing it out smears that",
    "doubled": "shows a shape twice: something stands out near its front edge",
    "broken": "shows a broken line: something meets its front edge at a slant",
    "cut": "takes something off the face that stands out there",
}


def edge_note(figures: EdgeFigures, advice: Advice) -> Note | None:
    """The note about one side, if its fill does it harm.

    Parameters
    ----------
    figures : EdgeFigures
    advice : Advice
        About the same side.

    Returns
    -------
    Note or None

    Examples
    --------
    >>> from pycore.contract.job import Fill
    >>> from pycore.conventions import Side
    >>> from pycore.edges.advice import advise
    >>> figures = EdgeFigures(Side.LEFT, busy=0.1, doubled=0.0, broken=0.9, cut=0.1)
    >>> note = edge_note(figures, advise(figures, Fill.MIRROR))
    >>> note.code, note.field
    ('side-broken', 'sides.left.fill')
    >>> note.message
    'The left side shows a broken line: something meets its front edge at a slant (broken 0.90 of 1).'
    """
    if not advice.fault:
        return None
    side, value = figures.side.value, getattr(figures, advice.fault)
    if advice.better is None:
        remedy = "No other fill does clearly better: move the crop, or look at it in the 3D view."
    else:
        why = advice.reason.partition("; ")[2]
        remedy = f"{FILL_NAMES[advice.better]} does better: {why}."
    return Note(
        code=f"side-{advice.fault}",
        severity=Severity.WATCH if advice.harm >= WATCH_HARM else Severity.HINT,
        place=Place(side),
        message=f"The {side} side {_FAULTS[advice.fault]} ({advice.fault} {value:.2f} of 1).",
        remedy=remedy,
        field=f"sides.{side}.fill",
    )
