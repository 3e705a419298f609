"""The sheets or the roll with the canvases on them, to scale."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from pycore.contract.job import Job
from pycore.layout.flat import FlatSizes, flat_sizes
from pycore.layout.plan import SheetPlan
from pycore.layout.sheet import SheetFit
from pycore.printing.pdf.letters import width_in_ems
from pycore.speech import say
from pycore.ticket.lines import MM_PER_POINT
from pycore.ticket.paper import BARE, FAINT, GROUND, INK, PRINT, SOFT, TicketPages
from pycore.ticket.pieces import Piece
from pycore.ticket.words import plain

_LABEL_PT: Final = 6.5
_PLACE_PT: Final = 5.5
#: Lower letters are hard to read; a place then takes two lines.
_LEAST_PT: Final = 4.0
_ASIDE_MM: Final = 0.9

_TIMES: Final = "\N{MULTIPLICATION SIGN}"

#: More sheets than this are alike; the last one is drawn beside the first.
_MOST_SHEETS: Final = 3

#: Room below the drawing for its size, and between two sheets, mm.
_FOOT_MM: Final = 4.0
_GAP_MM: Final = 3.0

_Pair = tuple[float, float]

#: A canvas on a sheet: its upper-left corner, mm from the sheet's, and what is written on it.
_Placed = tuple[_Pair, str]


def sheet_drawing(
    job: Job, fit: SheetFit, plan: SheetPlan | None, *, width_mm: float, most_mm: float
) -> Piece:
    """Draw what is loaded with the canvases on it, the picture upright.

    Parameters
    ----------
    job : Job
        A checked job.
    fit : SheetFit
        Of one canvas.
    plan : SheetPlan or None
        Of a group.
    width_mm : float
        Of the drawing.
    most_mm : float
        Its height at most.

    Returns
    -------
    Piece
    """
    turned = fit.turned if plan is None else plan.turned
    length = fit.length_mm if plan is None else plan.length_mm
    sheets: list[list[_Placed]] = [[(fit.position_mm, "")]]
    if plan is not None:
        sheets = [[(one.position_mm, str(one.panel)) for one in sheet] for sheet in plan.sheets]
    sheets = sheets if len(sheets) <= _MOST_SHEETS else [*sheets[: _MOST_SHEETS - 1], sheets[-1]]
    ground = _Ground(width_mm=job.sheet.width_mm, length_mm=length, turned=turned)
    sizes = flat_sizes(job)
    canvas = (sizes.canvas_mm[1], sizes.canvas_mm[0]) if turned else sizes.canvas_mm
    # A canvas that the sheet does not hold stands out past its edges.
    low, high = ground.extent([place for sheet in sheets for place, _ in sheet], canvas)
    wide, tall = high[0] - low[0], high[1] - low[1]
    count = len(sheets)
    scale = min((width_mm - (count - 1) * _GAP_MM) / (wide * count), (most_mm - _FOOT_MM) / tall)

    def draw(pages: TicketPages, x: float, y: float) -> None:
        left = x
        for sheet in sheets:
            at = (left - low[0] * scale, y + 1 - low[1] * scale)
            _draw_sheet(pages, job, sizes, sheet, ground, at, scale)
            left += wide * scale + _GAP_MM
        said = say(
            "{plain} {times} {plain2} mm", plain=plain(ground.width_mm), times=_TIMES, plain2=plain(length)
        )
        said += (
            say(" of the roll") if job.sheet.height_mm is None else say(", lying sideways") if turned else ""
        )
        if any(len(sheet) > 1 for sheet in sheets):
            said = say("{said}; corners in mm (across / along)", said=said)
        pages.text(x, y + 1 + tall * scale + 3.2, said, size_pt=_LABEL_PT, colour=SOFT)

    return Piece(height_mm=tall * scale + _FOOT_MM + 1, draw=draw)


@dataclass(frozen=True, kw_only=True)
class _Ground:
    """A sheet, or a piece of the roll, as the print file lies: on its side where the canvas lies sideways."""

    width_mm: float
    length_mm: float
    turned: bool

    def box(self, across: float, along: float, wide: float, high: float) -> tuple[float, float, float, float]:
        """A box on the sheet as it lies in the drawing: its upper-left corner, width and height."""
        if not self.turned:
            return across, along, wide, high
        # A quarter to the left: what lies at the sheet's right edge lies above.
        return along, self.width_mm - across - wide, high, wide

    def extent(self, places: list[_Pair], canvas: _Pair) -> tuple[_Pair, _Pair]:
        """The smallest and the largest coordinates of the sheet and what lies on it, in the drawing."""
        boxes = [self.box(0, 0, self.width_mm, self.length_mm), *(self.box(*one, *canvas) for one in places)]
        return (
            (min(x for x, _, _, _ in boxes), min(y for _, y, _, _ in boxes)),
            (max(x + wide for x, _, wide, _ in boxes), max(y + high for _, y, _, high in boxes)),
        )


def _draw_sheet(
    pages: TicketPages,
    job: Job,
    sizes: FlatSizes,
    canvases: list[_Placed],
    ground: _Ground,
    at: tuple[float, float],
    scale: float,
) -> None:
    def placed(across: float, along: float, wide: float, high: float) -> tuple[float, float, float, float]:
        x, y, *size = ground.box(across, along, wide, high)
        return at[0] + x * scale, at[1] + y * scale, size[0] * scale, size[1] * scale

    top, right, bottom, left = job.sheet.margin_mm
    wide, length = ground.width_mm, ground.length_mm
    pages.box(*placed(0, 0, wide, length), fill=GROUND)
    for (across, along), number in canvases:
        canvas, ink, face = (
            (size[1], size[0]) if ground.turned else size
            for size in (sizes.canvas_mm, sizes.inked_mm, sizes.face_zone_mm)
        )
        for size, fill, colour in ((canvas, BARE, INK), (ink, PRINT, None), (face, None, SOFT)):
            corner = (across + (canvas[0] - size[0]) / 2, along + (canvas[1] - size[1]) / 2)
            pages.box(*placed(*corner, *size), fill=fill, colour=colour, width=0.15)
        _mark_top(pages, placed(across, along, *canvas), sizes.face_zone_mm[1] * scale, number)
        if len(canvases) > 1:
            lies = placed(across, along, *canvas)
            _mark_corner(pages, lies, (across, along), turned=ground.turned)
    x, y, across, along = placed(left, top, wide - left - right, length - top - bottom)
    edge = [(x, y), (x + across, y), (x + across, y + along), (x, y + along), (x, y)]
    pages.line(edge, colour=FAINT, width=0.15, dashes=(0.8, 0.6))
    pages.box(*placed(0, 0, wide, length), colour=INK, width=0.3)


def _mark_top(
    pages: TicketPages, box: tuple[float, float, float, float], face_high: float, number: str
) -> None:
    """The picture's top, and which panel it is."""
    x, y = box[0] + box[2] / 2, box[1] + box[3] / 2
    pages.text(x, y + 2.2, number, size_pt=9, align="middle")
    if face_high < 12:
        return
    tip = y - face_high / 2 + 0.8
    pages.area([(x, tip), (x - 1.3, tip + 2), (x + 1.3, tip + 2)], fill=INK)
    pages.text(x, tip + 4.6, say("top"), size_pt=_LABEL_PT, align="middle")


def _mark_corner(
    pages: TicketPages, box: tuple[float, float, float, float], position_mm: _Pair, *, turned: bool
) -> None:
    """Where the canvas begins on the sheet; of one that lies sideways that is below in the drawing."""
    x, y, wide, high = box
    corner = y + high if turned else y
    pages.box(x - 0.4, corner - 0.4, 0.8, 0.8, fill=INK)
    said = say("{across} / {along}", across=plain(position_mm[0]), along=plain(position_mm[1]))
    lines = [said] if _widest_pt([said], wide) >= _LEAST_PT else said.split(" / ")
    size = min(_PLACE_PT, _widest_pt(lines, wide))
    step = size * MM_PER_POINT * 1.1
    # Below, clear of the arrow to the picture's top.
    first = y + high - 1 - (len(lines) - 1) * step
    for number, line in enumerate(lines):
        pages.text(x + _ASIDE_MM, first + number * step, line, size_pt=size)


def _widest_pt(lines: list[str], wide: float) -> float:
    """The size at which every line is as wide as a canvas at most, points."""
    return (wide - 2 * _ASIDE_MM) / (max(width_in_ems(one) for one in lines) * MM_PER_POINT)
