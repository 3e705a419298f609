"""Opening a written print file again, measuring it, and comparing it with what was meant."""

from __future__ import annotations

import os
import warnings
from dataclasses import dataclass
from typing import BinaryIO

from PIL import Image

from pycore.colour.icc.profile import description
from pycore.conventions import MM_PER_INCH, round_half_up
from pycore.errors import OutputError, ProfileError
from pycore.picture.guard import DECODER_FAILURES, no_pixel_limit
from pycore.printing.png import pixels_per_metre
from pycore.printing.report import FileKind, FileReport
from pycore.speech import say

_FORMATS = {FileKind.TIFF: "TIFF", FileKind.PNG: "PNG", FileKind.JPEG: "JPEG", FileKind.PDF: "PDF"}
#: What Pillow calls grey of 16 bits; RGB and CMYK have the same name with both.
_MODES = {"I;16": "L", "I;16B": "L"}

#: A page's sides are written to a hundred-millionth of a unit.
_PAGE_TOLERANCE_MM = 1e-4

_BITS_TAG, _OFFSETS_TAG, _COUNTS_TAG = 258, 273, 279


@dataclass(frozen=True, kw_only=True)
class ExpectedFile:
    """What a print file should be.

    Attributes
    ----------
    kind : FileKind
    mode : str
        L, RGB or CMYK.
    width_px, height_px : int
    ppi : float
    profile : bytes or None
    bits : int
        Of a channel.
    page_mm : (width, height) or None
        Of a PDF's page; the other formats are as large as their pixels.
    """

    kind: FileKind
    mode: str
    width_px: int
    height_px: int
    ppi: float
    profile: bytes | None
    bits: int = 8
    page_mm: tuple[float, float] | None = None

    @property
    def kept_ppi(self) -> float:
        """The resolution as the format can hold it: whole pixels per metre in PNG, per inch in JPEG."""
        if self.kind is FileKind.PNG:
            return pixels_per_metre(self.ppi) * MM_PER_INCH / 1000
        return round_half_up(self.ppi) if self.kind is FileKind.JPEG else self.ppi


def reread(file: BinaryIO, *, name: str, expected: ExpectedFile) -> FileReport:
    """Re-open a print file and measure it.

    Parameters
    ----------
    file : binary file
        Can be read and sought.
    name : str
        For the report.
    expected : ExpectedFile
        What it should be.

    Returns
    -------
    FileReport

    Raises
    ------
    OutputError
        It cannot be opened, or is not what was meant.
    """
    size = file.seek(0, os.SEEK_END)
    file.seek(0)
    found = _page(file) if expected.kind is FileKind.PDF else _picture(file, size, expected.kind)
    wanted = (_FORMATS[expected.kind], expected.mode, expected.width_px, expected.height_px)
    if found.about != wanted:
        raise _wrong(_about(*wanted), _about(*found.about))
    # A TIFF keeps the resolution as a fraction of two 32-bit numbers.
    if any(abs(one - expected.kept_ppi) > 1e-6 * expected.kept_ppi for one in found.ppi):
        raise _wrong(
            say("{kept_ppi:.6g} ppi", kept_ppi=expected.kept_ppi),
            say("{ppi0:.6g} x {ppi1:.6g} ppi", ppi0=found.ppi[0], ppi1=found.ppi[1]),
        )
    if found.profile != expected.profile:
        raise _wrong(
            say("the profile of {profile_count} bytes", profile_count=len(expected.profile or b"")),
            say("{profile_count} bytes", profile_count=len(found.profile or b"")),
        )
    if found.bits != expected.bits:
        raise _wrong(say("{bits} bits a channel", bits=expected.bits), say("{bits} bits", bits=found.bits))
    pairs = zip(found.size_mm, expected.page_mm or found.size_mm, strict=True)
    if any(abs(one - other) > _PAGE_TOLERANCE_MM for one, other in pairs):
        raise _wrong(
            say("a page of {wide:.2f} x {high:.2f} mm", wide=expected.page_mm[0], high=expected.page_mm[1])
            if expected.page_mm
            else "",
            str(found.size_mm),
        )
    return FileReport(
        file=name,
        width_px=expected.width_px,
        height_px=expected.height_px,
        ppi=found.ppi,
        size_mm=found.size_mm,
        profile_name=_name(found.profile),
        bytes=size,
        format=_FORMATS[expected.kind],
        bits=found.bits,
    )


@dataclass(frozen=True, kw_only=True)
class _Found:
    """What a file is: format, mode, width and height in pixels, and the rest."""

    about: tuple[str | None, str, int, int]
    profile: bytes | None
    ppi: tuple[float, float]
    bits: int
    size_mm: tuple[float, float]


def _picture(file: BinaryIO, size: int, kind: FileKind) -> _Found:
    try:
        with warnings.catch_warnings(), no_pixel_limit():
            warnings.simplefilter("error")
            with Image.open(file, formats=(_FORMATS[kind],)) as image:
                _check_end(file, image, size)
                across, down = _ppi(image)
                found = _Found(
                    about=(image.format, _MODES.get(image.mode, image.mode), image.width, image.height),
                    profile=image.info.get("icc_profile"),
                    ppi=(across, down),
                    bits=_bits(file, image),
                    size_mm=(image.width / across * MM_PER_INCH, image.height / down * MM_PER_INCH),
                )
                if kind is FileKind.PNG:
                    image.verify()
    except DECODER_FAILURES as failure:
        raise _wrong(
            say("a file that can be opened again"), str(failure) or type(failure).__name__
        ) from failure
    return found


def _page(file: BinaryIO) -> _Found:
    # Few files are PDFs, and only they load what reads them.
    from pycore.printing.pdf.reread import BrokenPdfError, read_page

    try:
        page = read_page(file)
    except BrokenPdfError as broken:
        raise _wrong(say("a PDF that can be opened again"), str(broken)) from broken
    return _Found(
        about=("PDF", page.mode, page.width_px, page.height_px),
        profile=page.profile,
        ppi=page.ppi,
        bits=page.bits,
        size_mm=page.size_mm,
    )


def _bits(file: BinaryIO, image: Image.Image) -> int:
    """Bits of a channel: of a TIFF its tag 258; of a PNG byte 24 (11.2.1, IHDR); a JPEG's are always 8."""
    if image.format == "TIFF":
        return int(image.tag_v2[_BITS_TAG][0])  # type: ignore[attr-defined]  # Only a TIFF has them.
    if image.format != "PNG":
        return 8
    place = file.tell()
    file.seek(24)
    found = file.read(1)[0]
    file.seek(place)
    return found


def _check_end(file: BinaryIO, image: Image.Image, size: int) -> None:
    """Is everything there? A PNG's chunks are checked by their sums."""
    if image.format == "TIFF":
        tags = image.tag_v2  # type: ignore[attr-defined]  # Only a TIFF has them.
        end = max(start + count for start, count in zip(tags[_OFFSETS_TAG], tags[_COUNTS_TAG], strict=True))
        if end > size:
            raise _wrong(say("at least {end} bytes", end=end), say("{size} bytes", size=size))
        return
    # JPEG's EOI; PNG's IEND chunk, which is the same in every file.
    mark = b"\xff\xd9" if image.format == "JPEG" else b"\0\0\0\0IEND\xaeB`\x82"
    place = file.tell()
    file.seek(-len(mark), os.SEEK_END)
    if file.read() != mark:
        raise _wrong(say("the end mark of a {format}", format=image.format), say("none"))
    file.seek(place)


def _ppi(image: Image.Image) -> tuple[float, float]:
    across, down = image.info["dpi"]
    return float(across), float(down)


def _about(kind: str | None, mode: str, width: int, height: int) -> str:
    return say("{kind} {mode}, {width} x {height} pixels", kind=kind, mode=mode, width=width, height=height)


def _name(profile: bytes | None) -> str:
    if profile is None:
        return ""
    try:
        return description(profile) or say("unnamed profile")
    except ProfileError as damage:
        raise _wrong(say("a profile that can be read"), str(damage)) from damage


def _wrong(expected: str, got: str) -> OutputError:
    return OutputError(
        field="out",
        expected=expected,
        got=got,
        remedy=say("make room on the disk and try again; this file is not kept"),
        said=say(
            "The written file is wrong: it should have {expected}, and has {got}.", expected=expected, got=got
        ),
    )
