"""Cells of colour: the same for 8 and 16 bits, a fourth channel apart; what a strip lets through."""

from __future__ import annotations

import numpy as np
import pytest

from pycore.fill.continued_known import colour_cells, known_colours
from pycore.fill.continued_words import packed
from pycore.fill.facing import U8


def colours(channels: int) -> U8:
    """Random ones, a thousand."""
    random: U8 = np.random.Generator(np.random.PCG64(3)).integers(0, 256, (10, 100, channels), np.uint8)
    return random


@pytest.mark.parametrize("channels", [1, 3, 4])
def test_sixteen_bits_have_the_cells_of_eight(channels: int) -> None:
    eight = colours(channels)
    narrow = colour_cells(packed(eight), itemsize=1, channels=channels)
    wide = colour_cells(packed(eight.astype(np.uint16) * 257), itemsize=2, channels=channels)
    # derived: 257 times a value of 8 bits is that value in 16.
    assert (narrow == wide).all()


def test_shares_of_a_mixed_value_do_not_count() -> None:
    words = packed(colours(3))
    mixed = [word << np.uint64(12) for word in words]
    found = colour_cells(mixed, itemsize=1, channels=3, shift=12)
    assert (found == colour_cells(words, itemsize=1, channels=3)).all()


@pytest.mark.parametrize(
    ("colour", "expected"),
    [
        ((100, 150, 200), True),
        # derived: cells begin at multiples of 4: 100 to 103, 148 to 151, 200 to 203.
        ((103, 148, 203), True),
        # derived: a step of red, of green or of blue, or of all three.
        ((104, 150, 200), False),
        ((100, 152, 200), False),
        ((100, 150, 204), False),
        ((104, 152, 204), False),
        ((96, 144, 196), False),
    ],
)
def test_what_a_strip_of_one_colour_knows(colour: tuple[int, int, int], *, expected: bool) -> None:
    known = known_colours(np.full((5, 5, 3), (100, 150, 200), np.uint8))
    cell = colour_cells(packed(np.array([[colour]], np.uint8)), itemsize=1, channels=3)
    assert bool(known[cell[0]]) is expected


def test_a_large_strip_is_looked_at_here_and_there() -> None:
    strip = np.zeros((2000, 1000, 3), np.uint8)
    strip[:, 500:] = 200
    known = known_colours(strip)
    cells = colour_cells(packed(strip[0, [0, 999]][np.newaxis]), itemsize=1, channels=3)
    assert known[cells].all()
