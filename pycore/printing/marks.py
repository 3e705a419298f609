"""Marks for whoever stretches the canvas, never seen and only where the printer can put them.

They stand on the turn-over behind the bars, past the ink.
"""

from __future__ import annotations

import math
import unicodedata
from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

from pycore.contract.job import Job
from pycore.contract.notes import Note, Place, Severity
from pycore.conventions import Side
from pycore.fill.facing import Facing, facing
from pycore.layout.grid import PixelGrid
from pycore.layout.printable import PrintableArea
from pycore.picture.tones import Values
from pycore.printing.lettering import LINE_PX, latin_text, letters
from pycore.printing.pdf.letters import LINE_ABOVE, LINE_BELOW, lettered, width_in_ems
from pycore.speech import mark, say

#: No mark comes nearer to anything that is seen than this.
CLEAR_MM = 3.0
#: A strip narrower than this is left bare.
_NARROWEST_MM = 2.0
#: Outlined letters lower than this, line for line, cannot be read.
_LOWEST_LETTERS_MM = 1.5
#: A line that the unprintable margin leaves shorter than this is left out.
_SHORTEST_MM = 1.5
_LINE_MM, _TICK_MM, _CORNER_MM, _LETTERS_MM = 0.25, 5.0, 5.0, 2.8

FOLD_TICKS, TRIM_CORNERS = mark("fold ticks"), mark("trim corners")

Bits = npt.NDArray[np.bool_]


@dataclass(frozen=True, kw_only=True)
class TextLine:
    """A line of text whose letters are outlines, read from the front.

    Attributes
    ----------
    text : str
    left_px, baseline_px : float
        Where it begins, from the canvas's left and top edge.
    size_px : float
        The letters' em.
    """

    text: str
    left_px: float
    baseline_px: float
    size_px: float


@dataclass(frozen=True, kw_only=True)
class Marks:
    """The marks of one canvas.

    Attributes
    ----------
    places : list of (top, left, (rows, columns) bool)
        Where there is ink: pieces of the canvas by their upper-left pixel. Of lines the piece is all ink.
    notes : list of Note
        What could not be drawn.
    texts : list of TextLine
        Where outlines were asked for: the text, which is then in no piece.
    """

    places: list[tuple[int, int, Bits]]
    notes: list[Note]
    texts: list[TextLine] = field(default_factory=list)

    def draw(self, pixels: Values, first: int, *, is_cmyk: bool) -> None:
        """Draw what falls on some rows of the canvas.

        Parameters
        ----------
        pixels : (rows, columns, channels) uint8 or uint16
            Written in place.
        first : int
            The row of the canvas at which they begin.
        is_cmyk : bool
            Four channels of ink, black the last.
        """
        top_value = np.iinfo(pixels.dtype).max
        ink = (0, 0, 0, top_value) if is_cmyk else (0, 0, 0)[: min(3, pixels.shape[2])]
        for top, left, bits in self.places:
            begin, end = max(top, first), min(top + len(bits), first + len(pixels))
            if begin < end:
                area = pixels[begin - first : end - first, left : left + bits.shape[1]]
                area[bits[begin - top : end - top], : len(ink)] = ink


@dataclass(frozen=True, kw_only=True)
class _Pen:
    """Sizes of the marks in pixels."""

    line: int
    tick: int
    corner: int
    inset: int
    shortest: int


def plan_marks(
    job: Job,
    grid: PixelGrid,
    *,
    printable: PrintableArea,
    date: str,
    panel: str = "",
    outlines: bool = False,
) -> Marks:
    """Place fold ticks, trim corners, the word TOP, and a line of text.

    Fold ticks stand on the line of each front edge (long) and back edge (half as long); trim corners at the
    corners of the canvas; TOP on the turn-over above the face, the text on the one below it. What would lie
    in the sheet's unprintable margins is shortened or left out.

    Parameters
    ----------
    job : Job
        A checked job.
    grid : PixelGrid
    printable : PrintableArea
        What of the canvas the printer reaches, where it lies on the sheet or roll.
    date : str
        For the text.
    panel : str
        Which of a group's panels it is, to stand beside the word TOP: the text's end may lack the room.
    outlines : bool
        The text is set in outlined letters, which a PDF has, rather than in pixels.

    Returns
    -------
    Marks
    """
    per_mm = grid.px_per_mm
    pen = _Pen(
        line=max(1, round(_LINE_MM * per_mm)),
        tick=round(_TICK_MM * per_mm),
        corner=round(_CORNER_MM * per_mm),
        inset=math.ceil(CLEAR_MM * per_mm),
        shortest=max(1, round(_SHORTEST_MM * per_mm)),
    )
    # One bit for each pixel's place: what a mark covers is read off the numbers that fall under it.
    sheet = _Sheet(printable, grid)
    sides = {side: facing(sheet.bare, grid, side) for side in Side}
    begins = {side: max(one.end, one.back + pen.inset) for side, one in sides.items()}
    if min(len(one.view) - begins[side] for side, one in sides.items()) < _NARROWEST_MM * per_mm:
        no_room = _left_out(say("No marks are drawn: the turn-over has no bare strip that is wide enough."))
        return Marks(places=[], notes=[no_room])
    missing = {FOLD_TICKS: 0, TRIM_CORNERS: 0}
    for side, one in sides.items():
        backs = grid.back_columns if side in (Side.TOP, Side.BOTTOM) else grid.back_rows
        missing[FOLD_TICKS] += _ticks(sheet, one, begins[side], backs, pen)
        missing[TRIM_CORNERS] += _corners(sheet, one, pen)
    notes = [_unprintable(job, what, count) for what, count in missing.items() if count]
    letter = _outline if outlines else _letter
    top = say("TOP, {panel}", panel=panel) if panel else say("TOP")
    notes += letter(sheet, sides[Side.TOP], begins[Side.TOP], top, pen, per_mm)
    text, more = _line_of_text(job, date, outlines=outlines)
    notes += more + letter(sheet, sides[Side.BOTTOM], begins[Side.BOTTOM], text, pen, per_mm)
    return Marks(places=sheet.places, notes=notes, texts=sheet.texts)


class _Sheet:
    """The canvas as the marks see it: its size, what of it can be printed, and what is on it so far."""

    def __init__(self, area: PrintableArea, grid: PixelGrid) -> None:
        per_mm = grid.px_per_mm
        # A view of one value, which takes no room, to be turned towards each side.
        self.bare: Values = np.broadcast_to(np.zeros((1, 1, 1), np.uint8), (grid.height_px, grid.width_px, 1))
        self.columns = (math.ceil(area.left_mm * per_mm), _floor(area.right_mm * per_mm, grid.width_px))
        self.rows = (math.ceil(area.top_mm * per_mm), _floor(area.bottom_mm * per_mm, grid.height_px))
        self._size = grid.height_px, grid.width_px
        self.places: list[tuple[int, int, Bits]] = []
        self.texts: list[TextLine] = []

    def printable(self, side: Side) -> tuple[tuple[int, int], tuple[int, int]]:
        """Printable from and to, outwards and along, as `Facing` counts them."""
        upright = side in (Side.TOP, Side.BOTTOM)
        outwards, along = (self.rows, self.columns) if upright else (self.columns, self.rows)
        size = self._size[0 if upright else 1]
        if side in (Side.TOP, Side.LEFT):
            outwards = (size - outwards[1], size - outwards[0])
        return outwards, along

    def put(self, side: Side, out: int, along: int, bits: Bits) -> None:
        """Put ink at a place as `Facing` counts it."""
        size = self._size[0 if side in (Side.TOP, Side.BOTTOM) else 1]
        if side in (Side.TOP, Side.LEFT):
            out, bits = size - out - len(bits), bits[::-1]
        upright = side in (Side.TOP, Side.BOTTOM)
        self.places.append((out, along, bits) if upright else (along, out, bits.T))

    def line(self, side: Side, out: tuple[int, int], along: tuple[int, int], shortest: int) -> bool:
        """Draw what can be printed of a line; False where that is too short, or part of its width is not."""
        (low, high), (first, last) = self.printable(side)
        reach = max(out[0], low), min(out[1], high)
        span = max(along[0], first), min(along[1], last)
        runs_out = out[1] - out[0] >= along[1] - along[0]
        length, width = (reach, span) if runs_out else (span, reach)
        wanted, thick = (out, along) if runs_out else (along, out)
        needed = min(shortest, wanted[1] - wanted[0])
        if width != thick or length[1] - length[0] < max(1, needed):
            return False
        self.put(side, reach[0], span[0], np.ones((reach[1] - reach[0], span[1] - span[0]), np.bool_))
        return True


def _floor(value: float, most: int) -> int:
    # The canvas's own end is rounded to a whole pixel and counts as reached.
    return most if value > most - 1 else math.floor(value)


def _ticks(sheet: _Sheet, side: Facing, begin: int, backs: tuple[int, int], pen: _Pen) -> int:
    """Returns how many could not be drawn."""
    last, missing = len(side.view), 0
    for places, length in ((side.along[1:3], pen.tick), (backs, pen.tick // 2)):
        for place in places:
            start = place - pen.line // 2
            reach = begin, min(begin + length, last)
            missing += not sheet.line(side.side, reach, (start, start + pen.line), pen.shortest)
    return missing


def _corners(sheet: _Sheet, side: Facing, pen: _Pen) -> int:
    """Returns how many arms could not be drawn."""
    size, edge = side.view.shape[1], (len(side.view) - pen.line, len(side.view))
    arms = ((0, pen.corner), (size - pen.corner, size))
    return sum(not sheet.line(side.side, edge, arm, pen.shortest) for arm in arms)


def _room(sheet: _Sheet, side: Facing, begin: int, pen: _Pen) -> tuple[tuple[int, int], tuple[int, int]]:
    """For a line in the middle of a side's strip, between the ticks: outwards and along."""
    (low, high), (first, last) = sheet.printable(side.side)
    out = max(begin, low), min(len(side.view) - pen.line, high)
    return out, (max(side.along[1] + pen.inset, first), min(side.along[2] - pen.inset, last))


def _letter(sheet: _Sheet, side: Facing, begin: int, text: str, pen: _Pen, per_mm: float) -> list[Note]:
    """Write a line in pixels."""
    out, along = _room(sheet, side, begin, pen)
    height, width = out[1] - out[0], along[1] - along[0]
    # A coarse file's letters are higher than meant rather than none, where the strip has the room.
    enlarged = min(max(1, round(_LETTERS_MM * per_mm) // LINE_PX), height // LINE_PX)
    if enlarged < 1 or width < 1:
        return [_no_room(text)]
    image = letters(text, enlarged=enlarged)
    notes = []
    if image.shape[1] > width:
        image = image[:, : width // enlarged * enlarged]
        notes.append(_too_long(text))
    down, right = (height - image.shape[0]) // 2, (width - image.shape[1]) // 2
    if side.side is Side.TOP:
        # Upright again: letters are read from the front, and the strip is counted from the face upwards.
        sheet.put(side.side, out[1] - down - image.shape[0], along[0] + right, image[::-1])
    else:
        sheet.put(side.side, out[0] + down, along[0] + right, image)
    return notes


def _outline(sheet: _Sheet, side: Facing, begin: int, text: str, pen: _Pen, per_mm: float) -> list[Note]:
    """Write a line in outlines, as high as the same line in pixels."""
    out, along = _room(sheet, side, begin, pen)
    height, width = min(out[1] - out[0], _LETTERS_MM * per_mm), along[1] - along[0]
    size = height / (LINE_ABOVE + LINE_BELOW)
    shown, widest = text, width / size if size > 0 else 0.0
    while shown and width_in_ems(shown) > widest:
        shown = shown[:-1]
    if height < _LOWEST_LETTERS_MM * per_mm or not shown:
        return [_no_room(text)]
    # The strip is counted from the face outwards, so above the face its outer end is the upper one.
    top = len(sheet.bare) - out[1] if side.side is Side.TOP else out[0]
    above = (out[1] - out[0] - height) / 2
    sheet.texts.append(
        TextLine(
            text=shown,
            left_px=along[0] + (width - width_in_ems(shown) * size) / 2,
            baseline_px=top + above + LINE_ABOVE * size,
            size_px=size,
        )
    )
    return [] if shown == text else [_too_long(text)]


def _line_of_text(job: Job, date: str, *, outlines: bool) -> tuple[str, list[Note]]:
    size = say(
        "{width_mm:g} x {height_mm:g} mm, {depth_mm:g} mm deep, {date}",
        width_mm=job.face.width_mm,
        height_mm=job.face.height_mm,
        depth_mm=job.bars.depth_mm,
        date=date,
    )
    name = " ".join(job.name.split()) or say("Untitled")
    wanted = f"{name}, {size}"
    if outlines:
        wanted = unicodedata.normalize("NFC", wanted)
    text = lettered(wanted) if outlines else latin_text(wanted)
    if text == wanted:
        return text, []
    if outlines:
        missing = _hint(
            message=say("The marks have Latin, Greek and Cyrillic letters; “?” stands for other characters."),
            remedy=say("Write the name on the back by hand."),
        )
    else:
        missing = _hint(
            message=say("The marks have Latin letters only; “?” stands for other characters of the name."),
            remedy=say(
                "Save a PDF, which has Greek and Cyrillic too, or write the name on the back by hand."
            ),
        )
    return text, [missing]


def _no_room(text: str) -> Note:
    return _left_out(
        say("The text “{words}” is left out: the bare strip has no room for letters.", words=text)
    )


def _too_long(text: str) -> Note:
    return _hint(
        message=say("The text “{words}” is longer than the face is wide; its end is left out.", words=text),
        remedy=say("Give the piece a shorter name, or write on the back by hand."),
    )


def _left_out(message: str) -> Note:
    return _hint(
        message=message,
        remedy=say("Make the turn-over wider or the bleed smaller, or write on the back by hand."),
    )


def _hint(*, message: str, remedy: str) -> Note:
    return Note(
        code="marks-left-out",
        severity=Severity.HINT,
        place=Place.BACK,
        message=message,
        remedy=remedy,
        field="wrap.turnover_mm",
    )


def _unprintable(job: Job, what: str, count: int) -> Note:
    of_all = {FOLD_TICKS: 16, TRIM_CORNERS: 8}[what]
    some = say("No") if count == of_all else say("Not all")
    is_roll = job.sheet.height_mm is None
    return Note(
        code="marks-unprintable",
        severity=Severity.HINT,
        place=Place.SHEET,
        message=say(
            "{some} {what} are drawn: where the canvas lies on the {loaded} they would fall into "
            "the margin that the printer cannot print.",
            some=some,
            what=say(what),
            loaded="roll" if is_roll else "sheet",
        ),
        # What lies at a roll's ends is in the margin however wide the roll is.
        remedy=say(
            "A roll is cut where the canvas ends. For its long edges load a wider roll, or measure from the "
            "fold lines and mark the canvas by hand."
        )
        if is_roll
        else say("Load a larger sheet, or measure from the fold lines and mark the canvas by hand."),
        field="sheet.margin_mm",
    )
