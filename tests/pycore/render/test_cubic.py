"""Rows are resampled as Pillow does it, to the last bit."""

from __future__ import annotations

import platform

import numpy as np
import pytest
from PIL import Image

from pycore.picture.tones import F32
from pycore.render.cubic import Span, resampled_down, taps
from pycore.workers import IN_WEBASSEMBLY

#: What a value may differ by, in its last place: nothing, but where a processor multiplies and adds in one
#: step, which rounds once less.
_PLACES = 0 if IN_WEBASSEMBLY or platform.machine() in ("x86_64", "AMD64") else 1


def light(height: int, width: int) -> F32:
    values = np.random.default_rng(height * width).integers(0, 256, (height, width))
    return (values / 255).astype(np.float32)


def by_pillow(source: F32, width: int, height: int, box: tuple[float, float, float, float]) -> F32:
    found: F32 = np.asarray(
        Image.fromarray(source).resize((width, height), Image.Resampling.BICUBIC, box=box)
    )
    return found


def ours(source: F32, width: int, height: int, box: tuple[float, float, float, float]) -> F32:
    """Across by Pillow, down by sums of rows."""
    rows = len(source)
    wide = by_pillow(source, width, rows, (box[0], 0, box[2], rows))
    return resampled_down(wide, taps([Span(first=0, size=rows, start=box[1], stop=box[3], count=height)]))


@pytest.mark.parametrize("times", [0.2, 0.5, 0.97, 1.0, 1.003, 1.5, 2.0, 3.0, 6.3])
@pytest.mark.parametrize(
    "box",
    [
        (0.0, 0.0, 83.0, 71.0),
        (0.3, 0.3, 82.3, 70.3),
        (11.7, 9.1, 60.2, 66.9),
        (80.5, 68.5, 83.0, 71.0),
        (0.0, 0.0, 2.5, 2.5),
    ],
)
def test_every_size_and_part_is_pillows(times: float, box: tuple[float, float, float, float]) -> None:
    source = light(71, 83)
    width, height = max(1, round((box[2] - box[0]) * times)), max(1, round((box[3] - box[1]) * times))
    expected = by_pillow(source, width, height, box)
    np.testing.assert_array_max_ulp(ours(source, width, height, box), expected, maxulp=_PLACES)


@pytest.mark.parametrize("rows", [1, 2, 3, 5])
def test_pictures_of_fewer_rows_than_the_filter_has(rows: int) -> None:
    source = light(rows, 20)
    for height in (1, 2, 7):
        expected = by_pillow(source, 20, height, (0, 0, 20, rows))
        found = ours(source, 20, height, (0, 0, 20, rows))
        np.testing.assert_array_max_ulp(found, expected, maxulp=_PLACES)


@pytest.mark.parametrize("scale", [0.4, 0.9999, 1.0, 1.3])
def test_spans_are_resampled_each_as_by_itself(scale: float) -> None:
    """Pillow takes where a span begins and ends as single precision, from the span's own first row."""
    source = light(300, 9)
    starts = [7.3 + 64 * scale * number for number in range(3)]
    spans = []
    for number, start in enumerate(starts):
        first, count = int(start) - 4, 64 if number < 2 else 23
        size = int(start + count * scale) + 5 - first
        stop = start - first + count * scale
        spans.append(Span(first=first, size=size, start=start - first, stop=stop, count=count))
    together = resampled_down(source, taps(spans))
    alone = [
        by_pillow(source[one.first : one.first + one.size], 9, one.count, (0, one.start, 9, one.stop))
        for one in spans
    ]
    np.testing.assert_array_max_ulp(together, np.concatenate(alone), maxulp=_PLACES)


def test_rows_are_made_in_parts(monkeypatch: pytest.MonkeyPatch) -> None:
    source = light(30, 100)
    rows = taps([Span(first=0, size=30, start=1, stop=29, count=40)])
    monkeypatch.setattr("pycore.render.cubic._CACHED", 700)
    parts = rows.parts(100)
    assert [part for part, _ in parts] == [slice(first, first + 7) for first in range(0, 40, 7)]
    found = np.concatenate([resampled_down(source, one) for _, one in parts])
    assert (found == resampled_down(source, rows)).all()
