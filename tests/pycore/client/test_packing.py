"""Arrays and textures as text: read back as they were, and no larger than there is room for."""

from __future__ import annotations

import base64

import numpy as np
import pytest

from pycore.client.packing import packed_array, packed_textures
from pycore.errors import OutputError

from .made_page import image_of


def test_an_array_is_read_back_as_it_was() -> None:
    array = np.array([[1.5, -2], [3, 1e-6]], ">f4")
    back = np.frombuffer(base64.b64decode(packed_array(array)), "<f4").reshape(2, 2)
    assert np.array_equal(back, array)


def test_textures_are_made_coarser_until_there_is_room() -> None:
    noise = np.random.default_rng(3).integers(0, 256, (400, 600, 3), np.uint8)
    large = packed_textures([noise], room_bytes=10_000_000)
    assert (large.divisor, image_of(large.addresses[0]).size) == (1, (600, 400))
    small = packed_textures([noise], room_bytes=60_000)
    assert len(small.addresses[0]) <= 60_000
    assert small.divisor > 1
    assert image_of(small.addresses[0]).size == (-(-600 // small.divisor), -(-400 // small.divisor))


def test_no_room_at_all_is_an_error() -> None:
    with pytest.raises(OutputError, match="has room for 10 bytes of pictures"):
        packed_textures([np.zeros((8, 8, 3), np.uint8)], room_bytes=10)
