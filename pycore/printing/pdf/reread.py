"""A written PDF found again by its own table: what the page and its picture are.

It reads files of the form that `objects.py` writes and takes nothing from the writer: every object is found
by its offset, and the picture is unpacked to its end. ISO 32000-1:2008 is cited by its clauses.
"""

from __future__ import annotations

import os
import re
import zlib
from dataclasses import dataclass
from typing import BinaryIO

from pycore.conventions import MM_PER_INCH
from pycore.picture.source import CHANNELS
from pycore.printing.pdf.page import UNITS_PER_INCH

_PART = 1 << 20
#: A dictionary here is shorter than this; a stream's data follow it.
_DICTIONARY = 1 << 16
_MODES = {"DeviceGray": "L", "DeviceRGB": "RGB", "DeviceCMYK": "CMYK"}


@dataclass(frozen=True, kw_only=True)
class FoundPage:
    """A page and its picture.

    Attributes
    ----------
    mode : str
        L, RGB or CMYK.
    width_px, height_px, bits : int
        Of the picture.
    ppi : (across, down)
    size_mm : (width, height)
        Of the page.
    profile : bytes or None
    """

    mode: str
    width_px: int
    height_px: int
    bits: int
    ppi: tuple[float, float]
    size_mm: tuple[float, float]
    profile: bytes | None


class BrokenPdfError(ValueError):
    """The file is not what was written."""


def read_page(file: BinaryIO) -> FoundPage:
    """Find the page of a PDF and read its picture to the end.

    Parameters
    ----------
    file : binary file
        Can be read and sought.

    Returns
    -------
    FoundPage

    Raises
    ------
    BrokenPdfError
        An object is not where the table says, a stream ends early, or an entry is missing.
    """
    objects = _Objects(file)
    catalogue = objects.dictionary(objects.root)
    page = objects.dictionary(_reference(objects.dictionary(_reference(catalogue, "Pages")), r"Kids \["))
    box, trim = _numbers(page, "MediaBox"), _numbers(page, "TrimBox")
    if box != trim:
        raise BrokenPdfError(f"a page of {box} and a trimmed one of {trim}")
    image = _reference(page, "Canvas")
    entries = objects.dictionary(image)
    width, height, bits = (_number(entries, name) for name in ("Width", "Height", "BitsPerComponent"))
    mode, profile = _space(objects, entries)
    _check_pixels(objects, image, rows=height, row_bytes=1 + width * CHANNELS[mode] * bits // 8)
    matrix = re.match(
        rb"q (\S+) 0 0 (\S+) (\S+) \S+ cm /Canvas Do", objects.unpacked(_reference(page, "Contents"))
    )
    if matrix is None:
        raise BrokenPdfError("a page without its picture")
    columns, rows, inset = (float(value) for value in matrix.groups())
    # The picture lies that far within its own pixels, on every side.
    across, down = ((length + 2 * inset) / UNITS_PER_INCH for length in (columns, rows))
    return FoundPage(
        mode=mode,
        width_px=width,
        height_px=height,
        bits=bits,
        ppi=(width / across, height / down),
        size_mm=(box[2] / UNITS_PER_INCH * MM_PER_INCH, box[3] / UNITS_PER_INCH * MM_PER_INCH),
        profile=profile,
    )


class _Objects:
    """Objects by their numbers, found through the table at the end (7.5.4, 7.5.5)."""

    def __init__(self, file: BinaryIO) -> None:
        self._file = file
        file.seek(0)
        if not file.read(8).startswith(b"%PDF-1."):
            raise BrokenPdfError("no PDF header")
        size = file.seek(0, os.SEEK_END)
        file.seek(max(0, size - 1024))
        end = re.search(rb"startxref\n(\d+)\n%%EOF\n\Z", file.read())
        if end is None:
            raise BrokenPdfError("no end mark of a PDF")
        file.seek(int(end[1]))
        table = file.read(size - int(end[1])).decode("latin-1")
        head = re.match(r"xref\n0 (\d+)\n", table)
        if head is None:
            raise BrokenPdfError("no table of objects")
        count, begin = int(head[1]), head.end()
        # 7.5.4: each line has 20 bytes, of which the first 10 are the offset.
        lines = [table[begin + 20 * line : begin + 20 * line + 20] for line in range(count)]
        self._offsets = {own: int(line[:10]) for own, line in enumerate(lines) if line.endswith(" n \n")}
        self.root = _reference(table[begin + 20 * count :], "Root")
        for own in self._offsets:
            self._at(own)

    def _at(self, own: int) -> None:
        if own not in self._offsets:
            raise BrokenPdfError(f"no object {own}")
        self._file.seek(self._offsets[own])
        head = f"{own} 0 obj\n".encode("ascii")
        if self._file.read(len(head)) != head:
            raise BrokenPdfError(f"another object than {own} at its place")

    def dictionary(self, own: int) -> str:
        """The text of an object, without a stream's data."""
        self._at(own)
        text = self._file.read(_DICTIONARY)
        end = re.search(rb"\n(stream|endobj)\n", text)
        if end is None:
            raise BrokenPdfError(f"an object {own} without an end")
        return text[: end.start()].decode("latin-1")

    def stream(self, own: int) -> int:
        """Go to a stream's data; their length."""
        entries = self.dictionary(own)
        apart = re.search(r"/Length (\d+) 0 R", entries)
        length = int(self.dictionary(int(apart[1]))) if apart else _number(entries, "Length")
        self._at(own)
        begin = self._file.tell() + len(entries) + len("\nstream\n")
        self._file.seek(begin + length)
        if self._file.read(11) != b"\nendstream\n":
            raise BrokenPdfError(f"a stream {own} of another length")
        self._file.seek(begin)
        return length

    def unpacked_length(self, own: int) -> int:
        """Unpack a stream to its end part by part; how long it is."""
        left, unpacker, length = self.stream(own), zlib.decompressobj(), 0
        try:
            while left > 0:
                packed = self._file.read(min(left, _PART))
                if not packed or unpacker.eof:
                    break
                left -= len(packed)
                while packed:
                    length += len(unpacker.decompress(packed, _PART))
                    packed = unpacker.unconsumed_tail
            # The last of the data comes with the sum that is checked.
            length += len(unpacker.flush())
        except zlib.error as damage:
            raise BrokenPdfError(f"a damaged stream ({damage})") from damage
        if not unpacker.eof or left:
            raise BrokenPdfError("a stream that ends early")
        return length

    def unpacked(self, own: int) -> bytes:
        """A short stream's data."""
        try:
            return zlib.decompress(self._file.read(self.stream(own)))
        except zlib.error as damage:
            raise BrokenPdfError(f"a damaged stream ({damage})") from damage


def _check_pixels(objects: _Objects, image: int, *, rows: int, row_bytes: int) -> None:
    unpacked = objects.unpacked_length(image)
    if unpacked != rows * row_bytes:
        raise BrokenPdfError(f"a picture of {unpacked} bytes, not {rows * row_bytes}")


def _space(objects: _Objects, entries: str) -> tuple[str, bytes | None]:
    plain = re.search(r"/ColorSpace /(\w+)", entries)
    if plain is not None and plain[1] in _MODES:
        return _MODES[plain[1]], None
    profile = _reference(entries, r"ColorSpace \[/ICCBased")
    about = re.search(r"/N (\d) /Alternate /(\w+)", objects.dictionary(profile))
    if about is None or about[2] not in _MODES or CHANNELS[_MODES[about[2]]] != int(about[1]):
        raise BrokenPdfError("a colour space that is not known")
    return _MODES[about[2]], objects.unpacked(profile)


def _reference(text: str, name: str) -> int:
    found = re.search(rf"/{name} ?(\d+) 0 R", text)
    if found is None:
        raise BrokenPdfError(f"no entry {name}")
    return int(found[1])


def _number(text: str, name: str) -> int:
    found = re.search(rf"/{name} (\d+)", text)
    if found is None:
        raise BrokenPdfError(f"no entry {name}")
    return int(found[1])


def _numbers(text: str, name: str) -> list[float]:
    found = re.search(rf"/{name} \[([^\]]+)\]", text)
    if found is None:
        raise BrokenPdfError(f"no entry {name}")
    return [float(value) for value in found[1].split()]
