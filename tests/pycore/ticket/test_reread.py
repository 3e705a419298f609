"""A ticket that is not what was meant is found out."""

from __future__ import annotations

import datetime

import pytest

from pycore.errors import OutputError
from pycore.ticket.paper import TicketPages
from pycore.ticket.report import Paper
from pycore.ticket.reread import check_ticket


@pytest.fixture(scope="module")
def data() -> bytes:
    pages = TicketPages(paper=Paper.A4, title="Ticket", date=datetime.date(2031, 4, 30))
    for _ in range(2):
        pages.begin_page()
        pages.text(20, 20, "One line", size_pt=8)
    return pages.data()


def test_what_was_meant_is_found(data: bytes) -> None:
    report = check_ticket(data, file="a.pdf", paper=Paper.A4, pages=2)
    assert (report.bytes, report.pages, report.paper) == (len(data), 2, Paper.A4)


def test_every_fault_is_found(data: bytes) -> None:
    faulty = {
        "cut off": data[:-40],
        "no PDF": b"%PS" + data[3:],
        # One byte more, and no object is where the table says.
        "moved": data[:9] + b" " + data[9:],
    }
    for name, wrong in faulty.items():
        with pytest.raises(OutputError, match="The written ticket is wrong"):
            check_ticket(wrong, file=name, paper=Paper.A4, pages=2)


def test_other_pages_and_other_paper_are_found(data: bytes) -> None:
    with pytest.raises(OutputError, match="3 pages"):
        check_ticket(data, file="a.pdf", paper=Paper.A4, pages=3)
    # Published: Letter is 612 by 792 points.
    with pytest.raises(OutputError, match=r"612\.00 x 792\.00 points"):
        check_ticket(data, file="a.pdf", paper=Paper.LETTER, pages=2)
