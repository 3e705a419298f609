"""A turntable of the piece: frames that were drawn become one animated picture, opened again and measured."""

from __future__ import annotations

from collections.abc import Generator
from dataclasses import dataclass

from pycore.model.report import TurntableOptions, TurntableReport
from pycore.model.turntable import split_frames, write_turntable
from pycore.printing.file_names import stem_of
from pycore.progress import Progress, map_progress
from pycore.speech import say


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class WrittenTurntable:
    """An animation's bytes and what was measured on them."""

    data: bytes
    report: TurntableReport


def make_turntable(
    buffer: bytes, *, options: TurntableOptions
) -> Generator[Progress, None, WrittenTurntable]:
    """Write an animation of the frames that the stage has drawn.

    Parameters
    ----------
    buffer : bytes
        The frames one after the other, RGB, 8 bits, rows from the top.
    options : TurntableOptions

    Yields
    ------
    Progress

    Returns
    -------
    WrittenTurntable

    Raises
    ------
    FieldError
        The buffer is not as long as the options say, or all frames are alike.
    OutputError
        What was written is not what was given.
    """
    frames = split_frames(
        buffer, width_px=options.width_px, height_px=options.height_px, frames=options.frames
    )
    writing = write_turntable(frames, kind=options.kind, frame_ms=options.frame_ms)
    written = yield from map_progress(writing, _progress)
    report = TurntableReport(
        file=f"{stem_of(options.name, 'turntable')}.{options.kind.value}",
        bytes=len(written.data),
        width_px=written.width_px,
        height_px=written.height_px,
        frames=written.frames,
        seconds=written.seconds,
    )
    return WrittenTurntable(data=written.data, report=report)


def _progress(done: float) -> Progress:
    return Progress(done=done, label=say("Saving the animation"))
