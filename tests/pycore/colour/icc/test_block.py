"""Reading bytes: right values, and never a byte outside the block."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pycore.colour.icc.block import Block
from pycore.errors import ProfileError


def block(data: bytes) -> Block:
    return Block(name="tag test", data=memoryview(data))


def test_numbers_are_big_endian() -> None:
    # derived: 0x0102 = 258, 0x01020304 = 16909060; s15Fixed16 0xFFFF8000 = -0.5
    assert block(b"\1\2\3\4").u8(1) == 2
    assert block(b"\1\2\3\4").u16(0) == 258
    assert block(b"\1\2\3\4").u32(0) == 16909060
    assert block(bytes.fromhex("ffff8000")).fixeds(0, 1).tolist() == [-0.5]


def test_arrays_are_fractions_of_full_scale() -> None:
    # derived: 255 of 255 and 65535 of 65535 are 1
    assert block(b"\x00\xff").u8s(0, 2).tolist() == [0.0, 1.0]
    assert block(b"\x00\x00\xff\xff").u16s(0, 2).tolist() == [0.0, 1.0]


@given(
    size=st.integers(0, 40),
    at=st.integers(-50, 2**33),
    count=st.integers(-5, 2**33),
)
def test_nothing_outside_is_read(size: int, at: int, count: int) -> None:
    whole = block(bytes(size))
    inside = at >= 0 and count >= 0 and at + count <= size
    if inside:
        assert len(whole.part(at, count)) == count
    else:
        with pytest.raises(ProfileError, match=f"{size} bytes in all") as caught:
            whole.part(at, count)
        assert caught.value.field == "tag test"


def test_a_part_names_itself() -> None:
    with pytest.raises(ProfileError) as caught:
        block(bytes(10)).part(2, 4, name="matrix").u32(4)
    assert caught.value.field == "tag test, matrix"


def test_another_type_is_named() -> None:
    with pytest.raises(ProfileError, match="it should have type 'curv' or 'para', and has 'text'"):
        block(b"text0000").require_type("curv", "para")
