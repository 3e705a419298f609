"""Bytes compared eight at a time: every pair of bytes, against numpy one by one."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt
import pytest

from pycore.render import byte_lanes
from pycore.render.byte_lanes import Words

U8 = npt.NDArray[np.uint8]


def pairs() -> tuple[U8, U8]:
    """All pairs of bytes, twice: neighbours of all kinds beside each lane."""
    one, other = np.indices((256, 256), np.uint8)
    return np.concatenate([one, other.T]).ravel(), np.concatenate([other, one[::-1]]).ravel()


def words(values: U8) -> Words:
    return np.ascontiguousarray(values).view(np.int64)


def test_the_greater_and_the_lesser_of_every_pair_of_bytes() -> None:
    one, other = pairs()
    both = words(one), words(other)
    greater, lesser = (found.view(np.uint8) for found in byte_lanes.compared(*both))
    assert (greater == np.maximum(one, other)).all()
    assert (lesser == np.minimum(one, other)).all()
    assert (byte_lanes.greater(*both).view(np.uint8) == greater).all()
    assert (byte_lanes.lesser(*both).view(np.uint8) == lesser).all()
    # What is compared is left as it was.
    assert (both[0].view(np.uint8) == one).all()
    assert (both[1].view(np.uint8) == other).all()


@pytest.mark.parametrize("most", [0, 24, 127])
def test_every_byte_against_a_limit(most: int) -> None:
    one, _ = pairs()
    assert ((byte_lanes.exceeding(words(one), most).view(np.uint8) > 127) == (one > most)).all()


@pytest.mark.parametrize("least", [1, 48, 128])
def test_every_byte_of_seven_bits_that_reaches_a_limit(least: int) -> None:
    one = pairs()[0] & np.uint8(127)
    assert (byte_lanes.reaching(words(one), least).view(np.uint8) == (one >= least)).all()


@pytest.mark.parametrize("count", [1, 3, 8])
def test_bytes_are_moved_over_the_ends_of_words_and_rows(count: int) -> None:
    values = np.arange(48, dtype=np.uint8).reshape(3, 16)
    found = byte_lanes.moved(words(values), count).view(np.uint8)
    assert found.ravel().tolist() == [*range(count, 48), *[0] * count]
