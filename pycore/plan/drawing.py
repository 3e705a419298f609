"""A plan as a drawing to scale (SVG): sheets one below the other, pieces with their names, numbered cuts."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from pycore.plan.result import CutWay, PlacedPiece, Plan, PlannedCut, PlannedSheet
from pycore.speech import say

#: Between two sheets, and for the line of text above each.
_SPACE_MM = 60.0


def plan_svg(plan: Plan) -> str:
    """Draw a plan, a millimetre of canvas a millimetre of the drawing.

    Parameters
    ----------
    plan : Plan

    Returns
    -------
    str
        An SVG document.
    """
    wide_mm = max(sheet.width_mm for sheet in plan.sheets) + 2 * _SPACE_MM
    high_mm = sum(sheet.height_mm + 2 * _SPACE_MM for sheet in plan.sheets)
    parts, top_mm = [], _SPACE_MM
    for sheet in plan.sheets:
        parts.append(f'<g transform="translate({_SPACE_MM:g} {_short(top_mm)})">{_sheet(sheet)}</g>')
        top_mm += sheet.height_mm + 2 * _SPACE_MM
    body = "\n".join(parts)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_short(wide_mm)}mm" height="{_short(high_mm)}mm" '
        f'viewBox="0 0 {_short(wide_mm)} {_short(high_mm)}" font-family="sans-serif" fill="none">\n'
        f'<rect width="100%" height="100%" fill="#fff"/>\n{body}\n</svg>\n'
    )


def _sheet(sheet: PlannedSheet) -> str:
    kind = "length" if sheet.is_roll else "sheet"
    title = say(
        "{kind} {number}: {stock}, {width_mm:g} x {height_mm:.1f} mm",
        kind=kind,
        number=sheet.number,
        stock=sheet.stock,
        width_mm=sheet.width_mm,
        height_mm=sheet.height_mm,
    )
    top, right, bottom, left = sheet.margin_mm
    inside = _rectangle(left, top, sheet.width_mm - left - right, sheet.height_mm - top - bottom)
    return "\n".join(
        [
            _text(0, -14, 28, title, anchor="start"),
            f'<rect {_rectangle(0, 0, sheet.width_mm, sheet.height_mm)} fill="#f4f1ea" stroke="#444"/>',
            f'<rect {inside} stroke="#aaa" stroke-dasharray="4 4"/>',
            *(_piece(piece) for piece in sheet.pieces),
            *(line for cut in sheet.cuts for line in _cut(cut)),
        ]
    )


def _piece(piece: PlacedPiece) -> str:
    middle = piece.x_mm + piece.width_mm / 2, piece.y_mm + piece.height_mm / 2
    size = say(
        "{width_mm:.1f} x {height_mm:.1f}{turned}",
        width_mm=piece.width_mm,
        height_mm=piece.height_mm,
        turned=say(" turned") if piece.turned else "",
    )
    # About 0.55 of the letters' height a letter.
    high = min(24.0, piece.height_mm / 5, piece.width_mm / (0.55 * max(len(piece.name), len(size))))
    outline = "#a33" if piece.pinned else "#555"
    return (
        f'<rect {_rectangle(piece.x_mm, piece.y_mm, piece.width_mm, piece.height_mm)} fill="#dfe7ee" '
        f'stroke="{outline}"/>'
        + _text(middle[0], middle[1] - 0.2 * high, high, piece.name)
        + _text(middle[0], middle[1] + 1.1 * high, high, size)
    )


def _cut(cut: PlannedCut) -> Iterator[str]:
    (x, y), (to_x, to_y) = cut.start_mm, cut.end_mm
    yield (
        f'<path d="M{_short(x)} {_short(y)}L{_short(to_x)} {_short(to_y)}" stroke="#b40" stroke-width="2" '
        f'stroke-dasharray="12 6"/>'
    )
    # Where pieces part the number stands at the cut's beginning, where waste comes off at its end.
    is_across = cut.way is CutWay.ACROSS
    near_x, near_y = (to_x - 28 * is_across, to_y - 28 * (not is_across)) if cut.trims else (x, y)
    yield _text(near_x + 14, near_y + 20, 18, str(cut.number), fill="#b40")


def _text(x: float, y: float, high: float, words: str, *, anchor: str = "middle", fill: str = "#222") -> str:
    return (
        f'<text x="{_short(x)}" y="{_short(y)}" font-size="{_short(high)}" text-anchor="{anchor}" '
        f'fill="{fill}">{escape(words)}</text>'
    )


def _rectangle(x: float, y: float, wide: float, high: float) -> str:
    return f'x="{_short(x)}" y="{_short(y)}" width="{_short(wide)}" height="{_short(high)}"'


def _short(length_mm: float) -> str:
    return f"{length_mm:.3f}".rstrip("0").rstrip(".")
