"""Turntable files: frames written, re-read and measured."""

from __future__ import annotations

import io

import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image

from pycore.errors import FieldError
from pycore.model.report import TurntableKind
from pycore.model.turntable import Turntable, split_frames, write_turntable
from pycore.progress import map_progress, run_to_end

WIDTH, HEIGHT, COUNT = 40, 24, 6


def turning() -> NDArray[np.uint8]:
    """A red bar that wanders over a grey ground, 6 px to the right with every frame."""
    frames = np.full((COUNT, HEIGHT, WIDTH, 3), 150, np.uint8)
    for k in range(COUNT):
        frames[k, 4:20, 2 + 6 * k : 8 + 6 * k] = (200, 30, 30)
    return frames


def written(frames: NDArray[np.uint8], kind: TurntableKind, frame_ms: int = 80) -> Turntable:
    steps = write_turntable(frames, kind=kind, frame_ms=frame_ms)
    done: list[float] = []
    result = run_to_end(map_progress(steps, done.append))
    assert done == sorted(done)
    assert len(done) > 1
    assert isinstance(result, Turntable)
    return result


@pytest.mark.parametrize("kind", list(TurntableKind))
def test_every_frame_is_there_again(kind: TurntableKind) -> None:
    frames = turning()
    made = written(frames, kind)
    assert (made.width_px, made.height_px, made.frames) == (WIDTH, HEIGHT, COUNT)
    # derived: 6 frames of 80 ms.
    assert made.seconds == pytest.approx(0.48)
    with Image.open(io.BytesIO(made.data)) as again:
        assert again.format == kind.value.upper()
        assert again.info["loop"] == 0
        for k in range(COUNT):
            again.seek(k)
            seen = np.asarray(again.convert("RGB"), int)
            # The middle of the bar and the ground: both formats keep plain colours within a few levels.
            assert np.abs(seen[12, 5 + 6 * k] - (200, 30, 30)).max() < 30
            assert np.abs(seen[1, 1] - 150).max() < 12


def test_gif_rounds_its_time() -> None:
    # derived: 33 ms are 3 hundredths of a second; 6 x 30 ms.
    assert written(turning(), TurntableKind.GIF, 33).seconds == pytest.approx(0.18)
    # derived: 6 x 33 ms.
    assert written(turning(), TurntableKind.WEBP, 33).seconds == pytest.approx(0.198)


@pytest.mark.parametrize("kind", list(TurntableKind))
def test_frames_that_are_alike_keep_their_time(kind: TurntableKind) -> None:
    made = written(np.repeat(turning()[:2], 3, axis=0), kind, 100)
    assert made.frames <= 6
    assert made.seconds == pytest.approx(0.6)


@pytest.mark.parametrize("kind", list(TurntableKind))
def test_frames_that_do_not_turn_are_refused(kind: TurntableKind) -> None:
    with pytest.raises(FieldError, match="must be frames that differ; you gave 5 frames that are alike"):
        written(np.repeat(turning()[:1], 5, axis=0), kind)


def test_gif_has_one_palette_for_all_frames() -> None:
    rng = np.random.default_rng(7)
    ground = rng.integers(0, 256, (HEIGHT, WIDTH, 3), dtype=np.uint8)
    frames = np.stack([np.roll(ground, 5 * k, axis=1) for k in range(COUNT)])
    with Image.open(io.BytesIO(written(frames, TurntableKind.GIF).data)) as again:
        first = np.asarray(again.convert("RGB"))
        again.seek(COUNT - 1)
        last = np.asarray(again.convert("RGB"))
    colours = [{tuple(pixel) for pixel in seen.reshape(-1, 3).tolist()} for seen in (first, last)]
    # 960 colours at random in a palette of 256: nearly all that the one uses the other uses too.
    assert len(colours[0] & colours[1]) > 0.8 * len(colours[0]) > 100


@pytest.mark.parametrize("length", [0, COUNT * WIDTH * HEIGHT * 3 - 1, COUNT * WIDTH * HEIGHT * 4])
def test_a_buffer_of_another_length_is_refused(length: int) -> None:
    with pytest.raises(FieldError) as caught:
        split_frames(bytes(length), width_px=WIDTH, height_px=HEIGHT, frames=COUNT)
    # derived: 6 x 40 x 24 x 3.
    assert caught.value.expected.startswith("17280 bytes")
    assert caught.value.got == f"{length} bytes"


def test_too_much_is_refused_before_it_is_looked_at() -> None:
    with pytest.raises(FieldError, match="at most 400 MB of frames"):
        split_frames(b"", width_px=2048, height_px=2048, frames=240)
