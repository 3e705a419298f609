"""A turntable: frames of the piece being turned, written as one animated picture and measured again."""

from __future__ import annotations

import io
from collections.abc import Generator, Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageSequence

from pycore.errors import FieldError, OutputError
from pycore.model.report import TurntableKind
from pycore.speech import say

#: Bytes of all frames together: what fits beside everything else in the memory of a browser's page.
MOST_BYTES = 400_000_000

#: Common practice: little is seen to be lost of photographs above this.
_WEBP_QUALITY = 82
#: GIF counts time in hundredths of a second.
_GIF_TICK_MS = 10
#: Frames whose colours make the common palette of a GIF, and the size that they are reduced to for it.
_PALETTE_FRAMES, _PALETTE_PX = 8, 160
#: Mean levels of 255 by which a frame may differ from what was given: what both formats lose of a photograph.
_MOST_OFF = 12.0


@dataclass(frozen=True, kw_only=True)
class Turntable:
    """A written animation and what was measured on it.

    `frames` may be fewer than were given: frames that are alike are kept as one that is shown for longer.
    """

    data: bytes
    width_px: int
    height_px: int
    frames: int
    seconds: float


def split_frames(buffer: bytes, *, width_px: int, height_px: int, frames: int) -> NDArray[np.uint8]:
    """Take the frames out of one buffer, without copying them.

    Parameters
    ----------
    buffer : bytes
        The frames one after the other, each rows from the top, RGB, 8 bits.
    width_px, height_px : int
        Of each frame, pixels.
    frames : int
        How many there are.

    Returns
    -------
    ndarray
        (frames, height, width, 3), uint8, sRGB encoded.

    Raises
    ------
    FieldError
        The buffer is not as long as the sizes say, or there is too much of it.

    Examples
    --------
    >>> split_frames(bytes(2 * 4 * 3 * 3), width_px=4, height_px=3, frames=2).shape
    (2, 3, 4, 3)
    """
    expected = frames * height_px * width_px * 3
    if expected > MOST_BYTES:
        raise FieldError(
            field="turntable.frames",
            expected=say("at most {most_bytes} MB of frames", most_bytes=MOST_BYTES // 1000000),
            got=say(
                "{frames} frames of {width_px} x {height_px} pixels, {expected} MB",
                frames=frames,
                width_px=width_px,
                height_px=height_px,
                expected=expected // 1000000,
            ),
            remedy=say("make fewer or smaller frames"),
        )
    if len(buffer) != expected:
        raise FieldError(
            field="turntable.buffer",
            expected=say(
                "{expected} bytes: {frames} frames of {width_px} x {height_px} pixels, 3 bytes each",
                expected=expected,
                frames=frames,
                width_px=width_px,
                height_px=height_px,
            ),
            got=say("{buffer_count} bytes", buffer_count=len(buffer)),
            remedy=say("draw the frames again"),
        )
    return np.frombuffer(buffer, np.uint8).reshape(frames, height_px, width_px, 3)


def write_turntable(
    frames: NDArray[np.uint8], *, kind: TurntableKind, frame_ms: int
) -> Generator[float, None, Turntable]:
    """Write frames as an endless animation; open it again and measure it.

    Parameters
    ----------
    frames : ndarray
        (frames, height, width, 3), uint8, sRGB encoded.
    kind : TurntableKind
        The file's format.
    frame_ms : int
        How long each frame is shown, ms; GIF rounds it to 10 ms.

    Yields
    ------
    float
        How much is done, 0 to 1.

    Returns
    -------
    Turntable

    Raises
    ------
    FieldError
        All frames are alike: nothing turns.
    OutputError
        What was written is not what was given.
    """
    yield 0.0
    if (frames == frames[0]).all():
        raise FieldError(
            field="turntable.frames",
            expected=say("frames that differ"),
            got=say("{frame_count} frames that are alike", frame_count=len(frames)),
            remedy=say("draw the frames again"),
        )
    pictures = list(_in_colours_of(kind, frames))
    yield 0.3
    ms = frame_ms if kind is TurntableKind.WEBP else max(1, round(frame_ms / _GIF_TICK_MS)) * _GIF_TICK_MS
    file = io.BytesIO()
    common = {"save_all": True, "append_images": pictures[1:], "duration": ms, "loop": 0}
    if kind is TurntableKind.WEBP:
        pictures[0].save(file, "WEBP", quality=_WEBP_QUALITY, method=2, **common)
    else:
        pictures[0].save(file, "GIF", disposal=1, optimize=False, **common)
    yield 0.9
    return _measured(file.getvalue(), frames, total_ms=ms * len(frames))


def _in_colours_of(kind: TurntableKind, frames: NDArray[np.uint8]) -> Iterator[Image.Image]:
    """The frames as pictures; for GIF in one palette for all, so that nothing flickers."""
    if kind is TurntableKind.WEBP:
        yield from (Image.fromarray(frame) for frame in frames)
        return
    palette = _palette(frames)
    for frame in frames:
        yield Image.fromarray(frame).quantize(palette=palette, dither=Image.Dither.FLOYDSTEINBERG)


def _palette(frames: NDArray[np.uint8]) -> Image.Image:
    """The best 256 colours of some frames spread over the turn."""
    chosen = np.linspace(0, len(frames) - 1, min(_PALETTE_FRAMES, len(frames))).round().astype(int)
    sheet = Image.new("RGB", (_PALETTE_PX, _PALETTE_PX * len(chosen)))
    for place, index in enumerate(chosen):
        small = Image.fromarray(frames[index]).resize((_PALETTE_PX, _PALETTE_PX), Image.Resampling.BOX)
        sheet.paste(small, (0, place * _PALETTE_PX))
    return sheet.quantize(256, method=Image.Quantize.MEDIANCUT)


def _measured(data: bytes, frames: NDArray[np.uint8], *, total_ms: int) -> Turntable:
    count, height, width, _ = frames.shape
    with Image.open(io.BytesIO(data)) as again:
        first = np.asarray(again.convert("RGB"), np.float64)
        durations = [int(frame.info.get("duration", 0)) for frame in _loaded(again)]
    off = float(np.abs(first - frames[0]).mean()) if first.shape == frames[0].shape else 255.0
    if off > _MOST_OFF or len(durations) > count or sum(durations) != total_ms:
        raise OutputError(
            field="turntable",
            expected=say(
                "{width} x {height} pixels, at most {count} frames in {total_ms} ms",
                width=width,
                height=height,
                count=count,
                total_ms=total_ms,
            ),
            got=say(
                "{shape1} x {shape0} pixels, {duration_count} frames in {duration_count2} ms, "
                "{off:.1f} levels off",
                shape1=first.shape[1],
                shape0=first.shape[0],
                duration_count=len(durations),
                duration_count2=sum(durations),
                off=off,
            ),
            remedy=say("write it again in the other format"),
        )
    return Turntable(
        data=data, width_px=width, height_px=height, frames=len(durations), seconds=sum(durations) / 1000
    )


def _loaded(animation: Image.Image) -> Iterator[Image.Image]:
    """Every frame, decoded: only then is it known how long it is shown."""
    for frame in ImageSequence.Iterator(animation):
        frame.load()
        yield frame
