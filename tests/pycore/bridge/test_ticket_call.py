"""The call for a ticket as the page makes it."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from pycore.bridge.session import Session
from pycore.errors import FieldError, PictureError
from pycore.progress import Progress
from pycore.ticket.report import Paper
from pycore.ticket.reread import check_ticket

from .test_session import A4, answer, picture

ASKED: dict[str, Any] = {"job": {"name": "Low tide", **A4}, "paper": "letter", "date": "2031-04-30"}


@pytest.fixture
def session() -> Session:
    session = Session()
    answer(session, "open", {"file": "ramp.png"}, picture())
    return session


def test_the_parts_are_a_ticket_that_measures_what_the_report_says(session: Session) -> None:
    found = answer(session, "ticket", ASKED)
    reply: Any = found.reply
    data = b"".join(np.asarray(found.buffers[part.place]).tobytes() for part in reply.parts)
    assert reply.report.file == "Low-tide-297x210mm-ticket.pdf"
    assert check_ticket(data, file=reply.report.file, paper=Paper.LETTER, pages=2) == reply.report


def test_progress_rises(session: Session) -> None:
    shares = [one.done for one in session.call("ticket", ASKED) if isinstance(one, Progress)]
    assert shares == sorted(shares)
    assert 0 <= shares[0] < shares[-1] <= 1


def test_it_needs_a_picture_and_a_day(session: Session) -> None:
    with pytest.raises(PictureError):
        answer(Session(), "ticket", ASKED)
    with pytest.raises(FieldError) as wrong:
        answer(session, "ticket", {**ASKED, "date": "someday"})
    assert wrong.value.field == "date"
