"""A PNG file written in strips, with its profile and its resolution."""

from __future__ import annotations

import struct
import zlib
from collections.abc import Iterator
from typing import BinaryIO

import numpy as np

from pycore.conventions import MM_PER_INCH
from pycore.picture.tones import U8

_SIGNATURE = b"\x89PNG\r\n\x1a\n"
#: Colour type by channels (PNG third edition, table 12.1).
_COLOUR_TYPES = {1: 0, 3: 2}
_UP = 2
_ROWS_AT_ONCE = 128
#: Of zlib's 1 to 9: photographs shrink hardly more by a higher one, and it takes twice the time.
_LEVEL = 3


def pixels_per_metre(ppi: float) -> int:
    """Resolution as PNG keeps it: whole pixels per metre.

    Parameters
    ----------
    ppi : float
        Pixels per inch.

    Returns
    -------
    int

    Examples
    --------
    >>> pixels_per_metre(300)
    11811
    """
    return round(ppi / MM_PER_INCH * 1000)


def write_png(canvas: U8, out: BinaryIO, *, ppi: float, profile: bytes | None) -> Iterator[float]:
    """Write a PNG.

    Parameters
    ----------
    canvas : (rows, columns, 1 or 3) uint8
        Grey or RGB.
    out : binary file
        Written from where it stands.
    ppi : float
        Pixels per inch.
    profile : bytes or None
        ICC profile, embedded byte for byte.

    Yields
    ------
    float
        The share that is done.

    References
    ----------
    PNG (third edition), W3C 2025: 5.3 (chunks), 9.2 (filter type 2, Up), 11.3.2.3 (iCCP), 11.3.4.3 (pHYs).
    """
    height, width, channels = canvas.shape
    out.write(_SIGNATURE)
    _chunk(out, b"IHDR", struct.pack(">IIBBBBB", width, height, 8, _COLOUR_TYPES[channels], 0, 0, 0))
    if profile is not None:
        _chunk(out, b"iCCP", b"profile\0\0" + zlib.compress(profile, 9))
    per_metre = pixels_per_metre(ppi)
    _chunk(out, b"pHYs", struct.pack(">IIB", per_metre, per_metre, 1))
    packer = zlib.compressobj(_LEVEL)
    rows = canvas.reshape(height, width * channels)
    for first in range(0, height, _ROWS_AT_ONCE):
        last = min(first + _ROWS_AT_ONCE, height)
        filtered = np.empty((last - first, width * channels + 1), np.uint8)
        filtered[:, 0] = _UP
        # Each byte less the one above it, modulo 256; above the first row all are 0.
        filtered[1:, 1:] = rows[first + 1 : last] - rows[first : last - 1]
        filtered[0, 1:] = rows[first] - rows[first - 1] if first else rows[0]
        _chunk(out, b"IDAT", packer.compress(filtered.data))
        yield last / height
    _chunk(out, b"IDAT", packer.flush())
    _chunk(out, b"IEND", b"")


def _chunk(out: BinaryIO, kind: bytes, body: bytes) -> None:
    if not body and kind == b"IDAT":
        return  # The packer keeps what it is given until it has enough.
    out.write(struct.pack(">I", len(body)) + kind)
    out.write(body)
    out.write(struct.pack(">I", zlib.crc32(body, zlib.crc32(kind))))
