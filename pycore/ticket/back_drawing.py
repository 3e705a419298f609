"""The back of a panel, to scale: bars and braces, the order of the staples, rings, wire and hooks."""

from __future__ import annotations

from typing import Final

from pycore.bars.frame import Frame, staple_count, staples_clear_mm
from pycore.bars.hanging import Hanging
from pycore.contract.job import Finish, Job, OverPair
from pycore.ticket.paper import ACCENT, BARE, INK, SOFT, WOOD, TicketPages
from pycore.ticket.pieces import Piece

_LABEL_PT: Final = 6.5

#: How far the staples' numbers stand off the panel, mm.
_OUTSIDE_MM: Final = 3.4
#: A side that is drawn shorter has room for the number of its middle alone.
_SHORT_MM: Final = 30.0


def back_drawing(job: Job, frame: Frame, hanging: Hanging, *, width_mm: float, most_mm: float) -> Piece:
    """Draw the back.

    Parameters
    ----------
    job : Job
        A checked job.
    frame : Frame
        Its bars and braces.
    hanging : Hanging
        What it hangs by.
    width_mm : float
        Of the drawing.
    most_mm : float
        Its height at most.

    Returns
    -------
    Piece
    """
    room = 2 * _OUTSIDE_MM
    scale = min((width_mm - room) / frame.width_mm, (most_mm - room) / frame.height_mm)
    wide, high = frame.width_mm * scale, frame.height_mm * scale

    def draw(pages: TicketPages, x: float, y: float) -> None:
        left, top = x + (width_mm - wide) / 2, y + _OUTSIDE_MM
        _draw_frame(pages, job, frame, left, top, scale)
        if staple_count(job):
            _draw_order(pages, job, left, top, wide, high)
        _draw_hanging(pages, hanging, left + wide / 2, top, scale)

    return Piece(height_mm=high + room, draw=draw)


def _draw_frame(pages: TicketPages, job: Job, frame: Frame, left: float, top: float, scale: float) -> None:
    wide, high, bar = (one * scale for one in (frame.width_mm, frame.height_mm, frame.bar_width_mm))
    pages.box(left, top, wide, high, fill=WOOD)
    # Inside the bars the back of the canvas is seen; braces lie over it.
    pages.box(left + bar, top + bar, wide - 2 * bar, high - 2 * bar, fill=BARE)
    brace = frame.brace_width_mm * scale
    inner_wide, inner_high = wide - 2 * bar, high - 2 * bar
    for number in range(frame.upright_braces):
        middle = left + wide * (number + 1) / (frame.upright_braces + 1)
        pages.box(middle - brace / 2, top + bar, brace, inner_high, fill=WOOD, colour=SOFT, width=0.12)
    for number in range(frame.lying_braces):
        middle = top + high * (number + 1) / (frame.lying_braces + 1)
        pages.box(left + bar, middle - brace / 2, inner_wide, brace, fill=WOOD, colour=SOFT, width=0.12)
    pages.box(left + bar, top + bar, inner_wide, inner_high, colour=SOFT, width=0.15)
    turned = min(job.wrap.turnover_mm, frame.bar_width_mm) * scale
    for place, size in (
        ((left, top), (wide, turned)),
        ((left, top + high - turned), (wide, turned)),
        ((left, top), (turned, high)),
        ((left + wide - turned, top), (turned, high)),
    ):
        pages.box(*place, *size, fill=BARE)
    pages.box(left + turned, top + turned, wide - 2 * turned, high - 2 * turned, colour=SOFT, width=0.12)
    for across, down in ((0, 0), (1, 0), (1, 1), (0, 1)):
        start = (left + across * wide, top + down * high)
        end = (start[0] + (1 - 2 * across) * turned, start[1] + (1 - 2 * down) * turned)
        pages.line([start, end], colour=SOFT, width=0.12)
    pages.box(left, top, wide, high, colour=INK, width=0.25)


def _draw_order(pages: TicketPages, job: Job, left: float, top: float, wide: float, high: float) -> None:
    """The order of the staples: the middles, then outwards on both hands, the corners last, one in each.

    The sides that are folded first come first; sides whose folded corners reach the middle have one staple,
    after the others.
    """
    right, bottom = left + wide + 1.6, top + high + 2.7
    level, upright = (job.face.width_mm, wide, True), (job.face.height_mm, high, False)
    sides = [level, upright] if _goes_first(job, OverPair.TOP_BOTTOM) else [upright, level]
    late = [pair for pair in sides if pair[0] < 2 * staples_clear_mm(job)]
    early = [pair for pair in sides if pair not in late]
    middles, outer = [0.5], [0.25, 0.75]
    order = [(pair, middles) for pair in early]
    order += [(pair, outer) for pair in early if pair[1] > _SHORT_MM]
    order += [(pair, middles) for pair in late]
    number = 1
    for (_, length, is_level), shares in order:
        for across in (top - 1.0, bottom) if is_level else (left - 1.6, right):
            for share in shares:
                along = share * length
                place = (left + along, across) if is_level else (across, top + along + 0.8)
                _number(pages, *place, number)
            number += 1
    for x in (left - 1.0, left + wide + 1.0):
        for baseline in (top - 1.0, bottom):
            _number(pages, x, baseline, number)


def _goes_first(job: Job, pair: OverPair) -> bool:
    """Whether a pair of sides is folded before the other: lapped the pair over, else the pair under."""
    return (job.wrap.over is pair) == (job.wrap.finish is Finish.LAPPED)


def _number(pages: TicketPages, x: float, baseline: float, number: int) -> None:
    pages.text(x, baseline, str(number), size_pt=_LABEL_PT, colour=ACCENT, align="middle")


def _draw_hanging(pages: TicketPages, on: Hanging, middle: float, top: float, scale: float) -> None:
    rings = [(middle + x * scale, top + y * scale) for x, y in on.rings_mm]
    hooks = [(middle + x * scale, top + y * scale) for x, y in on.hooks_mm]
    if on.wire is not None:
        pages.line([rings[0], *hooks, rings[1]], width=0.35)
    for x, y in rings:
        pages.box(x - 0.8, y - 0.8, 1.6, 1.6, fill=INK)
    for x, y in hooks:
        pages.area([(x, y - 1.6), (x - 1.1, y + 0.3), (x + 1.1, y + 0.3)], fill=ACCENT)
