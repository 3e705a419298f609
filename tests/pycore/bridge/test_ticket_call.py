"""The call for a ticket as the page makes it."""

from __future__ import annotations

import io
from typing import Any

import numpy as np
import pytest
from pypdf import PdfReader

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


@pytest.mark.native
def test_the_panels_of_a_group_are_drawn_side_by_side(session: Session) -> None:
    """Derived: three faces of 90 x 60 mm, each with 0.9 mm of allowance, and two gaps of 30 mm between."""
    face, group = {"width_mm": 90, "height_mm": 60}, {"panels": 3, "gap_mm": 30}
    found = answer(session, "ticket", {**ASKED, "job": {"face": face, "group": group}})
    reply: Any = found.reply
    data = b"".join(np.asarray(found.buffers[part.place]).tobytes() for part in reply.parts)
    images = [one.image for page in PdfReader(io.BytesIO(data)).pages for one in page.images]
    (size,) = [one.size for one in images if one is not None]
    # Within a pixel of its height.
    assert size[0] / size[1] == pytest.approx((3 * 90.9 + 2 * 30) / 60.9, rel=1 / size[1])
