"""An enlarged picture is held alike by words of eight bytes and value by value."""

from __future__ import annotations

import numpy as np
import pytest

from pycore.picture.tones import U8
from pycore.render import cell_bounds, cell_words
from pycore.render.cell_bounds import Block, Cells, bounds_by_values
from pycore.render.cell_words import hold_by_words

_HEIGHT, _WIDTH = 24, 331


def picture(kind: str, channels: int) -> U8:
    """24 rows of 331 columns: noise of all values, of the extreme ones, and soft with a few hard spots."""
    random = np.random.default_rng(channels)
    shape = _HEIGHT, _WIDTH, channels
    if kind == "noise":
        return random.integers(0, 256, shape, dtype=np.uint8)
    if kind == "extremes":
        return random.choice(np.array([0, 1, 127, 128, 254, 255], np.uint8), shape)
    soft = random.integers(100, 110, shape, dtype=np.uint8)
    # Beside the ends of stretches, in one channel, in the rows of one block alone.
    for row, column in ((2, 61), (2, 66), (20, 197), (12, 330)):
        soft[row, column, channels - 1] = 255
    return soft


def blocks(times: float) -> list[Block]:
    """Two blocks of the picture enlarged, of which the second has rows of its own and some of the first's."""
    rows = np.arange(int(20 * times) + int(24 * times))
    first = int(20 * times)
    cells = np.minimum((rows / times).astype(np.intp) // 2 + 1, _HEIGHT)
    return [
        Block(found=slice(0, first), source=slice(0, 16), cells=cells[:first]),
        Block(found=slice(first, len(rows)), source=slice(6, _HEIGHT), cells=cells[first:]),
    ]


def held(found: U8, values: U8, parts: list[Block], columns: Cells) -> U8:
    """What the way that serves natively makes of it."""
    found = found.copy()
    for bounds in bounds_by_values(values, parts):
        bounds.hold(found, columns)
    return found


#: In which cell columns lie: once each, from the first cell or a later one; most once, as where a picture is
#: hardly enlarged; all of them once or twice; two or three times; with some left out; the last ones missing.
_COLUMNS = {
    "once": np.arange(_WIDTH + 1),
    "once, later": np.arange(5, 300),
    "hardly enlarged": np.arange(_WIDTH + 3) * _WIDTH // (_WIDTH + 3),
    "one and a half times": np.arange(_WIDTH * 3 // 2) * 2 // 3,
    "two and a half times": np.arange(_WIDTH * 5 // 2) * 2 // 5 + 1,
    "left out": np.arange(0, _WIDTH, 2),
    "the last ones missing": np.arange(400) // 2,
}


@pytest.mark.parametrize("kind", ["noise", "extremes", "spots"])
@pytest.mark.parametrize("channels", [1, 3, 4])
@pytest.mark.parametrize("cached", [1, 2**19])
def test_words_and_values_hold_alike(
    kind: str, channels: int, cached: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """In pieces of one stretch and in one piece."""
    monkeypatch.setattr(cell_words, "_CACHED", cached)
    monkeypatch.setattr(cell_bounds, "IN_WEBASSEMBLY", False)
    values = picture(kind, channels)
    for times, columns in ((2, columns) for columns in _COLUMNS.values()):
        parts = blocks(times)
        shape = parts[-1].found.stop, len(columns), channels
        enlarged = np.random.default_rng(9).integers(0, 256, shape, dtype=np.uint8)
        expected = held(enlarged, values, parts, columns)
        # The values of a pixel, or of a channel, follow one another in memory.
        planes = np.moveaxis(np.moveaxis(enlarged, 2, 0).copy(), 0, 2)
        for found in (enlarged.copy(), planes):
            hold_by_words(found, values, parts, columns)
            assert (found == expected).all()
        # The test can fail: values are held.
        assert (expected != enlarged).any()


def test_rows_once_each() -> None:
    """A picture as large as it was, of which a cell is a row and a column."""
    values = picture("noise", 3)
    rows = np.arange(_HEIGHT)
    parts = [
        Block(found=slice(0, 10), source=slice(0, 14), cells=rows[:10]),
        Block(found=slice(10, _HEIGHT), source=slice(7, _HEIGHT), cells=rows[10:]),
    ]
    enlarged = np.random.default_rng(9).integers(0, 256, values.shape, dtype=np.uint8)
    found, columns = enlarged.copy(), np.arange(_WIDTH)
    hold_by_words(found, values, parts, columns)
    assert (found == held(enlarged, values, parts, columns)).all()
    assert (found != enlarged).any()


def test_nothing_is_held_where_all_is_soft() -> None:
    soft = np.full((_HEIGHT, _WIDTH, 3), 100, np.uint8)
    soft[:, ::2] = 124
    assert not list(bounds_by_values(soft, blocks(2)))
    enlarged = np.random.default_rng(9).integers(0, 256, (blocks(2)[-1].found.stop, 660, 3), dtype=np.uint8)
    found = enlarged.copy()
    hold_by_words(found, soft, blocks(2), np.arange(660) // 2)
    assert (found == enlarged).all()
