"""Notes about how a picture becomes the canvas's pixels."""

from __future__ import annotations

from pycore.contract.notes import Note, Place, Severity
from pycore.picture.source import SourcePicture
from pycore.speech import say


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
