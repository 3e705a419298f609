"""The print file as a PDF: one page at true size with its boxes, the picture, and the marks as vectors.

ISO 32000-1:2008 is cited by its clauses.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Generator, Iterable, Iterator
from dataclasses import dataclass
from typing import BinaryIO, Final

from pycore.colour.icc.profile import description
from pycore.contract.job import Job
from pycore.conventions import MM_PER_INCH
from pycore.errors import ProfileError
from pycore.layout.flat import flat_sizes
from pycore.picture.tones import Values
from pycore.printing.marks import Marks
from pycore.printing.pdf.letters import add_letters, codes
from pycore.printing.pdf.objects import PdfObjects, number, numbers, text_string
from pycore.printing.png import packed_rows
from pycore.speech import say

#: Units of a page in an inch (8.3.2.3).
UNITS_PER_INCH: Final = 72

#: 8.6.4: colour spaces by the file's mode, and what black is in them.
_DEVICE = {"L": "DeviceGray", "RGB": "DeviceRGB", "CMYK": "DeviceCMYK"}
_BLACK = {"L": "0", "RGB": "0 0 0", "CMYK": "0 0 0 1"}
#: 7.4.4.4: each row says which of PNG's filters it has.
_PNG_PREDICTOR = 15
#: 10.6.4: a renderer paints every pixel that a shape touches. So much less on each side, the picture touches
#: no pixel beyond its own, however its place is rounded.
_INSET_PX = 1e-4

Box = tuple[float, float, float, float]


@dataclass(frozen=True, kw_only=True)
class PdfPage:
    """What a page holds beside its picture.

    Attributes
    ----------
    size_mm : (width, height)
        Of the canvas as it is trimmed.
    inked_mm : (left, top, right, bottom)
        Where its ink ends, from its upper-left corner.
    marks : Marks or None
        Planned with outlines.
    title : str
    date : str
        YYYY-MM-DD.
    printer_values : bool
        The picture holds the printer's own values: its profile is the output intent too.
    """

    size_mm: tuple[float, float]
    inked_mm: Box
    marks: Marks | None
    title: str
    date: str
    printer_values: bool


def page_of(job: Job, *, marks: Marks | None, date: str, printer_values: bool) -> PdfPage:
    """What the page of a job holds beside its picture.

    Parameters
    ----------
    job : Job
        A checked job, of one panel.
    marks : Marks or None
        Planned with outlines.
    date : str
        YYYY-MM-DD.
    printer_values : bool
        Of the picture.

    Returns
    -------
    PdfPage

    Examples
    --------
    >>> page = page_of(Job(), marks=None, date="2031-04-30", printer_values=False)
    >>> [round(length, 2) for length in page.size_mm], [round(length, 2) for length in page.inked_mm]
    ([390.9, 290.9], [19.0, 19.0, 371.9, 271.9])
    """
    sizes = flat_sizes(job)
    columns, rows = sizes.columns_mm, sizes.rows_mm
    return PdfPage(
        size_mm=sizes.canvas_mm,
        inked_mm=(columns[1], rows[1], columns[4], rows[4]),
        marks=marks,
        title=job.name or say("Untitled"),
        date=date,
        printer_values=printer_values,
    )


def write_pdf(
    strips: Iterable[Values],
    out: BinaryIO,
    *,
    mode: str,
    shape: tuple[int, int, int],
    bits: int,
    ppi: float,
    profile: bytes | None,
    page: PdfPage,
) -> Iterator[int]:
    """Write a PDF.

    The picture lies with its upper-left corner in that of the page, at its true resolution. The page has the
    canvas's exact size; the picture has whole pixels and ends within half of one of the page's edge.

    Parameters
    ----------
    strips : iterable of (rows, columns, channels) uint8 or uint16
        The canvas without marks, from top to bottom.
    out : binary file
        Empty.
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
    page : PdfPage

    Yields
    ------
    int
        Rows that have been taken.

    References
    ----------
    ISO 32000-1:2008: 7.7.3.3 (page), 8.6.5.5 (ICCBased), 8.9.5 (images), 14.11.2 (boxes), 14.11.5 (output
    intents).
    """
    file = PdfObjects(out)
    space, intent = f"/{_DEVICE[mode]}", ""
    if profile is not None:
        channels = shape[2]
        stream = file.add_stream(f"/N {channels} /Alternate /{_DEVICE[mode]}", profile)
        space = f"[/ICCBased {stream} 0 R]"
        intent = _output_intent(stream, profile) if page.printer_values else ""
    content = hashlib.blake2b(digest_size=16)
    image = yield from _image(file, strips, space=space, shape=shape, bits=bits, content=content)
    resources = f"/ColorSpace << /Ink {space} >> /XObject << /Canvas {image} 0 R >>"
    texts = [] if page.marks is None else page.marks.texts
    if texts:
        letters = add_letters(file, "".join(one.text for one in texts))
        resources += f" /Font << /Letters {letters} 0 R >>"
    drawing = _drawing(page, mode=mode, shape=shape, ppi=ppi)
    content.update(drawing)
    contents = file.add_stream("", drawing)
    pages = file.reserve()
    leaf = file.add(
        f"<< /Type /Page /Parent {pages} 0 R {_boxes(page)} "
        f"/Resources << {resources} >> /Contents {contents} 0 R >>"
    )
    file.add(f"<< /Type /Pages /Kids [{leaf} 0 R] /Count 1 >>", as_number=pages)
    # 12.2: the print dialogue begins without scaling.
    root = file.add(
        f"<< /Type /Catalog /Pages {pages} 0 R /ViewerPreferences << /PrintScaling /None >>{intent} >>"
    )
    # 7.9.4: a date is year, month and day; what is none stands among the marks only.
    day = page.date.replace("-", "")
    dated = f" /CreationDate (D:{day})" if re.fullmatch("[0-9]{8}", day) else ""
    info = file.add(f"<< /Title {text_string(page.title)} /Creator (Tuckfold){dated} >>")
    file.finish(root=root, info=info, identity=content.hexdigest().upper())


def units(length_mm: float) -> float:
    """A length on the page in units of its default space.

    Parameters
    ----------
    length_mm : float

    Returns
    -------
    float

    Examples
    --------
    >>> units(25.4)
    72.0
    """
    return length_mm / MM_PER_INCH * UNITS_PER_INCH


def _boxes(page: PdfPage) -> str:
    width, height = (units(length) for length in page.size_mm)
    left, top, right, bottom = (units(length) for length in page.inked_mm)
    whole = numbers((0, 0, width, height))
    inked = numbers((left, height - bottom, right, height - top))
    # A bleed box lies round the trim box; what the page shows, the ink, is the art box's.
    return f"/MediaBox {whole} /CropBox {whole} /BleedBox {whole} /TrimBox {whole} /ArtBox {inked}"


def _output_intent(stream: int, profile: bytes) -> str:
    try:
        name = description(profile)
    except ProfileError:
        name = ""
    # No registry knows the printer's condition, so its profile stands here and its name in Info.
    return (
        " /OutputIntents [<< /Type /OutputIntent /S /GTS_PDFX /OutputConditionIdentifier (Custom) "
        f"/Info {text_string(name or 'Printer profile')} /DestOutputProfile {stream} 0 R >>]"
    )


def _image(
    file: PdfObjects,
    strips: Iterable[Values],
    *,
    space: str,
    shape: tuple[int, int, int],
    bits: int,
    content: hashlib.blake2b,
) -> Generator[int, None, int]:
    height, width, channels = shape

    def parts() -> Iterator[tuple[bytes, int]]:
        for packed, done in packed_rows(strips, height=height, bits=bits):
            content.update(packed)
            yield packed, done

    entries = (
        f"/Type /XObject /Subtype /Image /Width {width} /Height {height} /ColorSpace {space} "
        f"/BitsPerComponent {bits} /Filter /FlateDecode /DecodeParms << /Predictor {_PNG_PREDICTOR} "
        f"/Colors {channels} /BitsPerComponent {bits} /Columns {width} >>"
    )
    return (yield from file.stream_parts(entries, parts()))


def _drawing(page: PdfPage, *, mode: str, shape: tuple[int, int, int], ppi: float) -> bytes:
    """The page's content: the picture, then the marks in pixels from the upper-left corner."""
    scale, height = UNITS_PER_INCH / ppi, units(page.size_mm[1])
    rows, columns, inset = shape[0] * scale, shape[1] * scale, _INSET_PX * scale
    lines = [
        f"q {number(columns - 2 * inset)} 0 0 {number(rows - 2 * inset)} {number(inset)} "
        f"{number(height - rows + inset)} cm /Canvas Do Q",
        f"q {number(scale)} 0 0 {number(-scale)} 0 {number(height)} cm /Ink cs {_BLACK[mode]} sc",
    ]
    if page.marks is None:
        return f"{lines[0]}\n".encode("ascii")
    for top, left, bits in page.marks.places:
        lines.append(f"{left} {top} {bits.shape[1]} {bits.shape[0]} re f")
    for one in page.marks.texts:
        # The axis points down here, so the letters are turned over again.
        at = f"{number(one.left_px)} {number(one.baseline_px)}"
        lines.append(f"BT /Letters {number(one.size_px)} Tf 1 0 0 -1 {at} Tm {codes(one.text)} Tj ET")
    return "\n".join([*lines, "Q\n"]).encode("ascii")
