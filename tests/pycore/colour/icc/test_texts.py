"""Text tags."""

import struct

import pytest

from pycore.colour.icc.block import Block
from pycore.colour.icc.texts import read_text
from pycore.errors import ProfileError


def block(data: bytes) -> Block:
    return Block(name="tag desc", data=memoryview(data))


def localised(*records: tuple[bytes, str]) -> bytes:
    head = b"mluc\0\0\0\0" + struct.pack(">II", len(records), 12)
    table, body, start = b"", b"", 16 + 12 * len(records)
    for language, text in records:
        encoded = text.encode("utf-16-be")
        table += language + struct.pack(">II", len(encoded), start + len(body))
        body += encoded
    return head + table + body


def test_english_is_chosen_wherever_it_stands() -> None:
    assert read_text(block(localised((b"deDE", "Leinwand"), (b"enUS", "Canvas")))) == "Canvas"
    assert read_text(block(localised((b"deDE", "Leinwand"), (b"enGB", "Canvas")))) == "Canvas"
    assert read_text(block(localised((b"deDE", "Leinwand")))) == "Leinwand"


def test_plain_text() -> None:
    assert read_text(block(b"text\0\0\0\0hello\0rest")) == "hello"


def test_control_characters_are_left_out() -> None:
    assert read_text(block(b"text\0\0\0\0a\x07\x1bb\nc\0")) == "abc"


def test_long_texts_are_cut() -> None:
    assert len(read_text(block(b"text\0\0\0\0" + b"x" * 5000))) == 500


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (b"desc\0\0\0\0" + struct.pack(">I", 2**32 - 1) + b"a", "4294967295 bytes from byte 12"),
        (b"mluc\0\0\0\0" + struct.pack(">II", 2**31, 12), "1 to 1000 texts"),
        (b"mluc\0\0\0\0" + struct.pack(">II", 1, 14) + bytes(20), "text records of 12 bytes, and has 14"),
        (
            b"mluc\0\0\0\0" + struct.pack(">II4sII", 1, 12, b"enUS", 2**31, 28),
            "2147483648 bytes from byte 28",
        ),
        (b"XYZ \0\0\0\0" + bytes(12), "type 'desc' or 'mluc' or 'text'"),
    ],
)
def test_lies_are_named(data: bytes, message: str) -> None:
    with pytest.raises(ProfileError, match=message):
        read_text(block(data))
