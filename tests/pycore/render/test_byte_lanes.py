"""Bytes compared eight at a time: every pair of bytes, against numpy one by one."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import numpy.typing as npt
import pytest

from pycore.render import byte_lanes
from pycore.render.byte_lanes import Words

U8 = npt.NDArray[np.uint8]


def pairs(below: int) -> tuple[U8, U8]:
    """All pairs of bytes below a number, twice: neighbours of all kinds beside each lane."""
    one, other = np.indices((below, below), np.uint8)
    return np.concatenate([one, other.T]).ravel(), np.concatenate([other, one[::-1]]).ravel()


def words(values: U8) -> Words:
    return np.ascontiguousarray(values).view(np.int64)


def test_the_greater_and_the_lesser_of_every_pair_of_bytes() -> None:
    one, other = pairs(256)
    greater, lesser, mask = (found.view(np.uint8) for found in byte_lanes.compared(words(one), words(other)))
    assert (greater == np.maximum(one, other)).all()
    assert (lesser == np.minimum(one, other)).all()
    assert (mask == np.where(one >= other, 255, 0)).all()
    assert (byte_lanes.greater(words(one), words(other)).view(np.uint8) == greater).all()


@pytest.mark.parametrize(
    ("of_words", "of_bytes"),
    [(byte_lanes.lesser_of_7_bits, np.minimum), (byte_lanes.greater_of_7_bits, np.maximum)],
)
def test_every_pair_of_7_bits(
    of_words: Callable[[Words, Words], Words], of_bytes: Callable[[U8, U8], U8]
) -> None:
    one, other = pairs(128)
    assert (of_words(words(one), words(other)).view(np.uint8) == of_bytes(one, other)).all()


@pytest.mark.parametrize("most", [0, 24, 127])
def test_every_byte_against_a_limit_and_halved(most: int) -> None:
    one, _ = pairs(256)
    assert ((byte_lanes.exceeding(words(one), most).view(np.uint8) > 127) == (one > most)).all()
    assert (byte_lanes.halved(words(one.copy())).view(np.uint8) == one // 2).all()


def test_a_rise_ends_at_255() -> None:
    one, rise = pairs(256)
    # A rise of 128 or more stands beside a byte of at least as much.
    rise = np.where((rise > 127) & (rise > one), 127, rise).astype(np.uint8)
    found = byte_lanes.raised(words(one), words(rise.copy())).view(np.uint8)
    assert (found == np.minimum(one.astype(np.int16) + rise, 255)).all()


@pytest.mark.parametrize("count", [1, 3, 8])
def test_bytes_are_moved_over_the_ends_of_words_and_rows(count: int) -> None:
    values = np.arange(48, dtype=np.uint8).reshape(3, 16)
    found = byte_lanes.moved(words(values), count).view(np.uint8)
    assert found.ravel().tolist() == [*range(count, 48), *[0] * count]
