"""The bounds of an enlarged picture come out alike by words of eight bytes and value by value."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from pycore.picture.tones import U8
from pycore.render import cell_bounds, cell_words
from pycore.render.cell_bounds import Block, CellBounds, bounds_by_values
from pycore.render.cell_words import bounds_by_words

_BLOCKS = [
    Block(found=slice(0, 20), source=slice(0, 16), cells=np.arange(20) // 2),
    Block(found=slice(20, 44), source=slice(6, 24), cells=np.arange(24) // 2 + 9),
]


def picture(kind: str, channels: int) -> U8:
    """24 rows of 331 columns: noise of all values, of the extreme ones, and soft with a few hard spots."""
    random = np.random.default_rng(channels)
    shape = 24, 331, channels
    if kind == "noise":
        return random.integers(0, 256, shape, dtype=np.uint8)
    if kind == "extremes":
        return random.choice(np.array([0, 1, 127, 128, 254, 255], np.uint8), shape)
    soft = random.integers(100, 110, shape, dtype=np.uint8)
    # Beside the ends of stretches, in one channel, in the rows of one block alone.
    for row, column in ((2, 61), (2, 66), (20, 197), (12, 330)):
        soft[row, column, channels - 1] = 255
    return soft


def held(found: U8, bounds: list[CellBounds]) -> U8:
    """An enlarged picture held, whose columns lie in one cell each or two by two."""
    found = found.copy()
    for one in bounds:
        one.hold(found, np.arange(found.shape[1]) * 331 // found.shape[1])
    return found


@pytest.mark.parametrize("kind", ["noise", "extremes", "spots"])
@pytest.mark.parametrize("channels", [1, 3, 4])
@pytest.mark.parametrize("cached", [1, 2**19])
def test_words_and_values_hold_alike(
    kind: str, channels: int, cached: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """In pieces of one stretch and in one piece; each with its own way of holding."""
    monkeypatch.setattr(cell_words, "_CACHED", cached)
    values = picture(kind, channels)
    enlarged = np.random.default_rng(9).integers(0, 256, (44, 662, channels), dtype=np.uint8)
    monkeypatch.setattr(cell_bounds, "IN_WEBASSEMBLY", True)
    one = held(enlarged, list(bounds_by_words(values, _BLOCKS)))
    monkeypatch.setattr(cell_bounds, "IN_WEBASSEMBLY", False)
    other = held(enlarged, list(bounds_by_values(values, _BLOCKS)))
    assert (one == other).all()
    # Each cell once, or the last of the columns missing: the same of what is left.
    for columns in (slice(0, None, 2), slice(0, 643, 2)):
        once = enlarged[:, columns].copy()
        for bounds in bounds_by_values(values, _BLOCKS):
            bounds.hold(once, np.arange(once.shape[1]))
        assert (once == other[:, columns]).all()
    # The test can fail: values are held.
    assert (one != enlarged).any()


def test_nothing_is_worked_out_where_all_is_soft() -> None:
    soft: Any = np.full((24, 331, 3), 100, np.uint8)
    soft[:, ::2] = 124
    assert not list(bounds_by_words(soft, _BLOCKS))
    assert not list(bounds_by_values(soft, _BLOCKS))
