"""The glossary's drawings of the canvas, its bars, its sheet and its picture."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import numpy as np

from guidebook import svg
from guidebook.finishes import DEPTH_MM, SHOWN_MM, flat_drawing, shown_spec
from guidebook.scene import drawn
from pycore.contract.check import check_job
from pycore.contract.job import Corners, Finish
from pycore.fold.kinds import Kind
from pycore.fold.scene import BACK, BENCH, WALL, Floats, Look, View, box_of, scene, seen_points
from pycore.fold.spec import FoldSpec
from pycore.fold.stages import stages_of
from pycore.fold.steps import seam
from pycore.layout.report import layout_report

#: Exaggerated, so that it is seen in a small drawing.
SETBACK_MM: Final = 3.0

_SIDES: Final = frozenset({Kind.UNDER_SIDE, Kind.OVER_SIDE})
_TURNOVERS: Final = frozenset({Kind.UNDER_TURNOVER, Kind.OVER_TURNOVER})
_GUSSET: Final = frozenset({Kind.GUSSET_UNDER, Kind.GUSSET_OVER})


def word_drawings() -> Iterator[tuple[str, str]]:
    """Every drawing: the glossary's word and the file's text."""
    tucked = shown_spec(Finish.TUCKED)
    plain = shown_spec(Finish.TUCKED, corners=Corners.CUT_BACK)
    trimmed = shown_spec(Finish.TRIMMED)
    yield "face", _corner(tucked, WALL, Look(lit=frozenset({Kind.FACE})))
    yield "side", _corner(tucked, WALL, Look(lit=_SIDES))
    yield "front-edge", _corner(tucked, WALL, Look(), bold=_round_the_corner(tucked, 0.0))
    yield "back-edge", _corner(tucked, BENCH, Look(), bold=_round_the_corner(tucked, -DEPTH_MM))
    yield "turn-over", _corner(plain, BACK, Look(lit=_TURNOVERS))
    yield "bleed", _corner(plain, BACK, Look(lit=_TURNOVERS, lit_where=_inked))
    yield "bar-depth", _depth(tucked)
    yield "folded-corner", _corner(tucked, BENCH, Look(lit=_GUSSET), at=_within(tucked, "tuck", 0.62))
    yield "tucked", _corner(tucked, BENCH, Look(lit=_GUSSET), at=_within(tucked, "tuck", 0.85))
    yield "lapped", _corner(shown_spec(Finish.LAPPED), WALL, Look(lit=frozenset({Kind.GUSSET_UNDER})))
    yield "trimmed", flat_drawing(trimmed)
    yield "tab", _corner(trimmed, BENCH, Look(lit=frozenset({Kind.TAB})), at=_within(trimmed, "over", 0.25))
    yield "setback", _setback()
    yield "cut-back", flat_drawing(plain)
    yield "margin", _sheet(lit="margin")
    yield "slack", _sheet(lit="slack")
    yield "crop", _crop()
    yield "thickness", _section()
    yield "give", _give()
    yield "ppi", _pixels()


def _inked(local: Floats) -> bool:
    return bool(local.max() <= DEPTH_MM + Look().ink_over_mm)


def _within(spec: FoldSpec, name: str, share: float) -> float:
    stage = next(one for one in stages_of(spec) if one.name == name)
    return stage.start + share * (stage.end - stage.start)


def _corner(spec: FoldSpec, view: View, look: Look, *, at: float = 1.0, bold: Floats | None = None) -> str:
    polygons = scene(spec, at, view, look)
    parts = drawn(polygons)
    if bold is not None:
        parts.append(svg.line(seen_points(bold, view), "bold"))
    return svg.drawing(parts, box_of(polygons))


def _round_the_corner(spec: FoldSpec, z: float) -> Floats:
    """Along the edge of the top bar, round the corner, down that of the right one."""
    w, h, far = spec.width_mm, spec.height_mm, SHOWN_MM
    return np.array([[w - far, h, z], [w, h, z], [w, h - far, z]])


def _depth(spec: FoldSpec) -> str:
    polygons = scene(spec, 1.0, WALL, Look())
    w, d = spec.width_mm, spec.depth_mm
    low = spec.height_mm - SHOWN_MM
    beside = seen_points(np.array([[w + 7, low, 0.0], [w + 7, low, -d]]), WALL)
    parts = [*drawn(polygons), svg.measure(beside[0].tolist(), beside[1].tolist())]
    return svg.drawing(parts, box_of(polygons, extra=[beside]))


def _setback() -> str:
    spec = shown_spec(Finish.TUCKED, corners=Corners.CUT_BACK, setback_mm=SETBACK_MM)
    polygons = scene(spec, 1.0, WALL, Look(lit=frozenset({Kind.GUSSET_UNDER})))
    parts = [*drawn(polygons), svg.line(seen_points(seam(spec), WALL), "line")]
    # Near enough for the sliver to be seen.
    x, y = seen_points(np.array([[spec.width_mm, spec.height_mm, 0.0]]), WALL)[0]
    return svg.drawing(parts, (float(x) - 42, float(y) - 30, 66, 56))


def _sheet(*, lit: str) -> str:
    """The canvas of a new job on its sheet, to scale, in quarters of a mm a unit."""
    sheet_mm = {"width_mm": 329, "height_mm": 483, "margin_mm": [12, 12, 12, 12]}
    job = check_job({"face": {"width_mm": 260, "height_mm": 140}, "sheet": sheet_mm})
    layout = layout_report(job)
    scale = 0.25
    wide, high = job.sheet.width_mm * scale, (job.sheet.height_mm or 483) * scale
    top, right, bottom, left = (one * scale for one in job.sheet.margin_mm)
    across, down = layout.flat.canvas_mm[::-1] if layout.sheet.turned else layout.flat.canvas_mm
    x, y = (one * scale for one in layout.sheet.position_mm)
    canvas = svg.rectangle(x, y, across * scale, down * scale)
    sheet = svg.rectangle(0, 0, wide, high)
    inner = svg.rectangle(left, top, wide - left - right, high - top - bottom)
    parts = [svg.area(sheet, "lit" if lit == "margin" else "sheet")]
    parts += [svg.area(inner, "sheet"), svg.line(inner, "crease", closed=True)]
    parts += [svg.area(canvas, "print"), svg.line(canvas, "edge", closed=True)]
    parts.append(svg.line(sheet, "edge", closed=True))
    if lit == "slack":
        foot, end = y + down * scale, x + across * scale
        parts.append(svg.measure((wide / 2, foot), (wide / 2, high)))
        parts.append(svg.measure((end, high / 2), (wide, high / 2)))
    return svg.drawing(parts, (-4, -4, wide + 8, high + 8))


def _crop() -> str:
    """The window that a new job takes of a picture of 3 to 2.5."""
    job = check_job({})
    layout = layout_report(job, picture_px=(3000, 2500))
    assert layout.use is not None
    x, y, wide, high = layout.use.crop
    size = np.array([120.0, 100.0])
    picture = svg.rectangle(0, 0, *size)
    window = svg.rectangle(x * size[0], y * size[1], wide * size[0], high * size[1])
    hills = np.array([[0, 100], [0, 70], [28, 44], [52, 68], [84, 36], [120, 66], [120, 100]], float)
    parts = [svg.area(picture, "ground"), svg.area(hills, "print"), svg.line(picture, "edge", closed=True)]
    parts.append(svg.line(window, "bold", closed=True))
    return svg.drawing(parts, (-4, -4, 128, 108))


def _section() -> str:
    """A cut through the piece: the canvas, drawn thick, makes it wider than its bars by two thicknesses."""
    thick, deep, wide = 5.0, 34.0, 110.0
    left, right = svg.rectangle(thick, 6, 30, deep), svg.rectangle(thick + wide - 30, 6, 30, deep)
    low, full, foot = 6 + deep, wide + 2 * thick, 28
    outer = np.array(
        [
            *[(foot, low + thick), (0, low + thick), (0, 6 - thick), (full, 6 - thick), (full, low + thick)],
            *[(full - foot, low + thick), (full - foot, low), (wide + thick, low), (wide + thick, 6)],
            *[(thick, 6), (thick, low), (foot, low)],
        ],
        float,
    )
    parts = [svg.area(left, "wood"), svg.area(right, "wood", shade=1)]
    parts += [svg.line(left, "edge", closed=True), svg.line(right, "edge", closed=True)]
    parts += [svg.area(outer, "lit"), svg.line(outer, "edge", closed=True)]
    under = low + thick + 8
    parts.append(svg.measure((thick, under), (thick + wide, under)))
    parts.append(svg.label("wood", full / 2, under + 12, size=9))
    parts.append(svg.measure((0, under + 20), (full, under + 20)))
    parts.append(svg.label("printed face", full / 2, under + 32, size=9))
    return svg.drawing(parts, (-4, -3, full + 8, under + 40))


def _give() -> str:
    """A ruled strip at rest and pulled: the same marks, further apart; 6 percent, so that it shows."""
    length, pulled = 120.0, 1.06
    parts = []
    for row, factor in ((0.0, 1.0), (44.0, pulled)):
        start = (length * pulled - length * factor) / 2
        strip = svg.rectangle(start, row, length * factor, 18)
        marks = [start + length * factor * share for share in (0.1, 0.9)]
        parts += [svg.area(strip, "bare"), svg.line(strip, "edge", closed=True)]
        parts += [svg.line(np.array([[x, row], [x, row + 18]]), "bold") for x in marks]
        parts.append(svg.measure((marks[0], row + 26), (marks[1], row + 26)))
    parts.append(svg.arrow(np.array([[2.0, 53.0], [-14.0, 53.0]])))
    parts.append(svg.arrow(np.array([[length * pulled - 2, 53.0], [length * pulled + 14, 53.0]])))
    return svg.drawing(parts, (-18, -4, length * pulled + 36, 82))


def _pixels() -> str:
    """An inch with few pixels and with many."""
    parts = []
    for left, count in ((0.0, 5), (66.0, 15)):
        cell = 54 / count
        for row in range(count):
            for column in range(count):
                across, down = (column + 0.5) / count - 0.5, (row + 0.5) / count - 0.5
                inside = across**2 + down**2 < 0.17
                square = svg.rectangle(left + column * cell, row * cell, cell, cell)
                parts.append(svg.area(square, "print" if inside else "sheet"))
        parts.append(svg.line(svg.rectangle(left, 0, 54, 54), "edge", closed=True))
        parts.append(svg.measure((left, 62), (left + 54, 62)))
        parts.append(svg.label(f"1 inch, {count} pixels", left + 27, 74, size=7))
    return svg.drawing(parts, (-4, -4, 128, 86))
