"""The container, byte for byte."""

from __future__ import annotations

import json
import struct

import numpy as np

from pycore.model.glb import Binary, Target


def test_chunks_and_views_start_on_multiples_of_four() -> None:
    binary = Binary()
    binary.view(b"abcde")
    place = binary.accessor(np.array([[1, 2, 3]], np.float64), target=Target.VERTICES)
    data = binary.file({"asset": {"version": "2.0"}})
    # Published: ISO/IEC 12113 4.4.2, 4.4.3: magic "glTF", version 2, length; chunk length, "JSON"; "BIN\0".
    assert data[:4] == b"glTF"
    version, total, length = struct.unpack_from("<3I", data, 4)
    assert (version, total, data[16:20]) == (2, len(data), b"JSON")
    tree = json.loads(data[20 : 20 + length])
    binary_length, kind = struct.unpack_from("<I4s", data, 20 + length)
    # Derived: 5 bytes padded to 8, and 3 floats of 4 bytes.
    assert (binary_length, kind) == (20, b"BIN\0")
    assert length % 4 == 0
    assert len(data) == 20 + length + 8 + 20
    view = tree["bufferViews"][tree["accessors"][place]["bufferView"]]
    assert view == {"buffer": 0, "byteOffset": 8, "byteLength": 12, "target": 34962}
    start = 20 + length + 8 + 8
    assert struct.unpack_from("<3f", data, start) == (1.0, 2.0, 3.0)


def test_least_and_greatest_are_those_of_the_written_floats() -> None:
    binary = Binary()
    place = binary.accessor(np.array([[0.1, -0.3], [0.2, 0.7]]))
    accessor = binary.accessors[place]
    # 0.1 is no float32: what is stated is the float32 nearest to it, exactly.
    assert accessor["min"] == [float(np.float32(0.1)), float(np.float32(-0.3))]
    assert accessor["max"] == [float(np.float32(0.2)), float(np.float32(0.7))]
    assert (accessor["type"], accessor["count"], accessor["componentType"]) == ("VEC2", 2, 5126)


def test_whole_numbers_are_uint32() -> None:
    binary = Binary()
    place = binary.accessor(np.array([70_000, 1]), target=Target.INDICES)
    assert binary.accessors[place]["componentType"] == 5125
    assert binary.accessors[place]["max"] == [70_000]
