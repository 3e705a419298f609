"""The values of a PNG with all of their 16 bits, which Pillow would cut to 8.

Pillow unpacks the pixels twice: once as they are, keeping the higher byte of each value, and once as if the
lower byte came first, keeping what is the lower one.
"""

from __future__ import annotations

import struct
from dataclasses import dataclass
from typing import Final

import numpy as np
from PIL import Image

from pycore.picture.guard import picture_error
from pycore.picture.png_chunks import png_chunks
from pycore.picture.tones import U16
from pycore.speech import say

#: By colour type (PNG third edition, table 12.1): channels; mode and raw modes for the two bytes.
_GREY, _RGB, _GREY_ALPHA, _RGB_ALPHA = 0, 2, 4, 6
_BYTES: Final = {
    _RGB: ("RGB", "RGB;16B", "RGB;16L"),
    _RGB_ALPHA: ("RGBA", "RGBA;16B", "RGBA;16L"),
}
#: Those whose 16-bit pixels are as long as 8-bit pixels of another kind, which are then their bytes.
_AS_BYTES: Final = {_GREY: ("LA", "LA"), _GREY_ALPHA: ("RGBA", "RGBA")}


@dataclass(frozen=True, kw_only=True)
class PngValues:
    """What a PNG of 16 bits holds.

    Attributes
    ----------
    values : (rows, columns, channels) uint16
        Grey or RGB, and the transparency last where `has_alpha`.
    has_alpha : bool
    """

    values: U16
    has_alpha: bool


def png_values(data: bytes) -> PngValues:
    """Read a PNG of 16 bits a channel.

    Parameters
    ----------
    data : bytes
        The file.

    Returns
    -------
    PngValues
        A colour that a tRNS chunk makes transparent has become a transparency of 0.

    Raises
    ------
    PictureError
        Pixels are missing.

    References
    ----------
    PNG (third edition), W3C 2025: 5.3 (chunks), 11.2.1 (IHDR), 11.3.1.1 (tRNS).
    """
    width, height, _, colour_type, _, _, interlace = struct.unpack(">IIBBBBB", data[16:29])
    packed, key = _chunks(data)
    size = width, height

    def unpacked(mode: str, raw_mode: str) -> Image.Image:
        return Image.frombytes(mode, size, packed, "zip", raw_mode, interlace)

    if colour_type in _AS_BYTES:
        pairs = np.asarray(unpacked(*_AS_BYTES[colour_type]))
        values: U16 = np.ascontiguousarray(pairs).view(">u2").astype(np.uint16)
    elif colour_type in _BYTES:
        mode, high_first, low_first = _BYTES[colour_type]
        values = np.asarray(unpacked(mode, high_first)).astype(np.uint16)
        values <<= np.uint16(8)
        values |= np.asarray(unpacked(mode, low_first))
    else:
        raise picture_error(
            expected=say("a PNG of 16 bits with grey or RGB values"),
            got=say("one of the colour type {colour_type}", colour_type=colour_type),
            remedy=say("export the picture again"),
        )
    has_alpha = colour_type in (_GREY_ALPHA, _RGB_ALPHA)
    channels = values.shape[2]
    if not has_alpha and len(key) == 2 * channels:
        wanted = np.frombuffer(key, ">u2")
        alpha = np.where((values == wanted).all(axis=2), 0, 65535).astype(np.uint16)
        values, has_alpha = np.concatenate([values, alpha[..., np.newaxis]], axis=2), True
    return PngValues(values=values, has_alpha=has_alpha)


def _chunks(data: bytes) -> tuple[bytes, bytes]:
    """The packed pixels in one piece, and the tRNS chunk; Pillow has checked their sums."""
    parts, key = [], b""
    for kind, body in png_chunks(data):
        if kind == b"IDAT":
            parts.append(body)
        elif kind == b"tRNS":
            key = body
    return b"".join(parts), key
