"""A turntable through the session: its frames come, and are written as one file."""

from __future__ import annotations

import io
from typing import Any

import numpy as np
import pytest
from PIL import Image

from pycore.bridge.answer import Answer
from pycore.bridge.session import Session
from pycore.bridge.showing_messages import TurntableReply
from pycore.errors import FieldError
from pycore.progress import run_to_end

PARAMS: dict[str, Any] = {
    "name": "Low tide / 2",
    "kind": "webp",
    "width_px": 20,
    "height_px": 16,
    "frames": 3,
    "frame_ms": 50,
}


def answered(params: dict[str, Any], buffer: bytes | None) -> Answer:
    answer = run_to_end(Session().call("turntable", params, buffer))
    assert isinstance(answer, Answer)
    return answer


@pytest.mark.parametrize("kind", ["webp", "gif"])
def test_a_session_writes_a_turntable_without_any_picture(kind: str) -> None:
    frames = np.zeros((3, 16, 20, 3), np.uint8)
    for k in range(3):
        frames[k, :, 6 * k : 6 * k + 6, 1] = 200
    answer = answered({**PARAMS, "kind": kind}, frames.tobytes())
    reply = answer.reply
    assert isinstance(reply, TurntableReply)
    assert reply.report.file == f"Low-tide-2-turntable.{kind}"
    assert (reply.report.width_px, reply.report.height_px, reply.report.frames) == (20, 16, 3)
    data = b"".join(answer.buffers[part.place].tobytes() for part in reply.parts)
    assert len(data) == reply.report.bytes
    with Image.open(io.BytesIO(data)) as again:
        assert getattr(again, "n_frames", 1) == 3


@pytest.mark.parametrize("buffer", [None, bytes(7)])
def test_a_buffer_that_is_not_the_frames_is_refused(buffer: bytes | None) -> None:
    with pytest.raises(FieldError, match="must be 2880 bytes: 3 frames of 20 x 16 pixels"):
        answered(PARAMS, buffer)
