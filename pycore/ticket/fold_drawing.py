"""The fold drawn from its own geometry: the flat corner with its lengths, each stage, the finished corner."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.contract.job import Job, OverPair
from pycore.fold.arrow import arrow_parts
from pycore.fold.flat_corner import corner_parts, cut_path
from pycore.fold.kinds import Kind
from pycore.fold.scene import (
    BACK,
    BENCH,
    WALL,
    Floats,
    Look,
    Polygon,
    View,
    box_of,
    moved,
    scene,
    seen_points,
)
from pycore.fold.spec import FoldSpec
from pycore.fold.stages import FoldStage
from pycore.fold.steps import seam, step_of
from pycore.speech import say
from pycore.ticket.lines import width_mm
from pycore.ticket.paper import ACCENT, BARE, GROUND, INK, PRINT, SOFT, WOOD, Rgb, TicketPages
from pycore.ticket.words import exact

#: What is painted how, and how much of the shadow a step of shade takes.
_PAINTS: Final = {"print": PRINT, "lit": ACCENT, "bare": BARE, "wood": WOOD}
_SHADOW: Final[Rgb] = (74, 59, 44)
_STEP: Final = 0.11

#: The head of an arrow, as long.
_HEAD_MM: Final = 1.7

_LABEL_PT: Final = 6.5
#: Letters smaller than this are left out; and how far a word stays off the lines beside it.
_SMALLEST_LABEL_PT: Final = 4.0
_LABEL_CLEAR_MM: Final = 0.4


@dataclass(frozen=True, kw_only=True)
class Drawing:
    """Polygons and lines of a drawing, in its own plane: right and down.

    Attributes
    ----------
    polygons : list of Polygon
        The furthest first.
    ways : list of (n, 2) float64
        Ways that end in an arrow.
    bold : list of (n, 2) float64
    box : (4,) float64
        x, y, width and height of all of it.
    """

    polygons: list[Polygon]
    ways: list[Floats]
    bold: list[Floats]
    box: Floats


def stage_drawing(job: Job, spec: FoldSpec, stage: FoldStage) -> Drawing:
    """A stage on the bench, the corner towards the reader.

    Parameters
    ----------
    job : Job
    spec : FoldSpec
        Its fold.
    stage : FoldStage

    Returns
    -------
    Drawing
    """
    look = _look(job, spec)
    step = step_of(stage.name, spec, shown_mm=look.shown_mm)
    at = stage.start + step.share * (stage.end - stage.start)
    moments = np.linspace(stage.start, stage.end, 13).tolist()
    view = BACK if stage.hidden else BENCH
    ways = [moved(spec, kind, place, moments, view) for kind, place in step.ways]
    lit = Look(
        ink_over_mm=look.ink_over_mm,
        lit=frozenset(step.lit),
        shown_mm=look.shown_mm,
        bar_mm=look.bar_mm,
    )
    return _drawing(spec, at, view, lit, ways=ways)


def folded_drawing(job: Job, spec: FoldSpec, *, back: bool = False) -> Drawing:
    """The finished corner; from the front with the line on which the canvas meets.

    Parameters
    ----------
    job : Job
    spec : FoldSpec
        Its fold.
    back : bool
        From the back.

    Returns
    -------
    Drawing
    """
    view = BACK if back else WALL
    return _drawing(spec, 1.0, view, _look(job, spec), bold=[] if back else [seen_points(seam(spec), view)])


def draw_in(pages: TicketPages, drawing: Drawing, x: float, y: float, wide: float, high: float) -> None:
    """Draw into a box of the page, as large as fits, in its middle.

    Parameters
    ----------
    pages : TicketPages
    drawing : Drawing
    x, y, wide, high : float
        mm.
    """
    scale = min(wide / drawing.box[2], high / drawing.box[3])
    shift = np.array([x + (wide - drawing.box[2] * scale) / 2, y + (high - drawing.box[3] * scale) / 2])

    def placed(points: Floats) -> Floats:
        found: Floats = (points - drawing.box[:2]) * scale + shift
        return found

    for one in drawing.polygons:
        flat = placed(one.seen[:, :2])
        pages.area(flat, fill=_shaded(_PAINTS[one.paint], one.shade), outline=0.12)
        count = len(flat)
        for at in range(count):
            if at not in one.open_edges:
                pages.line(np.array([flat[at], flat[(at + 1) % count]]), width=0.12)
    for line in drawing.bold:
        pages.line(placed(line), colour=ACCENT, width=0.5)
    for way in drawing.ways:
        draw_arrow(pages, placed(way))


def draw_arrow(pages: TicketPages, points: Floats) -> None:
    """Draw a line with a filled head at its end.

    Parameters
    ----------
    pages : TicketPages
    points : (n, 2) float64
        mm on the page; two or more.
    """
    line, tip = arrow_parts(points, _HEAD_MM)
    pages.line(line, width=0.35)
    pages.area(tip, fill=INK)


def draw_flat_corner(pages: TicketPages, spec: FoldSpec, x: float, y: float, side: float) -> None:
    """Draw a corner of the flat canvas from its back, with its creases, cuts and lengths.

    Parameters
    ----------
    pages : TicketPages
    spec : FoldSpec
    x, y : float
        The drawing's upper-left corner, mm.
    side : float
        Its height, mm; with the lengths it is 9 mm wider.
    """
    d, r, reach = spec.depth_mm, spec.turnover_mm, spec.reach_mm
    face = min(reach, min(spec.width_mm, spec.height_mm) / 2)
    scale = side / (face + reach)

    def at(left: float, up: float) -> tuple[float, float]:
        return x + 9.0 + (reach - left) * scale, y + (reach - up) * scale

    def placed(local: Floats) -> Floats:
        # Seen from the back: what lies to the right lies to the left.
        left, up = (0, 1) if spec.over is OverPair.TOP_BOTTOM else (1, 0)
        return np.array([at(one[left], one[up]) for one in local])

    def word(said: str, left: float, up: float, *, wide: float, colour: Rgb = SOFT) -> None:
        # A word stays within its part of the drawing: smaller letters, or none where nobody could read them.
        middle, room = at(left, up), wide * scale - 2 * _LABEL_CLEAR_MM
        size = _LABEL_PT * min(1.0, room / width_mm(said, _LABEL_PT))
        if size >= _SMALLEST_LABEL_PT:
            pages.text(middle[0], middle[1] + 0.8, said, size_pt=size, colour=colour, align="middle")

    square = np.array([[-face, -face], [reach, -face], [reach, reach], [-face, reach]])
    pages.area(placed(square), fill=GROUND)
    parts = corner_parts(spec, face)
    for kind, part in parts:
        pages.area(placed(part), fill=(ACCENT if kind is Kind.TAB else BARE), outline=0.1)
    for _, part in parts:
        pages.line(placed(np.vstack([part, part[:1]])), colour=SOFT, width=0.15, dashes=(1.0, 0.7))
    if not spec.whole:
        pages.line(placed(cut_path(spec)), colour=ACCENT, width=0.45)
    outline = np.array([[-face, reach], [reach, reach], [reach, -face]])
    pages.line(placed(outline), width=0.2)
    # The lengths stand left of the drawing: from the trimmed edge to the back edge, and on to the front edge.
    for top, bottom, length in ((reach, d, r), (d, 0.0, d)):
        _measure(pages, x + 6.6, at(0, top)[1], at(0, bottom)[1], exact(length))
    word(say("face"), -face * 0.5, -face * 0.5, wide=face)
    if d * scale > 3:
        word(say("side"), -face * 0.5, d / 2, wide=face)
    if r * scale > 3:
        word(say("turn-over"), -face * 0.5, d + r / 2, wide=face)
        if not spec.whole:
            word(say("cut off"), reach / 2, d + r / 2, wide=reach, colour=INK)


def _measure(pages: TicketPages, x: float, top: float, bottom: float, text: str) -> None:
    if bottom - top < 0.5:
        return
    pages.line([(x, top), (x, bottom)], width=0.2)
    for y in (top, bottom):
        pages.line([(x - 0.8, y), (x + 0.8, y)], width=0.2)
    pages.text(x - 1.3, (top + bottom) / 2 + 0.8, text, size_pt=_LABEL_PT, align="right")


def _look(job: Job, spec: FoldSpec) -> Look:
    shortest = min(spec.width_mm, spec.height_mm)
    return Look(
        ink_over_mm=job.wrap.ink_over_mm,
        shown_mm=min(1.6 * spec.reach_mm, shortest / 2),
        bar_mm=min(0.75 * spec.reach_mm, shortest / 4),
    )


def _drawing(
    spec: FoldSpec,
    at: float,
    view: View,
    look: Look,
    *,
    ways: Sequence[Floats] = (),
    bold: Sequence[Floats] = (),
) -> Drawing:
    polygons = scene(spec, at, view, look)
    return Drawing(
        polygons=polygons,
        ways=list(ways),
        bold=list(bold),
        box=box_of(polygons, extra=ways, margin=0.02 * look.shown_mm),
    )


def _shaded(paint: Rgb, steps: int) -> Rgb:
    red, green, blue = (
        round(one + (other - one) * steps * _STEP) for one, other in zip(paint, _SHADOW, strict=True)
    )
    return red, green, blue
