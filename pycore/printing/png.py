"""A PNG file written in strips, with its profile and its resolution."""

from __future__ import annotations

import struct
import zlib
from collections.abc import Iterable, Iterator
from typing import BinaryIO

import numpy as np

from pycore.conventions import MM_PER_INCH
from pycore.picture.tones import U8, Values

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


def write_png(
    strips: Iterable[Values],
    out: BinaryIO,
    *,
    shape: tuple[int, int, int],
    bits: int,
    ppi: float,
    profile: bytes | None,
) -> Iterator[int]:
    """Write a PNG.

    Parameters
    ----------
    strips : iterable of (rows, columns, 1 or 3) uint8 or uint16
        Grey or RGB, from top to bottom.
    out : binary file
        Written from where it stands.
    shape : (rows, columns, channels)
        Of all strips together.
    bits : int
        8 or 16, of a channel.
    ppi : float
        Pixels per inch.
    profile : bytes or None
        ICC profile, embedded byte for byte.

    Yields
    ------
    int
        Rows that have been written.

    References
    ----------
    PNG (third edition), W3C 2025: 5.3 (chunks), 7.1 (16 bits: the higher byte first), 9.2 (filter type 2,
    Up), 11.3.2.3 (iCCP), 11.3.4.3 (pHYs).
    """
    height, width, channels = shape
    out.write(_SIGNATURE)
    _chunk(out, b"IHDR", struct.pack(">IIBBBBB", width, height, bits, _COLOUR_TYPES[channels], 0, 0, 0))
    if profile is not None:
        _chunk(out, b"iCCP", b"profile\0\0" + zlib.compress(profile, 9))
    per_metre = pixels_per_metre(ppi)
    _chunk(out, b"pHYs", struct.pack(">IIB", per_metre, per_metre, 1))
    for packed, done in packed_rows(strips, height=height, bits=bits):
        _chunk(out, b"IDAT", packed)
        yield done
    _chunk(out, b"IEND", b"")


def packed_rows(strips: Iterable[Values], *, height: int, bits: int) -> Iterator[tuple[bytes, int]]:
    """Filter rows and pack them, as PNG and PDF hold them: each byte less the one above it, then Deflate.

    Parameters
    ----------
    strips : iterable of (rows, columns, channels) uint8 or uint16
        From top to bottom.
    height : int
        Rows of all strips together.
    bits : int
        8 or 16, of a channel; of 16 the higher byte comes first.

    Yields
    ------
    tuple of (bytes, int)
        The next part of one zlib stream, which may be empty, and how many rows have been taken.
    """
    packer = zlib.compressobj(_LEVEL)
    done = 0
    for rows in _of_equal_height(_bytes_of(strips, bits), height, _ROWS_AT_ONCE):
        # The first row is the one above, or zeros above the top.
        filtered = np.empty((len(rows) - 1, rows.shape[1] + 1), np.uint8)
        filtered[:, 0] = _UP
        # Modulo 256.
        filtered[:, 1:] = rows[1:] - rows[:-1]
        done += len(filtered)
        yield packer.compress(filtered.data), done
    yield packer.flush(), done


def _bytes_of(strips: Iterable[Values], bits: int) -> Iterator[U8]:
    for strip in strips:
        whole = np.ascontiguousarray(strip, np.uint8 if bits == 8 else ">u2")
        yield whole.view(np.uint8).reshape(len(whole), -1)


def _of_equal_height(strips: Iterator[U8], height: int, wanted: int) -> Iterator[U8]:
    """The same rows, so many at a time, each time with the row above them before them.

    A file's chunks, and with them its bytes, are then the same however the canvas was cut.
    """
    held: U8 | None = None
    left = height
    for strip in strips:
        held = np.concatenate([np.zeros_like(strip[:1]) if held is None else held, strip])
        while len(held) > min(wanted, left):
            count = min(wanted, left)
            yield held[: count + 1]
            left -= count
            held = held[count:]
            if left == 0:
                return


def _chunk(out: BinaryIO, kind: bytes, body: bytes) -> None:
    if not body and kind == b"IDAT":
        return  # The packer keeps what it is given until it has enough.
    out.write(struct.pack(">I", len(body)) + kind)
    out.write(body)
    out.write(struct.pack(">I", zlib.crc32(body, zlib.crc32(kind))))
