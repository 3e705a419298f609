"""The values of a TIFF with all of their bits, which Pillow would cut to 8.

Deflate is unpacked by zlib. LZW and PackBits are unpacked by Pillow's own library, which is asked for the
bytes as if they were grey pixels of 8 bits, each row as many as it has bytes: so they come out as they are.
"""

from __future__ import annotations

import io
import struct
import zlib
from typing import TYPE_CHECKING, Final

import numpy as np
from PIL import Image

from pycore.errors import PictureError
from pycore.picture.guard import picture_error
from pycore.picture.tiff_tags import DEFLATES, NONE, Tag, check_storage, compression_of, is_predicted
from pycore.picture.tones import U8, Values
from pycore.speech import say

if TYPE_CHECKING:
    from tifffile import TiffPage

_SHORT, _LONG = 3, 4
_SEPARATE: Final = 2


def tiff_values(data: bytes, page: TiffPage) -> Values:
    """Read the first page's values.

    Parameters
    ----------
    data : bytes
        The file.
    page : TiffPage
        Of it, of 8 or 16 bits a channel, without a sign.

    Returns
    -------
    (rows, columns, channels) uint8 or uint16
        As they are stored; uncompressed ones lie in the file's own bytes and cannot be written to.

    Raises
    ------
    PictureError
        The compression is not read here; values are missing.

    References
    ----------
    TIFF 6.0: sections 7 (strips), 13 (LZW), 14 (predictor), 15 (tiles).
    """
    check_storage(page)
    height, width, channels = int(page.imagelength), int(page.imagewidth), int(page.samplesperpixel)
    dtype = np.dtype(f"{page.parent.byteorder}u{int(page.bitspersample) // 8}")
    is_separate = int(page.planarconfig) == _SEPARATE and channels > 1
    stored = 1 if is_separate else channels
    across, down = (int(page.tilewidth), int(page.tilelength)) if page.is_tiled else (width, _rows(page))
    columns, rows = -(-width // across), -(-height // down)
    offsets, counts = list(page.dataoffsets), list(page.databytecounts)
    planes = channels if is_separate else 1
    if len(offsets) != planes * columns * rows or len(counts) != len(offsets):
        raise picture_error(
            expected=say("a TIFF of {planes} strips or tiles, by its size", planes=planes * columns * rows),
            got=say("one that names {offset_count}", offset_count=len(offsets)),
            remedy=say("export the picture again"),
        )
    out = np.empty((height, width, channels), dtype.newbyteorder("="))
    for number, (offset, count) in enumerate(zip(offsets, counts, strict=True)):
        plane, place = divmod(number, columns * rows)
        top, left = place // columns * down, place % columns * across
        # The last strip ends with the picture; tiles are always whole.
        high = down if page.is_tiled else min(down, height - top)
        packed = memoryview(data)[offset : offset + count]
        # Said here: the library behind Pillow would write of it on the error stream itself.
        if len(packed) < count and compression_of(page) != NONE:
            raise _cut_off()
        raw = _unpacked(packed, compression_of(page), high, across * stored * dtype.itemsize)
        values: Values = raw.view(dtype).reshape(high, across, stored)
        if is_predicted(page):
            values = np.cumsum(values, axis=1, dtype=dtype.newbyteorder("="))
        part = values[: height - top, : width - left]
        target = out[top : top + high, left : left + across]
        target[..., plane : plane + 1 if is_separate else channels] = part
    return out


def _rows(page: TiffPage) -> int:
    return min(int(page.rowsperstrip), int(page.imagelength)) or int(page.imagelength)


def _unpacked(packed: memoryview, compression: int, rows: int, row_bytes: int) -> U8:
    size = rows * row_bytes
    if compression == NONE:
        raw: U8 = np.frombuffer(packed, np.uint8)
    elif compression in DEFLATES:
        # No more than is wanted: a few bytes may claim to be gigabytes.
        raw = np.frombuffer(zlib.decompressobj().decompress(packed, size), np.uint8)
    else:
        raw = _by_pillow(packed, compression, rows, row_bytes)
    if raw.size < size:
        raise _cut_off()
    return raw[:size]


def _cut_off() -> PictureError:
    return picture_error(
        expected=say("a whole TIFF file"),
        got=say("cut off within its pixels"),
        remedy=say("copy or export the picture again"),
    )


def _by_pillow(packed: memoryview, compression: int, rows: int, row_bytes: int) -> U8:
    """Unpack one strip or tile as a small TIFF of its own: grey, 8 bits, without a predictor."""
    entries = (
        (Tag.IMAGE_WIDTH, _LONG, row_bytes),
        (Tag.IMAGE_LENGTH, _LONG, rows),
        (Tag.BITS_PER_SAMPLE, _SHORT, 8),
        (Tag.COMPRESSION, _SHORT, compression),
        (Tag.PHOTOMETRIC, _SHORT, 1),
        (Tag.STRIP_OFFSETS, _LONG, None),
        (Tag.SAMPLES_PER_PIXEL, _SHORT, 1),
        (Tag.ROWS_PER_STRIP, _LONG, rows),
        (Tag.STRIP_BYTE_COUNTS, _LONG, len(packed)),
    )
    start = 8 + 2 + 12 * len(entries) + 4
    head = struct.pack("<2sHIH", b"II", 42, 8, len(entries))
    for tag, kind, value in entries:
        head += struct.pack("<HHII", tag, kind, 1, start if value is None else value)
    with Image.open(io.BytesIO(head + bytes(4) + bytes(packed)), formats=("TIFF",)) as image:
        # A strip that ends early is an error of the library's, not a grey rest.
        values: U8 = np.asarray(image).reshape(-1)
    return values
