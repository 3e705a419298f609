"""What a ticket is asked for, and what is found when a written one is read again."""

from __future__ import annotations

from enum import StrEnum
from typing import Final

from pycore.contract.record import Pair, Record
from pycore.conventions import PAPERS_MM


class Paper(StrEnum):
    """The paper that the ticket is printed on."""

    A4 = "a4"
    LETTER = "letter"


#: Width and height, mm.
PAPER_MM: Final[dict[Paper, Pair]] = {paper: PAPERS_MM[paper.value] for paper in Paper}


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
