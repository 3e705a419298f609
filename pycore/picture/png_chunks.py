"""The chunks of a PNG, one after another."""

from __future__ import annotations

import struct
from collections.abc import Iterator


def png_chunks(data: bytes) -> Iterator[tuple[bytes, bytes]]:
    r"""Go through the chunks; their sums are not checked.

    Parameters
    ----------
    data : bytes
        A whole PNG.

    Yields
    ------
    kind, body : bytes
        Four letters, and what the chunk holds.

    References
    ----------
    PNG (third edition), W3C 2025: 5.3.

    Examples
    --------
    >>> list(png_chunks(bytes(8) + b"\0\0\0\2IDATab" + bytes(4)))
    [(b'IDAT', b'ab')]
    """
    at = 8
    while at + 12 <= len(data):
        length, kind = struct.unpack(">I4s", data[at : at + 8])
        yield kind, data[at + 8 : at + 8 + length]
        at += 12 + length
