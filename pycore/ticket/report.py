"""What a ticket is asked for, and what is found when a written one is read again."""

from __future__ import annotations

from enum import StrEnum
from typing import Final

from pycore.contract.record import Pair, Record
from pycore.conventions import MM_PER_INCH


class Paper(StrEnum):
    """The paper that the ticket is printed on."""

    A4 = "a4"
    LETTER = "letter"


#: Width and height, mm. Published: ISO 216; ANSI/ASME Y14.1 (8.5 by 11 inches).
PAPER_MM: Final[dict[Paper, Pair]] = {
    Paper.A4: (210.0, 297.0),
    Paper.LETTER: (8.5 * MM_PER_INCH, 11 * MM_PER_INCH),
}


class TicketOptions(Record):
    """What may be chosen of a ticket."""

    paper: Paper = Paper.A4
    date: str
    """Of today, YYYY-MM-DD; the core has no clock of its own."""


class TicketReport(Record):
    """What was re-read from a written ticket."""

    file: str
    bytes: int
    paper: Paper
    pages: int
