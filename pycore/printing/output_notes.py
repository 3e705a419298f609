"""Notes about what a print file can and cannot hold."""

from __future__ import annotations

from pycore.contract.notes import Note, Severity
from pycore.printing.report import FileKind
from pycore.render.notes import output_note
from pycore.speech import say


def untagged_notes() -> list[Note]:
    """Say that a file carries no profile: it holds ink values that nobody knows the colours of.

    Returns
    -------
    list of Note
    """
    return [
        output_note(
            "file-untagged",
            say(
                "The print file has no profile, because the picture has no usable one; its CMYK values have "
                "no known colours."
            ),
            say("Export the picture with its profile and open it again."),
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
            say(
                "A {kind} file keeps whole pixels per inch: {kept_ppi:g}, not {meant_ppi:g}. A "
                "program that goes by it prints {meant_ppi2:.2%} too {words}.",
                kind=kind.value.upper(),
                kept_ppi=kept_ppi,
                meant_ppi=meant_ppi,
                meant_ppi2=abs(meant_ppi / kept_ppi - 1),
                words=say("large") if meant_ppi > kept_ppi else say("small"),
            ),
            say("Save a TIFF, or choose a whole number of pixels per inch."),
            field="print.ppi",
            severity=Severity.WATCH,
        )
    ]
