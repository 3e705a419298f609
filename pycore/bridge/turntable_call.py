"""The answer to the call for a turntable. Imported when it is first asked for."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

import numpy as np

from pycore.bridge.answer import PART_BYTES, Answer, Arrays, Steps, taken
from pycore.bridge.messages import Progress
from pycore.bridge.showing_messages import TurntableParams, TurntableReply, TurntableReport
from pycore.showing.turntable import Animation, split_frames, write_turntable


def turntable(params: Mapping[str, Any], buffer: bytes) -> Steps:
    """Write an animation of the frames that the page has drawn.

    Parameters
    ----------
    params : mapping
        As `TurntableParams`.
    buffer : bytes
        The frames one after the other, RGB, 8 bits, rows from the top.

    Returns
    -------
    generator
        Yields `Progress`, returns `Answer`.

    Raises
    ------
    TuckfoldError
        The buffer is not as long as the parameters say, or what was written is not what was given.
    """
    asked = TurntableParams.model_validate(params)
    frames = split_frames(buffer, width_px=asked.width_px, height_px=asked.height_px, frames=asked.frames)
    writing = write_turntable(frames, kind=Animation(asked.kind.value), frame_ms=asked.frame_ms)
    while True:
        try:
            done = next(writing)
        except StopIteration as end:
            written = end.value
            break
        yield Progress(done=done, label="Writing the animation")
    arrays: Arrays = []
    data = np.frombuffer(written.data, np.uint8)
    parts = [taken(data[at : at + PART_BYTES], "file", arrays) for at in range(0, len(data), PART_BYTES)]
    report = TurntableReport(
        file=f"{_stem(asked.name)}.{asked.kind.value}",
        bytes=len(written.data),
        width_px=written.width_px,
        height_px=written.height_px,
        frames=written.frames,
        seconds=written.seconds,
    )
    return Answer(TurntableReply(report=report, parts=parts), arrays)


def _stem(name: str) -> str:
    """A file name, without its ending, made of the job's name."""
    words = re.findall(r"[^\W_]+", name)[:8]
    return "-".join([*words, "turntable"])[-80:]
