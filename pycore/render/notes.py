"""Notes about how a picture becomes the canvas's pixels."""

from __future__ import annotations

from pycore.contract.job import Fill, Job, ResolvedFill, side_fill
from pycore.contract.notes import Note, Place, Severity
from pycore.conventions import Side
from pycore.fill.colour import EDGE, srgb_values
from pycore.picture.source import SourcePicture
from pycore.speech import listed, say


def tone_notes(source: SourcePicture) -> list[Note]:
    """Say so where a picture cannot be resampled in linear light.

    Parameters
    ----------
    source : SourcePicture

    Returns
    -------
    list of Note
    """
    if source.linear is not None:
        return []
    if source.profile is None:
        message = say(
            "Without a usable profile the picture's tone curves are not known, so it is resized and blurred "
            "in its encoded values, not in linear light; fine contrasts may print a little darker."
        )
    else:
        message = say(
            "The picture's profile has no tone curves, so the picture is resized and blurred "
            "in its encoded values, not in linear light; fine contrasts may print a little "
            "darker."
        )
    return [
        output_note(
            "resampled-encoded",
            message,
            say("If that matters, export the picture in a working space such as sRGB."),
            field="picture.file",
        )
    ]


def grey_notes(source: SourcePicture, job: Job) -> list[Note]:
    """Say so where a side's colour prints grey, because the picture has no colours.

    Parameters
    ----------
    source : SourcePicture
    job : Job
        A checked job.

    Returns
    -------
    list of Note
    """
    if source.image.mode != "L":
        return []
    sides = [side.value for side in Side if _has_hue(side_fill(job.sides, side))]
    if not sides:
        return []
    return [
        Note(
            code="colour-turns-grey",
            severity=Severity.WATCH,
            place=Place(sides[0]),
            message=say(
                "The picture is grey, so the colour of the {listed} side{words} prints grey.",
                listed=listed(sides),
                words="s" if len(sides) > 1 else "",
            ),
            remedy=say("Save the picture as RGB and open it again, or choose a grey."),
            field="sides.colour",
        )
    ]


def _has_hue(fill: ResolvedFill) -> bool:
    """Whether a side shows a colour of its own that is no grey."""
    if fill.fill not in (Fill.PLAIN, Fill.FADE) or fill.colour == EDGE:
        return False
    return len(set(srgb_values(fill.colour))) > 1


def output_note(
    code: str, message: str, remedy: str, *, field: str, severity: Severity = Severity.HINT
) -> Note:
    """Make a note about the picture on its way out.

    Parameters
    ----------
    code, message, remedy, field : str
        As `Note` takes them.
    severity : Severity

    Returns
    -------
    Note
    """
    return Note(
        code=code, severity=severity, place=Place.PICTURE, message=message, remedy=remedy, field=field
    )
