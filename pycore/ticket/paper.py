"""The pages of a ticket: what is drawn on them, and the file that comes of it. It alone uses fpdf2."""

from __future__ import annotations

import datetime
import io
from collections.abc import Sequence
from importlib import resources
from typing import Final

import numpy as np
import numpy.typing as npt
from PIL import Image

from pycore.picture.tones import U8
from pycore.speech import language
from pycore.ticket.lines import MM_PER_POINT, width_mm
from pycore.ticket.report import PAPER_MM, Paper
from pycore.ticket.without_tls import names_for_tls

with names_for_tls():
    from fpdf import FPDF
    from fpdf.enums import TextMode

Floats = npt.NDArray[np.float64]
Rgb = tuple[int, int, int]

#: The ticket's few colours, srgb_encoded; they are those of the page.
INK: Final[Rgb] = (38, 32, 25)
SOFT: Final[Rgb] = (107, 96, 83)
FAINT: Final[Rgb] = (205, 195, 180)
ACCENT: Final[Rgb] = (179, 70, 46)
PRINT: Final[Rgb] = (220, 185, 164)
BARE: Final[Rgb] = (255, 253, 248)
GROUND: Final[Rgb] = (239, 231, 217)
WOOD: Final[Rgb] = (217, 194, 152)

#: Blank on each side of a page, mm.
MARGIN_MM: Final = 12.5

_FONT: Final = "letters"

#: Bold letters are outlined by this share of their size.
_BOLD_SHARE: Final = 0.03


class _Document(FPDF):
    """Without an identifier: it would be made of the clock, and nothing here needs one."""

    def file_id(self) -> None:
        """No identifier (ISO 32000-1, 14.4: it is optional in a file that is not encrypted)."""
        return


class TicketPages:
    """Pages that are drawn on, the last one at a time. Lengths are mm from a page's upper-left corner.

    Parameters
    ----------
    paper : Paper
    title : str
        Of the document.
    date : datetime.date
        Stands as the document's date, so that the same ticket is the same file.
    """

    def __init__(self, *, paper: Paper, title: str, date: datetime.date) -> None:
        self.width_mm, self.height_mm = PAPER_MM[paper]
        self._pdf = _Document(unit="mm", format=(self.width_mm, self.height_mm))
        self._pdf.set_auto_page_break(False)
        self._pdf.set_margin(0)
        self._pdf.c_margin = 0
        midnight = datetime.time(tzinfo=datetime.UTC)
        self._pdf.set_creation_date(datetime.datetime.combine(date, midnight))
        self._pdf.set_title(title)
        self._pdf.set_producer("Tuckfold")
        self._pdf.set_lang(language())
        letters = resources.files("pycore.printing.pdf").joinpath("data", "letters.ttf")
        with resources.as_file(letters) as file:
            self._pdf.add_font(_FONT, fname=file)

    @property
    def pages(self) -> int:
        """How many pages there are."""
        return self._pdf.pages_count

    def begin_page(self) -> None:
        """Begin a page; all that follows goes on it."""
        self._pdf.add_page()

    def text(
        self,
        x: float,
        baseline: float,
        text: str,
        *,
        size_pt: float,
        colour: Rgb = INK,
        bold: bool = False,
        align: str = "left",
    ) -> None:
        """Set one line.

        Parameters
        ----------
        x, baseline : float
        text : str
            As from `lettered`.
        size_pt : float
        colour : Rgb
        bold : bool
            Outlined, because the font has one weight.
        align : str
            Where `x` is: left, right or middle.
        """
        if not text:
            return
        shift = {"left": 0.0, "middle": 0.5, "right": 1.0}[align] * width_mm(text, size_pt)
        pdf = self._pdf
        with pdf.local_context():
            pdf.set_font(_FONT, size=size_pt)
            pdf.set_text_color(*colour)
            if bold:
                pdf.text_mode = TextMode.FILL_STROKE
                pdf.set_draw_color(*colour)
                pdf.set_line_width(size_pt * MM_PER_POINT * _BOLD_SHARE)
            pdf.text(x - shift, baseline, text)

    def line(
        self,
        points: Floats | Sequence[tuple[float, float]],
        *,
        colour: Rgb = INK,
        width: float = 0.2,
        dashes: tuple[float, float] | None = None,
    ) -> None:
        """Draw a line through points.

        Parameters
        ----------
        points : (n, 2) float64 or sequence of (x, y)
            mm.
        colour : Rgb
        width : float
            mm.
        dashes : (dash, gap), optional
            Their lengths, mm.
        """
        pdf = self._pdf
        with pdf.local_context():
            pdf.set_draw_color(*colour)
            pdf.set_line_width(width)
            if dashes is not None:
                pdf.set_dash_pattern(dash=dashes[0], gap=dashes[1])
            pdf.polyline(_pairs(points))

    def area(
        self, points: Floats | Sequence[tuple[float, float]], *, fill: Rgb, outline: float = 0.0
    ) -> None:
        """Fill a polygon.

        Parameters
        ----------
        points : (n, 2) float64 or sequence of (x, y)
            mm.
        fill : Rgb
        outline : float
            Width of an outline of the same colour, mm: with one, neighbours show no gap.
        """
        pdf = self._pdf
        with pdf.local_context():
            pdf.set_fill_color(*fill)
            if outline:
                pdf.set_draw_color(*fill)
                pdf.set_line_width(outline)
            pdf.polygon(_pairs(points), style="DF" if outline else "F")

    def box(
        self,
        x: float,
        y: float,
        wide: float,
        high: float,
        *,
        fill: Rgb | None = None,
        colour: Rgb | None = None,
        width: float = 0.2,
    ) -> None:
        """Draw a rectangle, filled, outlined, or both.

        Parameters
        ----------
        x, y, wide, high : float
            mm.
        fill : Rgb, optional
        colour : Rgb, optional
            Of the outline.
        width : float
            Of the outline, mm.
        """
        corners = [(x, y), (x + wide, y), (x + wide, y + high), (x, y + high)]
        if fill is not None:
            self.area(corners, fill=fill)
        if colour is not None:
            self.line([*corners, corners[0]], colour=colour, width=width)

    def picture(self, pixels: U8, x: float, y: float, wide: float, high: float) -> None:
        """Place a picture.

        Parameters
        ----------
        pixels : (rows, columns, 3) uint8
            srgb_encoded.
        x, y, wide, high : float
            mm.
        """
        self._pdf.image(Image.fromarray(pixels), x=x, y=y, w=wide, h=high)

    def data(self) -> bytes:
        """The file's bytes. Nothing can be drawn after it."""
        out = io.BytesIO()
        self._pdf.output(out)
        return out.getvalue()


def _pairs(points: Floats | Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    return [(float(x), float(y)) for x, y in points]
