"""Kinds of file that are no picture here but that a person may choose: each is recognised, and named."""

from __future__ import annotations

import struct
from typing import Final

from pycore.speech import say

#: What a file begins with. ISO/IEC 23008-12 and the AV1 image format for the brands behind `ftyp`; GIF89a;
#: ISO 32000 (PDF); ISO/IEC 15444-1 (JPEG 2000); ISO/IEC 18181-2 (JPEG XL).
#: Common practice (from memory): the makers' own signatures of camera raw files, and that of layered files.
_BEGINNINGS: Final = (
    (b"GIF87a", say("a GIF")),
    (b"GIF89a", say("a GIF")),
    (b"%PDF-", say("a PDF")),
    (b"\0\0\0\x0cjP  \r\n\x87\n", say("a JPEG 2000")),
    (b"\xff\x4f\xff\x51", say("a JPEG 2000")),
    (b"\0\0\0\x0cJXL \r\n\x87\n", say("a JPEG XL")),
    (b"\xff\x0a", say("a JPEG XL")),
    (b"8BPS", say("a PSD")),
    (b"IIRO", say("a camera raw file")),
    (b"IIRS", say("a camera raw file")),
    (b"MMOR", say("a camera raw file")),
    (b"IIU\0", say("a camera raw file")),
    (b"FUJIFILMCCD-RAW", say("a camera raw file")),
    (b"FOVb", say("a camera raw file")),
    (b"\0MRM", say("a camera raw file")),
)
_HEIC_BRANDS: Final = {b"heic", b"heix", b"hevc", b"hevx", b"heim", b"heis", b"mif1", b"msf1"}
_AVIF_BRANDS: Final = {b"avif", b"avis"}
_RAW_BRANDS: Final = {b"crx "}

#: TIFF 6.0 and TIFF/EP: tags, and the two photometric interpretations of a sensor's own values.
_SUBFILE, _PHOTOMETRIC, _SUB_IFDS, _RAW_VERSION = 254, 262, 330, 50706
_SENSOR: Final = {32803, 34892}

#: Bytes of a value by its type: BYTE, SHORT, LONG, IFD.
_VALUE_BYTES: Final = {1: 1, 3: 2, 4: 4, 13: 4}
_MOST_DIRECTORIES: Final = 32
_MOST_ENTRIES: Final = 512
_MOST_VALUES: Final = 16

Directory = dict[int, list[int]]


def unread_kind(data: bytes) -> str:
    """What a file is that cannot be opened as a picture.

    Parameters
    ----------
    data : bytes
        The file.

    Returns
    -------
    str
        For example `a GIF`; empty where the file is none of the kinds that are known.

    References
    ----------
    ISO/IEC 14496-12, 4.3 (`ftyp`).

    Examples
    --------
    >>> unread_kind(b"GIF89a..."), unread_kind(b"hello")
    ('a GIF', '')
    """
    for beginning, kind in _BEGINNINGS:
        if data.startswith(beginning):
            return kind
    if data[4:8] == b"ftyp":
        # The file's own brand, then those that it is compatible with; the minor version stands between.
        length = min(int.from_bytes(data[:4], "big"), 256)
        brands = [data[8:12], *(data[at : at + 4] for at in range(16, length, 4))]
        for one in brands:
            if one in _RAW_BRANDS:
                return say("a camera raw file")
            if one in _AVIF_BRANDS:
                return say("an AVIF")
        if any(one in _HEIC_BRANDS for one in brands):
            return say("a HEIC")
    if _is_bitmap(data):
        return say("a BMP")
    head = data[:2048].lstrip(b"\xef\xbb\xbf \t\r\n")
    if head.startswith(b"<") and b"<svg" in head.lower():
        return say("an SVG")
    return say("a camera raw file") if _is_raw_tiff(data) else ""


def is_thumbnail_first(data: bytes) -> bool:
    """Whether a TIFF's first picture says of itself that it is a smaller copy of another one in the file.

    Parameters
    ----------
    data : bytes
        The file.

    Returns
    -------
    bool

    References
    ----------
    TIFF 6.0, section 8: NewSubfileType, bit 0.

    Examples
    --------
    >>> is_thumbnail_first(b"")
    False
    """
    found = _directories(data)
    return len(found) > 1 and bool((found[0].get(_SUBFILE) or [0])[0] & 1)


def _is_bitmap(data: bytes) -> bool:
    """Common practice: BM, the file's size, four bytes of nothing, and where the pixels begin."""
    begin = int.from_bytes(data[10:14], "little")
    return data[:2] == b"BM" and data[6:10] == bytes(4) and 26 <= begin < len(data)


def _is_raw_tiff(data: bytes) -> bool:
    if data[:4] == b"II*\0" and data[8:10] == b"CR":
        return True
    return any(
        _RAW_VERSION in one or not _SENSOR.isdisjoint(one.get(_PHOTOMETRIC, ())) for one in _directories(data)
    )


def _directories(data: bytes) -> list[Directory]:
    """A TIFF's directories in their order, those below others too; damage ends the list."""
    order = {b"II*\0": "<", b"MM\0*": ">"}.get(data[:4])
    if order is None or len(data) < 8:
        return []
    waiting = [struct.unpack_from(f"{order}I", data, 4)[0]]
    found: list[Directory] = []
    seen: set[int] = set()
    while waiting and len(found) < _MOST_DIRECTORIES:
        at = waiting.pop(0)
        # A place past the end is damage; where addresses have 32 bits it might not even be a place.
        if at == 0 or at in seen or at >= len(data):
            continue
        seen.add(at)
        try:
            one, following = _directory(data, at, order)
        except struct.error:
            continue
        found.append(one)
        waiting += [*one.get(_SUB_IFDS, ()), following]
    return found


def _directory(data: bytes, at: int, order: str) -> tuple[Directory, int]:
    (count,) = struct.unpack_from(f"{order}H", data, at)
    entries: Directory = {}
    for index in range(min(count, _MOST_ENTRIES)):
        place = at + 2 + 12 * index
        tag, kind, values = struct.unpack_from(f"{order}HHI", data, place)
        size = _VALUE_BYTES.get(kind)
        if size is None or not 0 < values <= _MOST_VALUES:
            continue
        begin = place + 8
        if size * values > 4:
            (begin,) = struct.unpack_from(f"{order}I", data, begin)
        if begin >= len(data):
            raise struct.error
        letter = {1: "B", 2: "H", 4: "I"}[size]
        entries[tag] = list(struct.unpack_from(f"{order}{values}{letter}", data, begin))
    (following,) = struct.unpack_from(f"{order}I", data, at + 2 + 12 * count)
    return entries, following
