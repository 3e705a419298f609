"""A written ticket read again: every object where the table says, the pages and their size."""

from __future__ import annotations

import re
from typing import Final

from pycore.errors import OutputError
from pycore.speech import say
from pycore.ticket.lines import MM_PER_POINT
from pycore.ticket.report import PAPER_MM, Paper, TicketReport

#: A page's size is written with two decimals of a point.
_NEAR_POINTS: Final = 0.01


def check_ticket(data: bytes, *, file: str, paper: Paper, pages: int) -> TicketReport:
    """Read a ticket again.

    Parameters
    ----------
    data : bytes
        The file.
    file : str
        Its name, for the report.
    paper : Paper
        What was meant.
    pages : int
        How many were meant.

    Returns
    -------
    TicketReport

    Raises
    ------
    OutputError
        An object is not where the table of objects says, or pages or size are not what was meant.

    References
    ----------
    ISO 32000-1: 7.5.4 (the cross-reference table), 7.5.5 (the trailer), 7.7.3 (pages).
    """
    start = re.search(rb"startxref\s+(\d+)\s+%%EOF\s*$", data)
    table = data[int(start[1]) :] if start else b""
    head = re.match(rb"xref\s+0 (\d+)\s+", table)
    if not data.startswith(b"%PDF-") or head is None:
        raise _broken(
            say("a PDF with its table of objects"), say("{data_count} bytes without it", data_count=len(data))
        )
    entries = re.findall(rb"(\d{10}) \d{5} n", table[: table.index(b"trailer")])
    for number, entry in enumerate(entries, start=1):
        if not re.match(rb"%d 0 obj" % number, data[int(entry) :]):
            raise _broken(
                say("object {number} at {entry}", number=number, entry=int(entry)), say("something else")
            )
    found = len(re.findall(rb"/Type /Page\b", data))
    boxes = [
        tuple(float(one) for one in box.split()[2:]) for box in re.findall(rb"/MediaBox \[([\d. ]+)\]", data)
    ]
    wide, high = (one / MM_PER_POINT for one in PAPER_MM[paper])
    if found != pages or not boxes:
        raise _broken(say("{pages} pages", pages=pages), str(found))
    if any(abs(box[0] - wide) > _NEAR_POINTS or abs(box[1] - high) > _NEAR_POINTS for box in boxes):
        raise _broken(say("{wide:.2f} x {high:.2f} points", wide=wide, high=high), str(boxes))
    return TicketReport(file=file, bytes=len(data), paper=paper, pages=found)


def _broken(expected: str, got: str) -> OutputError:
    return OutputError(
        field="ticket",
        expected=expected,
        got=got,
        remedy=say("make it again; report the fault if it comes again"),
        said=say(
            "The written ticket is wrong: it should have {expected}, and has {got}.",
            expected=expected,
            got=got,
        ),
    )
