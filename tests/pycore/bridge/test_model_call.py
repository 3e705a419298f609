"""The call for a model as the page makes it."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from pycore.bridge.session import Session
from pycore.errors import FieldError, GeometryError, PictureError
from pycore.model.reread import ModelFile, check_model
from pycore.progress import Progress

from .test_session import A4, answer, picture

ASKED: dict[str, Any] = {"job": A4, "texture_px": 60_000}


@pytest.fixture
def session() -> Session:
    session = Session()
    answer(session, "open", {"file": "ramp.png"}, picture())
    return session


def test_the_parts_are_a_model_that_measures_what_the_report_says(session: Session) -> None:
    found = answer(session, "model", ASKED)
    reply: Any = found.reply
    data = b"".join(np.asarray(found.buffers[part.place]).tobytes() for part in reply.parts)
    report = reply.report
    assert report.bytes == len(data)
    again = check_model(data, file=report.file, size_mm=report.size_mm, texture_px=report.texture_px)
    assert again == report
    assert report.file == "297x210mm.glb"
    # Derived: 297 + 0.9, 210 + 2.7, 20 + 2.7 mm.
    assert report.size_mm == pytest.approx((297.9, 212.7, 22.7), abs=0.005)
    assert report.texture_px[0] * report.texture_px[1] <= 60_000


def test_filed_and_printed_differ_in_the_texture_alone(session: Session) -> None:
    files = []
    for colours in ("filed", "printed"):
        found = answer(session, "model", {**ASKED, "colours": colours})
        reply: Any = found.reply
        data = b"".join(np.asarray(found.buffers[part.place]).tobytes() for part in reply.parts)
        files.append(ModelFile(data))
    places = [one.tree["images"][0]["bufferView"] for one in files]
    assert files[0].view(places[0]) != files[1].view(places[1])
    shapes = [file.view(0) for file in files]
    assert shapes[0] == shapes[1]


def test_progress_rises(session: Session) -> None:
    shares = [one.done for one in session.call("model", ASKED) if isinstance(one, Progress)]
    assert shares == sorted(shares)
    assert shares[0] >= 0
    assert shares[-1] <= 1


def test_a_wrong_job_is_refused_in_the_users_words(session: Session) -> None:
    with pytest.raises(FieldError, match=r"Bar depth must be .*you gave 3"):
        answer(session, "model", {**ASKED, "job": {**A4, "bars": {"depth_mm": 3}}})
    with pytest.raises(GeometryError, match="for these corners to fold"):
        answer(session, "model", {**ASKED, "job": {"face": {"width_mm": 80, "height_mm": 300}}})


def test_without_a_picture_there_is_nothing_to_show() -> None:
    with pytest.raises(PictureError, match="No picture is open"):
        answer(Session(), "model", ASKED)
