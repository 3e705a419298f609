"""Notes as the command line says them."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from pycore.contract.notes import Note, note_line, worst_first


def note_lines(notes: Iterable[Note]) -> list[str]:
    """Notes as lines of text.

    Parameters
    ----------
    notes : iterable of Note

    Returns
    -------
    list of str
        One line for each: severity, message, remedy. The worst come first, whichever
        part of the work said them.

    Examples
    --------
    >>> note_lines([Note(code="dry", severity="hint", place="face", message="Wait a day.", remedy="Wait.")])
    ['Good to know: Wait a day. Wait.']
    """
    return [note_line(note) for note in worst_first(notes)]


def plain_notes(notes: Iterable[Note]) -> list[dict[str, Any]]:
    """Notes as plain data.

    Parameters
    ----------
    notes : iterable of Note

    Returns
    -------
    list of dict
        JSON data, every field of each note; the worst come first.

    Examples
    --------
    >>> plain_notes([])
    []
    """
    return [note.model_dump(mode="json") for note in worst_first(notes)]
