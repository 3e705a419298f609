"""Marks for the bench, drawn only on the turn-over: behind the bars, past the ink, clear of what is seen."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pycore.contract.job import Job
from pycore.contract.notes import Note, Place, Severity
from pycore.conventions import Side
from pycore.fill.facing import U8, Facing, facing
from pycore.layout.grid import PixelGrid
from pycore.printing.lettering import LINE_PX, latin_text, letters

#: No mark comes nearer to anything that is seen than this.
CLEAR_MM = 3.0
#: A strip narrower than this is left bare.
_NARROWEST_MM = 2.0
_LINE_MM, _TICK_MM, _CORNER_MM, _LETTERS_MM = 0.25, 5.0, 5.0, 2.8


@dataclass(frozen=True, kw_only=True)
class _Pen:
    """Sizes of the marks in pixels, and their colour."""

    line: int
    tick: int
    corner: int
    inset: int
    ink: tuple[int, ...]


def draw_marks(canvas: U8, grid: PixelGrid, job: Job, *, date: str, is_cmyk: bool) -> list[Note]:
    """Draw fold ticks, trim corners, the word TOP, and a line of text.

    Fold ticks stand on the line of each arris (long) and back arris (half as long); trim corners at the
    corners of the canvas; TOP on the turn-over above the face, the text on the one below it.

    Parameters
    ----------
    canvas : (rows, columns, channels) uint8
        Written in place, on the turn-over past the ink only.
    grid : PixelGrid
    job : Job
    date : str
        For the text.
    is_cmyk : bool
        Four channels of ink, black the last.

    Returns
    -------
    list of Note
        What could not be drawn.
    """
    per_mm = grid.px_per_mm
    pen = _Pen(
        line=max(1, round(_LINE_MM * per_mm)),
        tick=round(_TICK_MM * per_mm),
        corner=round(_CORNER_MM * per_mm),
        inset=math.ceil(CLEAR_MM * per_mm),
        ink=(0, 0, 0, 255) if is_cmyk else (0, 0, 0)[: min(3, canvas.shape[2])],
    )
    sides = {side: facing(canvas, grid, side) for side in Side}
    begins = {side: max(one.end, one.back + pen.inset) for side, one in sides.items()}
    if min(len(one.view) - begins[side] for side, one in sides.items()) < _NARROWEST_MM * per_mm:
        return [_left_out("No marks are drawn: the turn-over has no bare strip that is wide enough.")]
    for side, one in sides.items():
        backs = grid.back_columns if side in (Side.TOP, Side.BOTTOM) else grid.back_rows
        _ticks(one, begins[side], backs, pen)
        _corners(one, pen)
    notes = _letter(sides[Side.TOP], begins[Side.TOP], "TOP", pen, per_mm)
    text, more = _line_of_text(job, date)
    return notes + more + _letter(sides[Side.BOTTOM], begins[Side.BOTTOM], text, pen, per_mm)


def _ticks(side: Facing, begin: int, backs: tuple[int, int], pen: _Pen) -> None:
    last = len(side.view)
    for places, length in ((side.along[1:3], pen.tick), (backs, pen.tick // 2)):
        for place in places:
            start = place - pen.line // 2
            _ink(side.view[begin : min(begin + length, last), start : start + pen.line], pen)


def _corners(side: Facing, pen: _Pen) -> None:
    edge = side.view[-pen.line :]
    _ink(edge[:, : pen.corner], pen)
    _ink(edge[:, -pen.corner :], pen)


def _letter(side: Facing, begin: int, text: str, pen: _Pen, per_mm: float) -> list[Note]:
    """Write a line in the middle of a side's strip, between the ticks."""
    strip = side.view[begin : -pen.line, side.along[1] + pen.inset : side.along[2] - pen.inset]
    if side.side is Side.TOP:
        strip = strip[::-1]  # Upright again: letters are read from the front.
    height, width = strip.shape[:2]
    enlarged = min(round(_LETTERS_MM * per_mm) // LINE_PX, height // LINE_PX)
    if enlarged < 1:
        return [_left_out(f"The text “{text}” is left out: the bare strip has no room for letters.")]
    image = letters(text, enlarged=enlarged)
    notes = []
    if image.shape[1] > width:
        image = image[:, : width // enlarged * enlarged]
        notes.append(_left_out(f"The text “{text}” is longer than the face is wide; its end is left out."))
    top, left = (height - image.shape[0]) // 2, (width - image.shape[1]) // 2
    area = strip[top : top + image.shape[0], left : left + image.shape[1]]
    for channel, value in enumerate(pen.ink):
        area[..., channel][image] = value
    return notes


def _line_of_text(job: Job, date: str) -> tuple[str, list[Note]]:
    size = f"{job.face.width_mm:g} x {job.face.height_mm:g} mm, {job.bars.depth_mm:g} mm deep, {date}"
    wanted = f"{' '.join(job.name.split()) or 'Untitled'}, {size}"
    text = latin_text(wanted)
    if text == wanted:
        return text, []
    return text, [
        _left_out("The marks have Latin letters only; “?” stands for other characters of the name.")
    ]


def _ink(area: U8, pen: _Pen) -> None:
    area[..., : len(pen.ink)] = pen.ink


def _left_out(message: str) -> Note:
    return Note(
        code="marks-left-out",
        severity=Severity.HINT,
        place=Place.BACK,
        message=message,
        remedy="Make the turn-over wider or the bleed smaller, or write on the back by hand.",
        field="wrap.turnover_mm",
    )
