"""Notes: what to watch on a job, where it is, and the way to mend it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from enum import StrEnum
from types import MappingProxyType
from typing import Any, Final

from pydantic import Field, model_validator

from pycore.contract.record import Record
from pycore.speech import PlainValue, say, values_of


class Severity(StrEnum):
    """How much a note matters; the page lists stops first."""

    STOP = "stop"
    WATCH = "watch"
    HINT = "hint"


#: What a person reads for each severity.
SEVERITY_WORDS: Final[Mapping[Severity, str]] = MappingProxyType(
    {
        Severity.STOP: say("Does not work"),
        Severity.WATCH: say("Look again"),
        Severity.HINT: say("Good to know"),
    }
)


class Place(StrEnum):
    """What part of the canvas a note is about, so that the page can point there."""

    FACE = "face"
    TOP = "top"
    RIGHT = "right"
    BOTTOM = "bottom"
    LEFT = "left"
    CORNERS = "corners"
    BACK = "back"
    SHEET = "sheet"
    PICTURE = "picture"


class Note(Record):
    """Something to watch, where, and the way to mend it."""

    code: str
    """A stable word, for example `sheet-short`."""
    severity: Severity
    place: Place
    message: str
    """What is the matter, with its figures and units. Common practice and numbers from memory say so."""
    remedy: str
    field: str = ""
    """The job field that would mend it, or nothing."""
    values: dict[str, PlainValue] = Field(default_factory=dict)
    """The values in message and remedy by name, the same in every language; words are the English ones."""

    @model_validator(mode="before")
    @classmethod
    def _take_values(cls, given: Any) -> Any:
        """Take them from the phrases, of which only the text is kept."""
        if not isinstance(given, dict) or "values" in given:
            return given
        return given | {"values": values_of(given.get("message", ""), given.get("remedy", ""))}


def each_once(notes: Iterable[Note]) -> list[Note]:
    """Leave out what is said twice.

    Parameters
    ----------
    notes : iterable of Note

    Returns
    -------
    list of Note
        In their order.

    Examples
    --------
    >>> dry = Note(code="dry", severity="hint", place="face", message="Wait a day.", remedy="Wait.")
    >>> len(each_once([dry, dry]))
    1
    """
    return list({(note.code, note.message, note.remedy): note for note in notes}.values())


def worst_first(notes: Iterable[Note]) -> list[Note]:
    """Sort notes by severity, the given order kept among equals.

    Parameters
    ----------
    notes : iterable of Note

    Returns
    -------
    list of Note

    Examples
    --------
    >>> worst_first([])
    []
    """
    order = list(Severity)
    return sorted(notes, key=lambda note: order.index(note.severity))


def note_line(note: Note) -> str:
    """A note as one line.

    Parameters
    ----------
    note : Note

    Returns
    -------
    str

    Examples
    --------
    >>> note_line(Note(code="dry", severity="hint", place="face", message="Wait a day.", remedy="Wait."))
    'Good to know: Wait a day. Wait.'
    """
    return f"{say(SEVERITY_WORDS[note.severity])}: {note.message} {note.remedy}"
