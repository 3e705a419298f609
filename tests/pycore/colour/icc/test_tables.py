"""Table tags: what a device value gives, by hand, and lies about sizes and offsets."""

import struct

import numpy as np
import pytest

from pycore.colour.icc.block import Block
from pycore.colour.icc.elements import Stage, run
from pycore.colour.icc.tables import read_table
from pycore.colour.icc.write_tags import table_tag
from pycore.errors import ProfileError

from ..make_profiles import parametric_tag

CUBE = np.stack(np.meshgrid(*[[0.0, 1.0]] * 3, indexing="ij"), axis=-1)
STRAIGHT = np.tile([0.0, 1.0], (3, 1))


def read(
    data: bytes, *, forward: bool = True, inputs: int = 3, outputs: int = 3
) -> tuple[tuple[Stage, ...], str]:
    block = Block(name="tag A2B0", data=memoryview(data))
    return read_table(block, inputs=inputs, outputs=outputs, forward=forward, pcs="Lab")


def changed(data: bytes, at: int, new: bytes) -> bytes:
    return data[:at] + new + data[at + len(new) :]


def test_16_bit_table_with_curves() -> None:
    half = np.tile([0.0, 0.25, 1.0], (3, 1))
    stages, kind = read(table_tag(curves_in=half, table=CUBE, curves_out=half))
    # derived: the curve takes 0.5 to 0.25 and 0.75 to 0.625; the cube leaves them; the curve again: 0.25 lies
    # half way to the middle sample, 0.125; 0.625 a quarter beyond it, 0.25 + 0.25 x 0.75 = 0.4375
    found = run(stages, np.array([[0.5, 0.75, 1.0]]))
    assert kind == "mft2"
    assert found[0].tolist() == pytest.approx([0.125, 0.4375, 1.0], abs=2e-5)


def test_8_bit_table() -> None:
    straight = bytes(range(256)) * 3
    identity = np.rint(np.eye(3) * 65536).astype(">i4").tobytes()
    table = np.rint(255.0 * (1.0 - CUBE)).astype(np.uint8).tobytes()
    stages, kind = read(b"mft1" + bytes(4) + b"\3\3\2\0" + identity + straight + table + straight)
    assert kind == "mft1"
    assert run(stages, np.array([[0.0, 1.0, 0.2]]))[0].tolist() == pytest.approx([1.0, 0.0, 0.8])


def test_matrix_before_the_table() -> None:
    swap = struct.pack(">9i", 0, 65536, 0, 65536, 0, 0, 0, 0, 65536)
    stages, _ = read(changed(table_tag(curves_in=STRAIGHT, table=CUBE, curves_out=STRAIGHT), 12, swap))
    assert run(stages, np.array([[0.1, 0.2, 0.3]]))[0].tolist() == pytest.approx([0.2, 0.1, 0.3])


def curves_tag(kind: bytes, order_offsets: list[int], body: bytes) -> bytes:
    return kind + bytes(4) + b"\3\3\0\0" + struct.pack(">5I", *order_offsets) + body


def test_elements_of_the_newer_types_run_in_their_order() -> None:
    square, line = parametric_tag([2.0]), parametric_tag([1.0])
    matrix = np.rint(np.array([0.5, 0, 0, 0, 0.5, 0, 0, 0, 0.5, 0.25, 0, 0]) * 65536).astype(">i4").tobytes()
    body = square * 3 + matrix + line * 3
    offsets = [32, 32 + 48, 32 + 96, 0, 0]
    forward, _ = read(curves_tag(b"mAB ", offsets, body))
    back, _ = read(curves_tag(b"mBA ", offsets, body), forward=False)
    values = np.array([[0.5, 0.5, 0.5]])
    # derived: forward matrix, then B squares: (0.25 + 0.25)^2 = 0.25, (0.25)^2 = 0.0625
    assert run(forward, values)[0].tolist() == pytest.approx([0.25, 0.0625, 0.0625])
    # derived: back B squares, then matrix: 0.125 + 0.25, 0.125
    assert run(back, values)[0].tolist() == pytest.approx([0.375, 0.125, 0.125])


LINES = parametric_tag([1.0]) * 3
GOOD = table_tag(curves_in=STRAIGHT, table=CUBE, curves_out=STRAIGHT)


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (changed(GOOD, 8, b"\4"), "3 channels in and 3 out, as the header says, and has 4 in and 3 out"),
        (changed(GOOD, 10, b"\0"), "at least 2 nodes in every input, and has 0 x 0 x 0"),
        (changed(GOOD, 10, b"\1"), "at least 2 nodes in every input, and has 1 x 1 x 1"),
        (changed(GOOD, 10, b"\xff"), "at most 4000000 values in the colour table, and has 255 x 255 x 255"),
        (changed(GOOD, 10, b"\x40"), "1572864 bytes from byte 64"),
        (changed(GOOD, 48, b"\0\0"), "2 to 4096 entries in each input table, and has 0"),
        (changed(GOOD, 50, b"\xff\xff"), "2 to 4096 entries in each output table, and has 65535"),
        (GOOD[:60], "12 bytes from byte 52"),
        (GOOD[:20], "36 bytes from byte 12"),
        (changed(GOOD, 0, b"mBA "), "type 'mft1' or 'mft2' or 'mAB '"),
        (curves_tag(b"mAB ", [0, 0, 0, 0, 0], b""), "B curves, and has none"),
        (curves_tag(b"mAB ", [2**32 - 4, 0, 0, 0, 0], b""), "bytes from byte 4294967292"),
        (curves_tag(b"mAB ", [32, 32, 0, 0, 0], bytes(64)), "a matrix and M curves, or neither"),
        (curves_tag(b"mAB ", [32, 0, 0, 32, 0], bytes(64)), "a colour table and A curves, or neither"),
        (
            curves_tag(b"mAB ", [32, 0, 0, 80, 32], LINES + bytes(20)),
            "at least 2 nodes in every input, and has 0 x 0 x 0",
        ),
        (
            curves_tag(
                b"mAB ", [32, 0, 0, 80, 32], parametric_tag([1.0]) * 3 + b"\2\2\2" + bytes(13) + b"\7"
            ),
            "a precision of 1 or 2 bytes, and has 7",
        ),
    ],
)
def test_lies_are_named(data: bytes, message: str) -> None:
    with pytest.raises(ProfileError, match=message) as caught:
        read(data)
    assert caught.value.field.startswith("tag A2B0")


def test_a_table_is_needed_between_different_spaces() -> None:
    data = changed(curves_tag(b"mAB ", [32, 0, 0, 0, 0], parametric_tag([1.0]) * 3), 8, b"\4")
    with pytest.raises(ProfileError, match="a colour table from 4 to 3 channels, and has none"):
        read(data, inputs=4)
