"""What a PNG says of its colours without an ICC profile: read only as far as whether they are sRGB's."""

from __future__ import annotations

import itertools
import struct
from typing import Final

from pycore.picture.png_chunks import png_chunks

#: cICP: the primaries and the transfer function of sRGB by ITU-T H.273, tables 2 and 3.
_SRGB_CODES: Final = (1, 13)

#: gAMA, and how far from it counts as the same: a display's 1.8 is told apart. Published: PNG 11.3.2.2.
_SRGB_GAMMA: Final = 0.45455
_GAMMA_STEP: Final = 0.03

#: cHRM: x and y of white, red, green and blue. Published: PNG 11.3.2.1.
_SRGB_CHROMATICITIES: Final = (0.3127, 0.329, 0.64, 0.33, 0.3, 0.6, 0.15, 0.06)
_CHROMATICITY_STEP: Final = 0.01

#: Colour types without colours, in the file's byte 25 (table 12.1), for which cHRM means nothing.
_GREY: Final = (b"\x00", b"\x04")

#: gAMA and cHRM count in hundred-thousandths.
_UNIT: Final = 1e-5


def says_srgb(data: bytes) -> bool:
    """Whether a PNG says by its cICP or sRGB chunk that its colours are sRGB's.

    Parameters
    ----------
    data : bytes
        A whole PNG.

    Returns
    -------
    bool

    References
    ----------
    PNG (third edition), W3C 2025: 4.3, 11.3.2.5 and 11.3.2.6.

    Examples
    --------
    >>> says_srgb(b"")
    False
    """
    found = _before_pixels(data)
    if len(found.get("cICP", b"")) == 4:
        return tuple(found["cICP"][:2]) == _SRGB_CODES
    return "sRGB" in found


def foreign_chunk(data: bytes) -> str:
    """The chunk by which a PNG's colours are not sRGB's.

    Parameters
    ----------
    data : bytes
        A whole PNG.

    Returns
    -------
    str
        cICP, gAMA or cHRM; empty where they are sRGB's, or where an ICC profile or sRGB chunk goes first.

    References
    ----------
    PNG (third edition), W3C 2025: 4.3 (which of the chunks goes first), 11.3.2.

    Examples
    --------
    >>> foreign_chunk(b"")
    ''
    """
    found = _before_pixels(data)
    if "cICP" in found and len(found["cICP"]) == 4:
        return "" if tuple(found["cICP"][:2]) == _SRGB_CODES else "cICP"
    if "iCCP" in found or "sRGB" in found:
        return ""
    if len(found.get("gAMA", b"")) == 4:
        gamma = int.from_bytes(found["gAMA"], "big") * _UNIT
        if abs(gamma - _SRGB_GAMMA) > _GAMMA_STEP:
            return "gAMA"
    is_grey = data[25:26] in _GREY
    if len(found.get("cHRM", b"")) == 32 and not is_grey:
        pairs = zip(struct.unpack(">8I", found["cHRM"]), _SRGB_CHROMATICITIES, strict=True)
        if any(abs(one * _UNIT - other) > _CHROMATICITY_STEP for one, other in pairs):
            return "cHRM"
    return ""


def _before_pixels(data: bytes) -> dict[str, bytes]:
    """Chunks before the pixels, where all that tell of colours stand."""
    before = itertools.takewhile(lambda chunk: chunk[0] != b"IDAT", png_chunks(data))
    return {kind.decode("latin-1"): body for kind, body in before}
