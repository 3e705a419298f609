"""The print file's formats: TIFF, PNG and JPEG from the strips of a canvas; `pdf/` writes PDF."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import BinaryIO

import numpy as np
from PIL import Image

from pycore.conventions import MM_PER_INCH, round_half_up
from pycore.errors import FieldError
from pycore.picture.tones import Values
from pycore.printing.png import write_png
from pycore.printing.report import FileKind
from pycore.printing.too_fine import too_fine
from pycore.speech import say

#: JPEG keeps width and height in 16 bits, and libjpeg allows a little less (JPEG_MAX_DIMENSION).
_JPEG_LONGEST = 65_500
#: Whole numbers in a PDF, its picture's length among them, have 31 bits (ISO 32000-1, annex C.2).
_PDF_BYTES = 2**31 - 2**20
#: A PDF's page has at most 14,400 units of 1/72 inch a side (annex C.2). Larger units (UserUnit) would allow
#: more, but many readers take no notice of them and print such a page too small.
_PDF_PAGE_MM = 14_400 / 72 * MM_PER_INCH
#: A TIFF's offsets have 32 bits (TIFF 6.0, section 2); room is left for its tags and profile.
_TIFF_BYTES = 2**32 - 2**26
_JPEG_QUALITY = 97

_PHOTOMETRIC = {"L": "minisblack", "RGB": "rgb", "CMYK": "separated"}


def canvas_channels(kind: FileKind, mode: str) -> int:
    """Channels of the canvas that a format is best written from.

    A JPEG of RGB is written from four, since Pillow can then read the array where it lies.

    Parameters
    ----------
    kind : FileKind
    mode : str
        L, RGB or CMYK.

    Returns
    -------
    int

    Examples
    --------
    >>> canvas_channels(FileKind.JPEG, "RGB"), canvas_channels(FileKind.TIFF, "RGB")
    (4, 3)
    """
    if mode == "RGB":
        return 4 if kind is FileKind.JPEG else 3
    return 1 if mode == "L" else 4


def check_format(kind: FileKind, mode: str, *, width_px: int, height_px: int, bits: int = 8) -> None:
    """Check that a format can hold the canvas.

    Parameters
    ----------
    kind : FileKind
    mode : str
        L, RGB or CMYK.
    width_px, height_px : int
        Of the canvas.
    bits : int
        8 or 16, of a channel.

    Raises
    ------
    FieldError
        CMYK in a PNG; 16 bits in a JPEG; more pixels than the format can count.

    Examples
    --------
    >>> check_format(FileKind.TIFF, "CMYK", width_px=6223, height_px=5042)
    """
    if kind is FileKind.PNG and mode == "CMYK":
        raise FieldError(
            field="kind",
            expected=say("a format that holds CMYK: TIFF, JPEG or PDF"),
            got=say("PNG, which holds grey and RGB only"),
            remedy=say("save a TIFF, a JPEG or a PDF"),
            said=say("A PNG holds grey and RGB only, and this picture is CMYK."),
        )
    if kind is FileKind.JPEG and bits != 8:
        raise FieldError(
            field="print.bits",
            expected=say("8 for a JPEG, which holds no more"),
            got=str(bits),
            remedy=say("save a TIFF, a PNG or a PDF, or choose 8 bits"),
        )
    if kind is FileKind.JPEG and max(width_px, height_px) > _JPEG_LONGEST:
        raise too_fine(
            FieldError,
            size_px=(width_px, height_px),
            expected=say(
                "lower for a JPEG, which has at most {jpeg_longest} pixels a side", jpeg_longest=_JPEG_LONGEST
            ),
            remedy=say("lower the resolution, or save a PNG"),
        )
    size = width_px * height_px * canvas_channels(kind, mode) * bits // 8
    if kind is FileKind.PDF and size > _PDF_BYTES:
        raise too_fine(
            FieldError,
            size_px=(width_px, height_px),
            expected=say("lower for a PDF, whose picture has at most 2 GB"),
            remedy=say("lower the resolution, or save a TIFF or a PNG"),
        )
    if kind is FileKind.TIFF and size > _TIFF_BYTES:
        raise too_fine(
            FieldError,
            size_px=(width_px, height_px),
            expected=say("lower for a TIFF, which has at most 4 GB"),
            remedy=say("lower the resolution, or save a PNG"),
        )


def check_page(size_mm: tuple[float, float]) -> None:
    """Check that a PDF's page can have the canvas's size.

    Parameters
    ----------
    size_mm : (width, height)

    Raises
    ------
    FieldError
        A side is longer than a page may be.

    Examples
    --------
    >>> check_page((5080.0, 300.0))
    """
    if max(size_mm) > _PDF_PAGE_MM + 1e-6:
        raise FieldError(
            field="kind",
            expected=say(
                "TIFF, PNG or JPEG for a canvas of more than {pdf_page_mm:.0f} mm", pdf_page_mm=_PDF_PAGE_MM
            ),
            got=say("PDF for {size_mm0:.2f} x {size_mm1:.2f} mm", size_mm0=size_mm[0], size_mm1=size_mm[1]),
            remedy=say("save a TIFF or a PNG"),
            said=say(
                "A PDF's page is at most {pdf_page_mm:.0f} mm long, and this canvas has "
                "{size_mm0:.1f} x {size_mm1:.1f} mm.",
                pdf_page_mm=_PDF_PAGE_MM,
                size_mm0=size_mm[0],
                size_mm1=size_mm[1],
            ),
        )


def encode_file(
    strips: Iterable[Values],
    out: BinaryIO,
    *,
    kind: FileKind,
    mode: str,
    shape: tuple[int, int, int],
    bits: int,
    ppi: float,
    profile: bytes | None,
) -> Iterator[int]:
    """Write a canvas as a file.

    Parameters
    ----------
    strips : iterable of (rows, columns, channels) uint8 or uint16
        The canvas from top to bottom, with as many channels as `canvas_channels` says.
    out : binary file
        Empty; can be written and sought.
    kind : FileKind
    mode : str
        L, RGB or CMYK.
    shape : (rows, columns, channels)
        Of the whole canvas.
    bits : int
        8 or 16, of a channel.
    ppi : float
        Pixels per inch.
    profile : bytes or None
        ICC profile, embedded byte for byte.

    Yields
    ------
    int
        Rows that have been taken.

    References
    ----------
    TIFF 6.0; PNG (third edition); JFIF 1.02 (resolution), ICC.1:2022 annex B.4 (profiles in JFIF).
    """
    if kind is FileKind.TIFF:
        yield from _write_tiff(strips, out, mode=mode, shape=shape, bits=bits, ppi=ppi, profile=profile)
    elif kind is FileKind.PNG:
        yield from write_png(strips, out, shape=shape, bits=bits, ppi=ppi, profile=profile)
    else:
        yield from _write_jpeg(strips, out, mode=mode, shape=shape, ppi=ppi, profile=profile)


def _write_tiff(
    strips: Iterable[Values],
    out: BinaryIO,
    *,
    mode: str,
    shape: tuple[int, int, int],
    bits: int,
    ppi: float,
    profile: bytes | None,
) -> Iterator[int]:
    import tifffile

    is_grey = shape[2] == 1
    # Without pixels the tags are written, and room is left for what comes after them.
    found = tifffile.imwrite(
        out,
        shape=shape[:2] if is_grey else shape,
        dtype="<u1" if bits == 8 else "<u2",
        photometric=_PHOTOMETRIC[mode],
        planarconfig=None if is_grey else "contig",
        bigtiff=False,
        byteorder="<",
        resolution=(ppi, ppi),
        resolutionunit="INCH",
        iccprofile=profile,
        metadata=None,
        software=False,
        returnoffset=True,
    )
    assert found is not None
    out.seek(found[0])
    rows = 0
    for strip in strips:
        out.write(np.ascontiguousarray(strip, "<u1" if bits == 8 else "<u2").data)
        rows += len(strip)
        yield rows


def _write_jpeg(
    strips: Iterable[Values],
    out: BinaryIO,
    *,
    mode: str,
    shape: tuple[int, int, int],
    ppi: float,
    profile: bytes | None,
) -> Iterator[int]:
    # Pillow encodes a whole picture only.
    canvas = np.empty(shape, np.uint8)
    rows = 0
    for strip in strips:
        canvas[rows : rows + len(strip)] = strip
        rows += len(strip)
        yield rows
    height, width = shape[:2]
    packing = "RGBX" if mode == "RGB" else mode
    image = Image.frombuffer(packing, (width, height), canvas, "raw", packing, 0, 1)
    image.save(
        out,
        "JPEG",
        quality=_JPEG_QUALITY,
        subsampling="4:4:4",
        dpi=(round_half_up(ppi), round_half_up(ppi)),
        icc_profile=profile,
    )
