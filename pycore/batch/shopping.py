"""One shopping list of bars, braces and staples for many pieces."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

from pycore.bars.report import BarsReport
from pycore.bars.timber import WOOD_NAMES
from pycore.contract.job import Job, Wood
from pycore.contract.record import Record
from pycore.speech import say
from pycore.tasks.bars import order_bars


class Wanted(Record):
    """So many lengths of wood of one section."""

    part: str
    """bar: both ends mitred 45 degrees; brace: cut to the opening."""
    width_mm: float
    depth_mm: float
    wood: str
    """As the jobs say; unknown where they do not."""
    length_mm: float
    """A bar's outer side."""
    count: int
    pieces: list[str]
    """The names of the pieces that need it."""


class ShoppingList(Record):
    """The wood and staples of all pieces together."""

    wanted: list[Wanted]
    """By part and section, the longest first."""
    staples: int
    pieces: int

    def lines(self) -> list[str]:
        """The list in words.

        Returns
        -------
        list of str
        """
        return [
            say(
                "{count} {part}{words} of {length_mm:g} mm, {width_mm:g} x {depth_mm:g} mm{words2}",
                count=one.count,
                part=one.part,
                words="" if one.count == 1 else "s",
                length_mm=one.length_mm,
                width_mm=one.width_mm,
                depth_mm=one.depth_mm,
                words2="" if one.wood == Wood.UNKNOWN.value else f", {say(WOOD_NAMES[Wood(one.wood)])}",
            )
            for one in self.wanted
        ] + [say("{staples} staples", staples=self.staples)]

    def csv_bytes(self) -> bytes:
        """The list as comma-separated values, one row a length.

        Returns
        -------
        bytes
            UTF-8.
        """
        out = io.StringIO(newline="")
        rows = csv.writer(out)
        rows.writerow(["part", "width_mm", "depth_mm", "wood", "length_mm", "count", "pieces"])
        for one in self.wanted:
            size = [f"{one.width_mm:g}", f"{one.depth_mm:g}"]
            rows.writerow([one.part, *size, one.wood, f"{one.length_mm:g}", one.count, " ".join(one.pieces)])
        rows.writerow(["staple", "", "", "", "", self.staples, ""])
        return out.getvalue().encode()


def shopping_list(jobs: Sequence[tuple[str, Job]]) -> ShoppingList:
    """Add up what every piece needs.

    Parameters
    ----------
    jobs : sequence of (str, Job)
        Each piece's name and its checked job.

    Returns
    -------
    ShoppingList

    Raises
    ------
    GeometryError
        The corners of a piece cannot be folded at its sizes.

    Examples
    --------
    >>> shopping_list([("a", Job()), ("b", Job())]).lines()
    ['4 bars of 300 mm, 40 x 20 mm', '4 bars of 200 mm, 40 x 20 mm', '40 staples']
    """
    counts: dict[tuple[str, float, float, str, float], tuple[int, list[str]]] = {}
    staples = 0
    for name, job in jobs:
        report = order_bars(job)
        staples += report.staples
        for part, (width, depth), length, count in _lengths(report):
            key = (part, width, depth, job.bars.wood.value, length)
            before, pieces = counts.get(key, (0, []))
            counts[key] = before + count, [*pieces, name]
    ordered = sorted(counts, key=lambda key: (*key[:4], -key[4]))
    wanted = [
        Wanted(
            part=key[0],
            width_mm=key[1],
            depth_mm=key[2],
            wood=key[3],
            length_mm=key[4],
            count=counts[key][0],
            pieces=counts[key][1],
        )
        for key in ordered
    ]
    return ShoppingList(wanted=wanted, staples=staples, pieces=len(jobs))


def _lengths(report: BarsReport) -> list[tuple[str, tuple[float, float], float, int]]:
    bars = [("bar", report.section_mm, one.length_mm, one.count) for one in report.bars]
    return bars + [("brace", report.brace_section_mm, one.length_mm, one.count) for one in report.braces]
