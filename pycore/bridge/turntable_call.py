"""The answer to the call for a turntable. Imported when it is first asked for."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pycore.bridge.answer import Answer, Arrays, Steps, parts_of
from pycore.bridge.file_stem import stem_of
from pycore.bridge.progress import Progress
from pycore.bridge.showing_messages import TurntableParams, TurntableReply, TurntableReport
from pycore.model.turntable import Animation, split_frames, write_turntable
from pycore.progress import told


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
    written = yield from told(writing, _progress)
    arrays: Arrays = []
    report = TurntableReport(
        file=f"{stem_of(asked.name, 'turntable')}.{asked.kind.value}",
        bytes=len(written.data),
        width_px=written.width_px,
        height_px=written.height_px,
        frames=written.frames,
        seconds=written.seconds,
    )
    return Answer(TurntableReply(report=report, parts=parts_of(written.data, arrays)), arrays)


def _progress(done: float) -> Progress:
    return Progress(done=done, label="Writing the animation")
