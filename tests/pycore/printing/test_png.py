"""PNG files, re-read by two libraries and by their own bytes."""

from __future__ import annotations

import io
import struct
import zlib
from typing import Any

import cv2
import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image

from pycore.printing.png import pixels_per_metre, write_png


def _png(
    channels: int, rows: int = 300, *, bits: int = 8, cut: int = 50, profile: bytes | None = None
) -> tuple[NDArray[Any], bytes]:
    dtype = np.uint8 if bits == 8 else np.uint16
    canvas = np.random.default_rng(channels).integers(0, 2**bits, (rows, 41, channels), dtype=dtype)
    strips = [canvas[first : first + cut] for first in range(0, rows, cut)]
    out = io.BytesIO()
    shape = (rows, 41, channels)
    done = list(write_png(strips, out, shape=shape, bits=bits, ppi=300, profile=profile))
    assert done == sorted(done)
    assert done[-1] == rows
    return canvas, out.getvalue()


def _chunks(data: bytes) -> list[tuple[bytes, bytes]]:
    at, found = 8, []
    while at < len(data):
        size, kind = struct.unpack(">I4s", data[at : at + 8])
        body = data[at + 8 : at + 8 + size]
        assert struct.unpack(">I", data[at + 8 + size : at + 12 + size])[0] == zlib.crc32(kind + body)
        found.append((kind, body))
        at += 12 + size
    return found


@pytest.mark.native
@pytest.mark.parametrize("channels", [1, 3])
@pytest.mark.parametrize("rows", [1, 127, 128, 300])
def test_two_libraries_read_the_pixels_back(channels: int, rows: int) -> None:
    canvas, data = _png(channels, rows)
    with Image.open(io.BytesIO(data)) as image:
        assert (np.asarray(image).reshape(canvas.shape) == canvas).all()
    decoded = cv2.imdecode(np.frombuffer(data, np.uint8), cv2.IMREAD_UNCHANGED)
    assert decoded is not None
    by_opencv = decoded[..., ::-1] if channels == 3 else decoded[..., np.newaxis]
    assert (by_opencv == canvas).all()


@pytest.mark.native
@pytest.mark.parametrize("channels", [1, 3])
@pytest.mark.parametrize("rows", [1, 127, 128, 300])
def test_16_bits_come_back_with_all_of_them(channels: int, rows: int) -> None:
    canvas, data = _png(channels, rows, bits=16)
    decoded = cv2.imdecode(np.frombuffer(data, np.uint8), cv2.IMREAD_UNCHANGED)
    assert decoded is not None
    by_opencv = decoded[..., ::-1] if channels == 3 else decoded[..., np.newaxis]
    assert (by_opencv == canvas).all()


@pytest.mark.parametrize("cut", [1, 64, 127, 128, 129, 300])
def test_the_bytes_do_not_depend_on_how_the_canvas_was_cut(cut: int) -> None:
    assert _png(3, cut=cut)[1] == _png(3, cut=7)[1]


def test_the_chunks_stand_as_the_standard_asks() -> None:
    """Published: PNG (third edition) 5.6: IHDR first, iCCP and pHYs before IDAT, IEND last."""
    _, data = _png(3, profile=b"profile bytes")
    kinds = [kind for kind, _ in _chunks(data)]
    assert kinds[:3] == [b"IHDR", b"iCCP", b"pHYs"]
    assert set(kinds[3:-1]) == {b"IDAT"}
    assert kinds[-1] == b"IEND"


def test_the_profile_is_in_iccp_byte_for_byte() -> None:
    profile = bytes(range(256)) * 9
    _, data = _png(3, profile=profile)
    body = dict(_chunks(data))[b"iCCP"]
    name, _, packed = body.partition(b"\0")
    assert name == b"profile"
    assert packed[0] == 0
    assert zlib.decompress(packed[1:]) == profile


def test_resolution_is_in_pixels_per_metre() -> None:
    """Derived: 300 / 0.0254 = 11811.02, so 11811."""
    assert pixels_per_metre(300) == 11811
    _, data = _png(1)
    assert struct.unpack(">IIB", dict(_chunks(data))[b"pHYs"]) == (11811, 11811, 1)
