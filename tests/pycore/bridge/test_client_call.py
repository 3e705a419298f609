"""The call for the client's page as the page makes it."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from pycore.bridge.session import Session
from pycore.client.recheck import check_client_page
from pycore.errors import FieldError, OutputError, PictureError

from .test_session import A4, answer, picture

ASKED: dict[str, Any] = {"variants": [{"label": "", "job": A4}], "date": "2031-04-30"}
VIEWER = b'"use strict";\n'


@pytest.fixture
def session() -> Session:
    session = Session()
    answer(session, "open", {"file": "ramp.png"}, picture())
    return session


def test_the_parts_are_a_page_that_passes_its_check(session: Session) -> None:
    found = answer(session, "client", {**ASKED, "message": "Dear Mara"}, VIEWER)
    reply: Any = found.reply
    data = b"".join(np.asarray(found.buffers[part.place]).tobytes() for part in reply.parts)
    assert check_client_page(data, file=reply.report.file, variants=1) == reply.report
    assert reply.report.file.endswith("297x210mm-client.html")
    assert b"Dear Mara" in data
    assert b"ramp.png" not in data


def test_several_variants_are_offered(session: Session) -> None:
    jobs = [{"label": f"{depth} mm", "job": {**A4, "bars": {"depth_mm": depth}}} for depth in (18, 38, 50)]
    reply: Any = answer(session, "client", {**ASKED, "variants": jobs}, VIEWER).reply
    assert reply.report.variants == 3


def test_a_wrong_job_is_refused_in_the_users_words(session: Session) -> None:
    wrong = [{"label": "", "job": {**A4, "bars": {"depth_mm": 3}}}]
    with pytest.raises(FieldError, match=r"Bar depth must be .*you gave 3"):
        answer(session, "client", {**ASKED, "variants": wrong}, VIEWER)


def test_the_viewers_program_must_be_handed_over(session: Session) -> None:
    with pytest.raises(OutputError, match="The viewer's program is not installed"):
        answer(session, "client", ASKED)


def test_without_a_picture_there_is_nothing_to_show() -> None:
    with pytest.raises(PictureError, match="No picture is open"):
        answer(Session(), "client", ASKED, VIEWER)
