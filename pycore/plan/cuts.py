"""Straight cuts, edge to edge, that part the pieces of one sheet, in the order of cutting.

A set of rectangles comes apart by such cuts exactly where a first cut exists that crosses none of them and
both halves come apart in turn. Which cut is tried first does not matter: what comes apart as a whole comes
apart in every half of it. So the search never goes back.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pycore.plan.result import CutWay, PlannedCut

#: Under any cut: pieces are placed on whole micrometres, so neighbours may stand apart by as much.
_SLIGHT_MM = 0.01


@dataclass(frozen=True, kw_only=True)
class Area:
    """A rectangle on a sheet, mm from the sheet's upper-left corner.

    Attributes
    ----------
    left_mm, top_mm, right_mm, bottom_mm : float
    """

    left_mm: float
    top_mm: float
    right_mm: float
    bottom_mm: float

    @property
    def width_mm(self) -> float:
        """From left to right."""
        return self.right_mm - self.left_mm

    @property
    def height_mm(self) -> float:
        """From top to bottom."""
        return self.bottom_mm - self.top_mm

    def span(self, way: CutWay) -> tuple[float, float]:
        """First and last coordinate at right angles to a cut.

        Parameters
        ----------
        way : CutWay

        Returns
        -------
        tuple of float
            Mm.
        """
        return (self.top_mm, self.bottom_mm) if way is CutWay.ACROSS else (self.left_mm, self.right_mm)

    def within(self, way: CutWay, first_mm: float, last_mm: float) -> Area:
        """The part between two coordinates at right angles to a cut.

        Parameters
        ----------
        way : CutWay
        first_mm, last_mm : float

        Returns
        -------
        Area
        """
        if way is CutWay.ACROSS:
            return Area(left_mm=self.left_mm, right_mm=self.right_mm, top_mm=first_mm, bottom_mm=last_mm)
        return Area(left_mm=first_mm, right_mm=last_mm, top_mm=self.top_mm, bottom_mm=self.bottom_mm)


def cut_apart(sheet: Area, pieces: Sequence[Area], *, knife_mm: float) -> tuple[PlannedCut, ...] | None:
    """Find the cuts that bring every piece to its size.

    Parameters
    ----------
    sheet : Area
    pieces : sequence of Area
        None over another.
    knife_mm : float
        Width that a cut takes.

    Returns
    -------
    tuple of PlannedCut or None
        None where no such cuts exist, or no room for the knife.

    Examples
    --------
    >>> whole = Area(left_mm=0, top_mm=0, right_mm=100, bottom_mm=50)
    >>> halves = [whole.within(CutWay.DOWN, 0, 50), whole.within(CutWay.DOWN, 50, 100)]
    >>> [(cut.way.value, cut.start_mm, cut.end_mm) for cut in cut_apart(whole, halves, knife_mm=0)]
    [('down', (50.0, 0.0), (50.0, 50.0))]
    """
    lines: list[PlannedCut] = []
    # Parts still to be cut, the next one last.
    parts = [(sheet, list(pieces))]
    while parts:
        part, inside = parts.pop()
        if not inside:
            continue
        part = _trimmed(part, inside, knife_mm, lines)
        if len(inside) == 1:
            continue
        found = next((gap for way in _ways(part) if (gap := _gap(way, inside, knife_mm))), None)
        if found is None:
            return None
        way, end_mm, start_mm = found
        first, last = part.span(way)
        # Neighbours share a cut; beyond a wider gap the pieces are trimmed afterwards.
        is_shared = start_mm - end_mm <= knife_mm + _SLIGHT_MM
        at_mm = (end_mm + start_mm) / 2 if is_shared else end_mm + knife_mm / 2
        lines.append(_cut(len(lines) + 1, way, part, at_mm, trims=False))
        before = [one for one in inside if one.span(way)[1] <= end_mm + _SLIGHT_MM]
        after = [one for one in inside if one.span(way)[1] > end_mm + _SLIGHT_MM]
        parts.append((part.within(way, at_mm + knife_mm / 2, last), after))
        parts.append((part.within(way, first, at_mm - knife_mm / 2), before))
    return tuple(lines)


def _ways(part: Area) -> tuple[CutWay, CutWay]:
    """The shorter cut first: it is the easier one to keep straight."""
    if part.width_mm <= part.height_mm:
        return CutWay.ACROSS, CutWay.DOWN
    return CutWay.DOWN, CutWay.ACROSS


def _gap(way: CutWay, inside: list[Area], knife_mm: float) -> tuple[CutWay, float, float] | None:
    """The first place where a cut crosses no piece: end of what lies before it, start of what lies after."""
    spans = sorted(one.span(way) for one in inside)
    end_mm = spans[0][1]
    for start_mm, next_end_mm in spans[1:]:
        if start_mm - end_mm >= knife_mm - _SLIGHT_MM:
            return way, end_mm, start_mm
        end_mm = max(end_mm, next_end_mm)
    return None


def _trimmed(part: Area, inside: list[Area], knife_mm: float, lines: list[PlannedCut]) -> Area:
    """Cut off what no piece of the part needs, and give what is left of it."""
    for way in (CutWay.ACROSS, CutWay.DOWN):
        spans = [one.span(way) for one in inside]
        low, high = min(span[0] for span in spans), max(span[1] for span in spans)
        first, last = part.span(way)
        if low - first > _SLIGHT_MM:
            lines.append(_cut(len(lines) + 1, way, part, low - knife_mm / 2, trims=True))
            first = low
            part = part.within(way, first, last)
        if last - high > _SLIGHT_MM:
            lines.append(_cut(len(lines) + 1, way, part, high + knife_mm / 2, trims=True))
            part = part.within(way, first, high)
    return part


def _cut(number: int, way: CutWay, part: Area, at_mm: float, *, trims: bool) -> PlannedCut:
    if way is CutWay.ACROSS:
        start, end = (part.left_mm, at_mm), (part.right_mm, at_mm)
    else:
        start, end = (at_mm, part.top_mm), (at_mm, part.bottom_mm)
    return PlannedCut(number=number, way=way, start_mm=start, end_mm=end, trims=trims)
