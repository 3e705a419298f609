"""Notes about how a picture becomes the canvas's pixels and the print file."""

from __future__ import annotations

from pycore.bridge.messages import FileKind
from pycore.contract.notes import Note, Place, Severity
from pycore.picture.source import SourcePicture


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
    return [
        output_note(
            "resampled-encoded",
            "The picture's profile has no tone curves, so it is resampled and blurred in its encoded values, "
            "not in linear light; fine contrasts may come out a little darker.",
            "Export the picture in a working space such as sRGB if that matters.",
            field="picture.file",
        )
    ]


def untagged_notes(source: SourcePicture) -> list[Note]:
    """Say so where the print file carries no profile.

    Parameters
    ----------
    source : SourcePicture

    Returns
    -------
    list of Note
    """
    if source.profile is not None:
        return []
    taken = "unknown" if source.image.mode == "CMYK" else "meant as sRGB"
    return [
        output_note(
            "file-untagged",
            f"The print file carries no profile, as the picture has none; its values are {taken}.",
            "Choose that by hand in the printing program, or start from a picture with its profile.",
            field="picture.file",
            severity=Severity.WATCH,
        )
    ]


def resolution_notes(meant_ppi: float, kept_ppi: float, *, kind: FileKind) -> list[Note]:
    """Say so where a format keeps the resolution so coarsely that the size comes out otherwise.

    Parameters
    ----------
    meant_ppi, kept_ppi : float
        As the job says, and as the format can hold it.
    kind : FileKind

    Returns
    -------
    list of Note

    Examples
    --------
    >>> [note.code for note in resolution_notes(123.4, 123, kind=FileKind.JPEG)]
    ['resolution-rounded']
    """
    # PNG's whole pixels per metre are off by less than this at every resolution that a job may have.
    if abs(kept_ppi / meant_ppi - 1) < 5e-4:
        return []
    return [
        output_note(
            "resolution-rounded",
            f"A {kind.value.upper()} file keeps whole pixels per inch: {kept_ppi:g}, not {meant_ppi:g}, "
            f"so a program that trusts it prints {abs(meant_ppi / kept_ppi - 1):.2%} off.",
            "Write a TIFF, or choose a whole number of pixels per inch.",
            field="print.ppi",
            severity=Severity.WATCH,
        )
    ]


def output_note(
    code: str, message: str, remedy: str, *, field: str, severity: Severity = Severity.HINT
) -> Note:
    """A note about the picture on its way out."""
    return Note(
        code=code, severity=severity, place=Place.PICTURE, message=message, remedy=remedy, field=field
    )
