"""TIFF files made tag by tag, so that what they say need not be true."""

from __future__ import annotations

import struct
import zlib
from collections.abc import Callable

import numpy as np


def _lzw(data: bytes) -> bytes:
    """TIFF 6.0, section 13, written plainly: each byte by itself, and a clear code before the table grows.

    Codes stay 9 bits wide as long as fewer than 255 have been sent since the last clear.
    """
    codes: list[int] = []
    for at in range(0, len(data), 250):
        codes += [256, *data[at : at + 250]]
    bits = "".join(f"{code:09b}" for code in [*codes, 257])
    bits += "0" * (-len(bits) % 8)
    return int(bits, 2).to_bytes(len(bits) // 8, "big")


def _deflated(data: bytes) -> bytes:
    return zlib.compress(data)


_PACKERS: dict[int, Callable[[bytes], bytes]] = {
    1: bytes, 5: _lzw, 7: bytes, 8: _deflated, 32946: _deflated,
}  # fmt: skip
_SIGNS = {3: "H", 4: "I", 7: "B"}


def made_tiff(
    pieces: list[bytes],
    *,
    size: tuple[int, int],
    channels: int,
    order: str = "<",
    photometric: int = 2,
    compression: int = 1,
    extra: tuple[int, ...] | None = None,
    more: tuple[tuple[int, int, tuple[int, ...]], ...] = (),
    bits: int = 16,
) -> bytes:
    """A TIFF of given pieces, tag by tag (TIFF 6.0, section 2): what it says need not be true."""
    width, height = size
    packed = [_PACKERS[compression](piece) for piece in pieces]
    tiled = any(tag == 322 for tag, _, _ in more)
    where, how_many = (324, 325) if tiled else (273, 279)
    starts = np.cumsum([8, *map(len, packed)])[:-1].tolist()
    tags: list[tuple[int, int, tuple[int, ...]]] = [
        (256, 4, (width,)), (257, 4, (height,)), (258, 3, (bits,) * channels), (259, 3, (compression,)),
        (262, 3, (photometric,)), (277, 3, (channels,)), *more,
        (where, 4, tuple(starts)), (how_many, 4, tuple(map(len, packed))),
    ]  # fmt: skip
    if not tiled and not any(tag == 278 for tag, _, _ in more):
        tags.append((278, 4, (height,)))
    if extra is not None:
        tags.append((338, 3, extra))
    body = b"".join(packed)
    begin = 8 + len(body) + len(body) % 2
    out = struct.pack(f"{order}2sHI", b"II" if order == "<" else b"MM", 42, begin) + body
    out += bytes(len(body) % 2)
    entries, after = b"", b""
    place = begin + 2 + 12 * len(tags) + 4
    for tag, kind, values in sorted(tags):
        packed_values = struct.pack(f"{order}{len(values)}{_SIGNS[kind]}", *values)
        entries += struct.pack(f"{order}HHI", tag, kind, len(values))
        if len(packed_values) <= 4:
            entries += packed_values.ljust(4, b"\0")
        else:
            entries += struct.pack(f"{order}I", place + len(after))
            after += packed_values
    return out + struct.pack(f"{order}H", len(tags)) + entries + bytes(4) + after
