"""What a PNG says of its colours by its own chunks, which no EXIF block has a say in."""

from __future__ import annotations

import itertools
import struct
from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.colour.icc.endpoints import P3_PRIMARIES
from pycore.colour.icc.standard_profiles import space_profile, srgb_curve_tag
from pycore.colour.icc.write_tags import gamma_tag
from pycore.colour.spaces.arrays import FloatArray
from pycore.colour.spaces.srgb import D65_XY, SRGB_PRIMARIES
from pycore.picture.named_space import NamedSpace
from pycore.picture.png_chunks import png_chunks

_Chromaticities = tuple[tuple[float, float], ...]

#: cICP: sRGB's codes, and primaries and powers of light by theirs. Published: ITU-T H.273, tables 2 and 3.
_SRGB_CODES: Final = (1, 13)
_PRIMARIES: Final[dict[int, _Chromaticities]] = {
    1: SRGB_PRIMARIES,
    9: ((0.708, 0.292), (0.170, 0.797), (0.131, 0.046)),
    12: P3_PRIMARIES,
}
_GAMMAS: Final = {4: 2.2, 5: 2.8, 8: 1.0}
_SRGB_TRANSFER: Final = 13
#: Whole numbers from 0 to the largest, and RGB as it is.
_FULL_RGB: Final = (0, 1)

#: gAMA, and how far from it counts as the same: a display's 1.8 is told apart. Published: PNG 11.3.2.2.
_SRGB_GAMMA: Final = 0.45455
_GAMMA_STEP: Final = 0.03
#: Others are no picture's: what a profile's power can hold, and no more than black and white.
_GAMMAS_READ: Final = (0.1, 10.0)

#: cHRM: x and y of white, red, green and blue. Published: PNG 11.3.2.1.
_CHROMATICITY_STEP: Final = 0.01
#: Three primaries nearer to one line than this hold no colours: the triangle's doubled area in x and y.
_LEAST_AREA: Final = 0.01
_LEAST_Y: Final = 0.01

#: Colour types without colours, in the file's byte 25 (table 12.1), for which cHRM means nothing.
_GREY: Final = (b"\x00", b"\x04")

#: gAMA and cHRM count in hundred-thousandths.
_UNIT: Final = 1e-5


@dataclass(frozen=True, kw_only=True)
class PngColours:
    """What the chunks say.

    Attributes
    ----------
    named : NamedSpace or None
        sRGB, where they say that.
    profile : bytes or None
        A profile of what else they say.
    goes_first : bool
        It counts more than an ICC profile in the file.
    unread : str
        The chunk that says what cannot be read; empty for none.
    """

    named: NamedSpace | None = None
    profile: bytes | None = None
    goes_first: bool = False
    unread: str = ""


def png_colours(data: bytes) -> PngColours:
    """Read what a PNG's chunks say of its colours.

    Parameters
    ----------
    data : bytes
        A whole PNG.

    Returns
    -------
    PngColours

    References
    ----------
    PNG (third edition), W3C 2025: 4.3 (which of the chunks goes first), 11.3.2.

    Examples
    --------
    >>> png_colours(b"")
    PngColours(named=None, profile=None, goes_first=False, unread='')
    """
    found = _before_pixels(data)
    device = "GRAY" if data[25:26] in _GREY else "RGB"
    if len(found.get("cICP", b"")) == 4:
        coded = _by_codes(tuple(found["cICP"]), device)
        if not (coded.unread and "iCCP" in found):
            return coded
    if "iCCP" in found:
        return PngColours()
    if "sRGB" in found:
        return PngColours(named=NamedSpace.SRGB)
    return _by_numbers(found.get("gAMA", b""), b"" if device == "GRAY" else found.get("cHRM", b""), device)


def _by_codes(codes: tuple[int, ...], device: str) -> PngColours:
    """By cICP."""
    primaries, transfer = codes[:2]
    if codes[:2] == _SRGB_CODES:
        return PngColours(named=NamedSpace.SRGB, goes_first=True)
    is_read = transfer == _SRGB_TRANSFER or transfer in _GAMMAS
    if primaries not in _PRIMARIES or not is_read or codes[2:] != _FULL_RGB:
        return PngColours(unread="cICP")
    curve = srgb_curve_tag() if transfer == _SRGB_TRANSFER else gamma_tag(_GAMMAS[transfer])
    name = f"PNG cICP {primaries}, {transfer}"
    made = space_profile(name, device, curve=curve, primaries=_PRIMARIES[primaries])
    return PngColours(profile=made, goes_first=True)


def _by_numbers(filed_gamma: bytes, filed_primaries: bytes, device: str) -> PngColours:
    """By gAMA and cHRM, of which one that is missing or damaged says nothing."""
    gamma = int.from_bytes(filed_gamma, "big") * _UNIT if len(filed_gamma) == 4 else _SRGB_GAMMA
    is_srgb_curve = abs(gamma - _SRGB_GAMMA) <= _GAMMA_STEP
    white: tuple[float, float] = D65_XY
    primaries: _Chromaticities = SRGB_PRIMARIES
    if len(filed_primaries) == 32:
        numbers = [one * _UNIT for one in struct.unpack(">8I", filed_primaries)]
        white, *rest = zip(numbers[::2], numbers[1::2], strict=True)
        primaries = tuple(rest)
    ours, theirs = np.array([D65_XY, *SRGB_PRIMARIES]), np.array([white, *primaries])
    is_srgb = bool(np.abs(ours - theirs).max() <= _CHROMATICITY_STEP)
    if is_srgb_curve and is_srgb:
        says_both = len(filed_gamma) == 4 and len(filed_primaries) == 32
        return PngColours(named=NamedSpace.SRGB if says_both else None)
    if not is_srgb and not _spans(theirs):
        return PngColours(unread="cHRM")
    if not is_srgb_curve and not _GAMMAS_READ[0] <= gamma <= _GAMMAS_READ[1]:
        return PngColours(unread="gAMA")
    curve = srgb_curve_tag() if is_srgb_curve else gamma_tag(1.0 / gamma)
    said = [
        *([] if is_srgb_curve else [f"gAMA {gamma:.5f}"]),
        *([] if is_srgb else ["cHRM"]),
    ]
    made = space_profile(f"PNG {' and '.join(said)}", device, curve=curve, primaries=primaries, white=white)
    return PngColours(profile=made)


def _spans(points: FloatArray) -> bool:
    """Whether the white lies inside the triangle of the primaries, which has an area."""
    (white, *corners) = points
    if white[1] < _LEAST_Y or bool((points > 1.0).any()):
        return False
    red, green, blue = corners
    area = _twice(red, green, blue)
    parts = [_twice(white, green, blue), _twice(red, white, blue), _twice(red, green, white)]
    return abs(area) >= _LEAST_AREA and all(part * area > 0 for part in parts)


def _twice(one: FloatArray, two: FloatArray, three: FloatArray) -> float:
    """Twice a triangle's area, negative where its corners go round clockwise."""
    (ax, ay), (bx, by) = two - one, three - one
    return float(ax * by - ay * bx)


def _before_pixels(data: bytes) -> dict[str, bytes]:
    """Chunks before the pixels, where all that tell of colours stand."""
    before = itertools.takewhile(lambda chunk: chunk[0] != b"IDAT", png_chunks(data))
    return {kind.decode("latin-1"): body for kind, body in before}
