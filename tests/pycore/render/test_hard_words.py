"""Hard edges are found alike by words of eight bytes and value by value."""

from __future__ import annotations

import numpy as np
import pytest

from pycore.picture.tones import U8
from pycore.render.byte_lanes import compared, moved
from pycore.render.cell_bounds import SOFT, STRETCH, Block, bounds_by_values
from pycore.render.hard_words import near_by_words

_HEIGHT, _STRETCHES, _CHANNELS = 20, 4, 2
_BLOCKS = [
    Block(found=slice(0, 9), source=slice(0, 12), cells=np.arange(9)),
    Block(found=slice(9, 20), source=slice(6, 20), cells=np.arange(9, 20)),
]


def by_words(values: U8) -> set[tuple[int, int, int]]:
    """Stretches, channels and blocks near a hard edge; the outermost pixels go on past the picture's ends."""
    width = values.shape[1]
    wide = np.pad(values, ((2, 2), (9, STRETCH * _STRETCHES - width + 7), (0, 0)), mode="edge")
    found = set()
    for channel in range(_CHANNELS):
        words = np.ascontiguousarray(wide[..., channel]).view(np.int64)
        beside = moved(words, 1)
        near = near_by_words(beside, compared(words[1:-1], beside[1:-1]), _BLOCKS)
        assert near.shape == (_STRETCHES, len(_BLOCKS))
        found |= {(int(stretch), channel, int(block)) for stretch, block in np.argwhere(near)}
    return found


def by_values(values: U8) -> set[tuple[int, int, int]]:
    return {
        (bounds.column // STRETCH + int(stretch), int(channel), number)
        for number, block in enumerate(_BLOCKS)
        for bounds in bounds_by_values(values, [block])
        for stretch, channel in np.argwhere(bounds.near)
    }


@pytest.mark.parametrize("step", [SOFT, SOFT + 1])
def test_a_step_anywhere_is_found_where_it_bears_upon_a_stretch(step: int) -> None:
    """A spot in every row of both blocks and beside the ends of every stretch, in one channel."""
    found = 0
    for row in (0, 5, 6, 7, 11, 12, 19):
        for column in (0, 1, 7, 60, 61, 62, 63, 64, 65, 66, 67, 128, 189, 200, 238, 239):
            values = np.full((_HEIGHT, 240, _CHANNELS), 100, np.uint8)
            values[row, column, 1] += step
            assert by_words(values) == by_values(values), (row, column)
            found += len(by_words(values))
    assert (found > 0) == (step > SOFT)


def test_edges_of_all_heights_are_found_alike() -> None:
    random = np.random.default_rng(3)
    sizes = set()
    for most in (20, 25, 26, 30, 40, 256):
        values = random.integers(0, most, (_HEIGHT, 240, _CHANNELS), dtype=np.uint8)
        values[:, 70:190, 0] //= 8
        near = by_words(values)
        assert near == by_values(values), most
        sizes.add(len(near))
    # None, some and all of them.
    assert {0, _STRETCHES * _CHANNELS * len(_BLOCKS)} < sizes
