"""Choices by eye over the bridge: what comes is what was asked for, with its pictures beside it."""

from __future__ import annotations

import io
from typing import Any

import numpy as np
import pytest
from PIL import Image

from pycore.bridge.answer import Answer
from pycore.bridge.choice_messages import ChoicesReply
from pycore.bridge.session import Session
from pycore.errors import PictureError
from pycore.progress import run_to_end

JOB = {"face": {"width_mm": 200, "height_mm": 150}, "bars": {"depth_mm": 20}}


@pytest.fixture(scope="module")
def session() -> Session:
    pixels = np.random.default_rng(2).integers(0, 256, (12, 16, 3), dtype=np.uint8)
    out = io.BytesIO()
    Image.fromarray(pixels).resize((480, 360), Image.Resampling.BICUBIC).save(out, "PNG")
    made = Session()
    run_to_end(made.call("open", {"file": "blobs.png"}, out.getvalue()))
    return made


def asked(session: Session, **params: Any) -> Answer:
    return run_to_end(session.call("choices", {"job": JOB, "fills": [], **params}))


def test_fills_come_in_the_order_asked_for(session: Session) -> None:
    answer = asked(session, kind="fills", fills=["plain", "mirror"])
    reply = answer.reply
    assert isinstance(reply, ChoicesReply)
    assert [one.fill.value for one in reply.fills] == ["plain", "mirror"]
    assert [one.picture.place for one in reply.fills if one.picture is not None] == [0, 1]
    assert [list(one.shape) for one in answer.buffers] == [
        one.picture.shape for one in reply.fills if one.picture is not None
    ]
    assert len(reply.finishes) + len(reply.intents) == 0


def test_finishes_come_with_two_pictures_each(session: Session) -> None:
    answer = asked(session, kind="finishes")
    reply = answer.reply
    assert isinstance(reply, ChoicesReply)
    assert [one.finish.value for one in reply.finishes] == ["tucked", "lapped", "trimmed"]
    assert len(answer.buffers) == 6


def test_intents_come_with_their_figures(session: Session) -> None:
    answer = asked(session, kind="intents", viewing="canvas")
    reply = answer.reply
    assert isinstance(reply, ChoicesReply)
    assert len(reply.intents) == len(answer.buffers) == 4
    assert all(0 < one.mean_de < one.p95_de for one in reply.intents)


def test_what_is_refused_has_a_reason_and_no_picture(session: Session) -> None:
    job = {"face": {"width_mm": 100, "height_mm": 100}, "bars": {"depth_mm": 40}}
    answer = run_to_end(session.call("choices", {"job": job, "kind": "finishes", "fills": []}))
    reply = answer.reply
    assert isinstance(reply, ChoicesReply)
    refused = reply.finishes[0].refused
    assert refused is not None
    assert refused.field == "face.width_mm"
    assert reply.finishes[0].folded is None
    assert len(answer.buffers) == 2


def test_without_a_picture_nothing_is_drawn() -> None:
    with pytest.raises(PictureError, match="No picture is open"):
        asked(Session(), kind="fills", fills=["mirror"])


def test_a_fill_that_there_is_not_is_a_fault_of_the_page(session: Session) -> None:
    with pytest.raises(ValueError, match="fills"):
        asked(session, kind="fills", fills=["carry"])
