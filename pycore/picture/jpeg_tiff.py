"""Pixels of a TIFF that are packed as JPEG, strip by strip.

The library behind Pillow unpacks them on some machines, and not in the browser. Here each strip or tile
becomes a JPEG file of its own, which Pillow decodes on all of them.
"""

from __future__ import annotations

import io
from typing import Final

from PIL import Image, ImageChops, ImageFile

from pycore.picture.guard import picture_error
from pycore.picture.tiff_tags import JPEG, LUMA_CHROMA, SEPARATED, Tag, packed_error
from pycore.picture.ycc import ask_for_ycc, ycc_to_rgb
from pycore.speech import say

_WHITE_IS_ZERO: Final = 0
_SEPARATE: Final = 2

#: Rec. ITU-T T.81, B.1.1.3: markers. The last two say what the components are, as the TIFF's tags do here.
_START, _SCAN, _JFIF, _ADOBE = 0xD8, 0xDA, 0xE0, 0xEE
#: Rec. ITU-T T.872, 6.5.3: the marker's segment up to the transform flag: 0 for none, 1 for luma and chroma.
_ADOBE_SEGMENT: Final = b"\xff\xee\x00\x0eAdobe\x00\x64\x00\x00\x00\x00"


def unpack_jpeg(data: bytes, image: Image.Image) -> None:
    """Give a TIFF its decoded pixels, where they are packed as JPEG; another picture is left as it is.

    Parameters
    ----------
    data : bytes
        The file.
    image : PIL.Image.Image
        The picture as opened from it, not decoded yet. Afterwards it is decoded, and not set upright.

    Raises
    ------
    PictureError
        Its channels are of another kind than grey, RGB or CMYK, or lie apart; it names too few strips.
    OSError, SyntaxError
        A strip is damaged; for `pycore.picture.guard.decoding`.

    References
    ----------
    TIFF Technical Note 2 (compression 7, JPEGTables); TIFF 6.0, sections 7 (strips) and 15 (tiles).
    """
    tags = getattr(image, "tag_v2", {})
    if not isinstance(image, ImageFile.ImageFile) or tags.get(Tag.COMPRESSION) != JPEG:
        return
    if image.mode not in ("L", "RGB", "CMYK") or tags.get(Tag.PLANAR_CONFIGURATION) == _SEPARATE:
        raise packed_error(JPEG)
    offsets, counts = tags.get(Tag.TILE_OFFSETS), tags.get(Tag.TILE_BYTE_COUNTS, ())
    across, down = tags.get(Tag.TILE_WIDTH, image.width), tags.get(Tag.TILE_LENGTH, image.height)
    if offsets is None:
        offsets, counts = tags.get(Tag.STRIP_OFFSETS, ()), tags.get(Tag.STRIP_BYTE_COUNTS, ())
        across, down = image.width, min(tags.get(Tag.ROWS_PER_STRIP, image.height), image.height)
    columns = -(-image.width // max(1, across))
    strips = columns * -(-image.height // max(1, down))
    if len(offsets) != strips or len(counts) != strips:
        raise picture_error(
            expected=say("a TIFF of {planes} strips or tiles, by its size", planes=strips),
            got=say("one that names {offset_count}", offset_count=len(offsets)),
            remedy=say("export the picture again"),
        )
    photometric = int(tags.get(Tag.PHOTOMETRIC, 1))
    tables = _segments(bytes(tags.get(Tag.JPEG_TABLES, b"")))
    pixels = Image.new(image.mode, image.size)
    for number, (offset, count) in enumerate(zip(offsets, counts, strict=True)):
        part = _decoded(data[offset : offset + count], tables, photometric, (across, down))
        pixels.paste(part, (number % columns * across, number // columns * down))
    # Decoded pixels with the file's own tags: nothing is left for Pillow to unpack.
    image.tile, image.im = [], pixels.im


def _decoded(strip: bytes, tables: bytes, photometric: int, largest: tuple[int, int]) -> Image.Image:
    transform = b"\x01" if photometric == LUMA_CHROMA else b"\x00"
    whole = b"\xff\xd8" + _ADOBE_SEGMENT + transform + tables + _segments(strip)
    with Image.open(io.BytesIO(whole), formats=("JPEG",)) as part:
        if part.width > largest[0] or part.height > largest[1]:
            raise OSError("a strip larger than its place")
        ask_for_ycc(part)
        part.load()
        if part.mode == "YCbCr":
            return ycc_to_rgb(part)
        # Pillow takes the inks of a JPEG file for inverted; in a TIFF 0 is none.
        is_turned = photometric in (SEPARATED, _WHITE_IS_ZERO)
        return ImageChops.invert(part) if is_turned else part.copy()


def _segments(stream: bytes) -> bytes:
    """A JPEG stream without its start and end, and without what its first segments say of its components."""
    if stream[:2] != bytes((0xFF, _START)):
        return b""
    kept, at = b"", 2
    while at + 4 <= len(stream) and stream[at] == 0xFF and stream[at + 1] != _SCAN:
        end = at + 2 + int.from_bytes(stream[at + 2 : at + 4])
        if stream[at + 1] not in (_JFIF, _ADOBE):
            kept += stream[at:end]
        at = end
    # The tables' end mark would end the picture; a strip's own stays.
    return kept + (stream[at:] if stream[at + 1 : at + 2] == bytes((_SCAN,)) else b"")
