"""Notes about sides whose fill does not suit the picture there."""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping, Sequence
from typing import Any

from pycore.contract.job import Fill
from pycore.contract.notes import Note, Place, Severity
from pycore.conventions import Side
from pycore.edges.advice import WATCH_HARM, Advice
from pycore.edges.judge import EdgeFigures
from pycore.edges.report import CropMove, SideReport
from pycore.fill.names import FILL_NAMES
from pycore.speech import listed, say

#: What a figure with one decimal shows.
_LEAST_WIDTH_MM = 0.1

_FAULTS = {
    "streaked": say("shows streaks: its edge drawn out makes bands of what is narrow there"),
    "doubled": say("shows a shape twice: something stands out near its front edge"),
    "broken": say("shows a broken line: something meets its front edge at a slant"),
    "cut": say("cuts something distinct, or takes it off the face"),
    "chevrons": say("shows chevrons: slanted lines at its front edge turn back"),
    "repeated": say("shows again what stands further in"),
    "smeared": say("shows streaks: continuing its lines draws detail out"),
    "bent": say("shows a bent line at its front edge"),
    "severed": say("shows a stub: its front edge cuts something distinct"),
}


def edge_note(
    figures: EdgeFigures, advice: Advice, move: CropMove | None = None, *, instead: bool = False
) -> Note | None:
    """The note about one side, if its fill does it harm.

    Parameters
    ----------
    figures : EdgeFigures
    advice : Advice
        About the same side.
    move : CropMove, optional
        A move of the crop that mends it.
    instead : bool
        Whether the side was to be continued and is a mirror.

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
    moving = (
        ""
        if move is None
        else say("{move_words}: then the front edge cuts nothing there.", move_words=move_words(move))
    )
    if advice.better is not None:
        better = say("{fill_names} does better: {why}.", fill_names=FILL_NAMES[advice.better], why=advice.why)
        remedy = say("{moving} {better}", moving=moving, better=better) if moving else better
    elif moving:
        remedy = moving
    else:
        remedy = say("No other fill does clearly better: move the crop, or look at it in the 3D view.")
    words: dict[str, Any] = {
        "side": side,
        "faults": _FAULTS[advice.fault],
        "fault": advice.fault,
        "value": value,
    }
    return Note(
        code=f"side-{advice.fault}",
        severity=Severity.WATCH if advice.harm >= WATCH_HARM else Severity.HINT,
        place=Place(side),
        message=say(
            "The {side} side is a mirror, since its lines continued would look worse. "
            "It {faults} ({fault} {value:.2f} of 1).",
            **words,
        )
        if instead
        else say("The {side} side {faults} ({fault} {value:.2f} of 1).", **words),
        remedy=remedy,
        field=f"sides.{side}.fill",
    )


def mirrored_note(sides: Sequence[SideReport], *, told: Collection[str]) -> Note | None:
    """The note about sides that were to be continued and are mirrors.

    Parameters
    ----------
    sides : sequence of SideReport
    told : collection of str
        Fields of sides whose own notes say so.

    Returns
    -------
    Note or None
        Nothing where there is no such side.
    """
    found = [
        one.side.value
        for one in sides
        if one.fill is Fill.CONTINUED and one.mirrored and f"sides.{one.side.value}.fill" not in told
    ]
    if not found:
        return None
    return Note(
        code="continued-mirrored",
        severity=Severity.HINT,
        place=Place(found[0]),
        message=say(
            "The {listed} side{several}, since lines continued would look no better there.",
            listed=listed(found),
            several=say("s are mirrors") if len(found) > 1 else say(" is a mirror"),
        ),
        remedy=say("Nothing is made up there; look at it in the 3D view."),
        field="sides.fill",
    )


def rim_note(shown_mm: Mapping[Side, float]) -> Note | None:
    """The note about a rim of another colour at the picture's edge.

    Parameters
    ----------
    shown_mm : mapping of Side to float
        How wide it is on the face, by side.

    Returns
    -------
    Note or None
        Nothing where none is shown.

    Examples
    --------
    >>> from pycore.conventions import Side
    >>> note = rim_note({Side.TOP: 0.31, Side.LEFT: 0.52})
    >>> note.code, note.remedy
    ('picture-rim', 'Crop 0.6 mm away there.')
    """
    if not shown_mm:
        return None
    sides = [side.value for side in Side if side in shown_mm]
    widest = max(shown_mm.values())
    return Note(
        code="picture-rim",
        severity=Severity.WATCH,
        place=Place(sides[0]),
        message=say(
            "The picture has a thin rim of another colour at its edge ({listed}): {width_mm:.1f} mm on the "
            "face. It shows as a line at the front edge, in a mirror twice.",
            width_mm=max(widest, _LEAST_WIDTH_MM),
            listed=listed(sides),
        ),
        # What a crop by the width alone leaves by rounding would be a line still.
        remedy=say("Crop {crop_mm:.1f} mm away there.", crop_mm=math.floor(widest * 10 + 1) / 10),
        field="picture.crop",
    )


def move_words(move: CropMove) -> str:
    """What a move of the crop is, for a person.

    Parameters
    ----------
    move : CropMove

    Returns
    -------
    str

    Examples
    --------
    >>> from pycore.contract.job import Crop
    >>> whole = Crop(x=0, y=0, width=1, height=1)
    >>> move_words(CropMove(right_mm=-6.5, down_mm=0, crop=whole))
    'Move the crop 6.5 mm to the left'
    >>> move_words(CropMove(right_mm=0, down_mm=12, crop=whole))
    'Move the crop 12.0 mm down'
    """
    if move.right_mm:
        return say(
            "Move the crop {right_mm:.1f} mm to the {words}",
            right_mm=abs(move.right_mm),
            words=say("right") if move.right_mm > 0 else say("left"),
        )
    return say(
        "Move the crop {down_mm:.1f} mm {words}",
        down_mm=abs(move.down_mm),
        words=say("down") if move.down_mm > 0 else say("up"),
    )
