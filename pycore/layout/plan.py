"""All canvases of a group on the loaded sheets or roll.

Equal canvases lie in rows and columns, all of them the same way round; neighbours share one cut. For one
orientation this is exact: canvases that all lie the same way on a rectangle never number more than the
columns that fit across times the rows that fit along. Both orientations are tried. A mixture of the two on
one sheet, which may now and then hold one more, is not.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from pycore.contract.job import Job
from pycore.contract.record import Pair, Record
from pycore.conventions import EQUAL_MM
from pycore.layout.flat import flat_sizes
from pycore.layout.sheet import Axis, fit_sheet, sheet_axes


class PlannedCanvas(Record):
    """One panel's canvas on its sheet."""

    panel: int
    """From 1."""
    position_mm: Pair
    """Its upper-left corner, from the sheet's upper-left corner."""


class SheetPlan(Record):
    """All canvases of a group on as few sheets, or as little of the roll, as rows and columns allow.

    Exact for canvases that all lie the same way round; both orientations are tried.
    """

    sheets: tuple[tuple[PlannedCanvas, ...], ...]
    """The canvases of each sheet; of a roll, of the one piece that is cut."""
    turned: bool
    """All canvases lie turned by a quarter."""
    length_mm: float
    """The sheet's height, or what is cut from the roll for all of them."""


def plan_sheets(job: Job) -> SheetPlan | None:
    """Lay all panels' canvases on as few sheets, or on as little of the roll, as rows and columns allow.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    SheetPlan or None
        None where not even one canvas fits.

    Examples
    --------
    >>> from pycore.contract.check import check_job
    >>> job = check_job({"group": {"panels": 3}, "sheet": {"width_mm": 1118}})
    >>> plan = plan_sheets(job)
    >>> plan.turned, round(plan.length_mm, 1), [canvas.panel for canvas in plan.sheets[0]]
    (True, 390.9, [1, 2, 3])
    """
    layouts = [found for turned in (False, True) if (found := _laid(job, turned=turned)) is not None]
    if not layouts:
        return None
    # Where both do equally well, the canvases lie as one alone would.
    preferred = fit_sheet(job).turned
    return min(layouts, key=lambda one: (len(one.sheets), round(one.length_mm, 6), one.turned != preferred))


@dataclass(frozen=True, kw_only=True)
class RowsAndColumns:
    """How many equal canvases lie in rows and columns.

    Attributes
    ----------
    columns, rows : int
        On a full sheet.
    length_mm : float
        The sheet's height, or what is cut from the roll.
    """

    columns: int
    rows: int
    length_mm: float


def rows_and_columns(across: Axis, along: Axis, *, count: int, gap_mm: float = 0.0) -> RowsAndColumns | None:
    """Lay equal canvases, all of them the same way round, in rows and columns.

    Parameters
    ----------
    across, along : Axis
        The sheet with one canvas on it, from `sheet_axes`.
    count : int
        How many canvases, at least 1.
    gap_mm : float
        Between two neighbours.

    Returns
    -------
    RowsAndColumns or None
        None where not even one canvas fits. Each sheet holds `columns * rows`; a roll holds them all at once.

    Examples
    --------
    >>> axes = sheet_axes(Job(), flat_sizes(Job()), turned=True)
    >>> rows_and_columns(*axes, count=5)
    RowsAndColumns(columns=1, rows=1, length_mm=483.0)
    """
    columns, most_along = _most(across, count, gap_mm), _most(along, count, gap_mm)
    if columns == 0 or most_along == 0:
        return None
    rows = min(math.ceil(count / columns), most_along)
    # As square as may be: a roll's last row is then filled, if it can be.
    columns = math.ceil(min(count, columns * rows) / rows)
    return RowsAndColumns(columns=columns, rows=rows, length_mm=_block(along, rows, gap_mm=gap_mm).length_mm)


def _laid(job: Job, *, turned: bool) -> SheetPlan | None:
    across, along = sheet_axes(job, flat_sizes(job), turned=turned)
    count = job.group.panels
    found = rows_and_columns(across, along, count=count)
    if found is None:
        return None
    held = found.columns * found.rows
    sheets = []
    for first in range(0, count, held):
        here = min(held, count - first)
        sheets.append(_sheet(across, along, first=first, count=here, columns=found.columns))
    return SheetPlan(sheets=tuple(sheets), turned=turned, length_mm=found.length_mm)


def _sheet(across: Axis, along: Axis, *, first: int, count: int, columns: int) -> tuple[PlannedCanvas, ...]:
    wide, high = _block(across, min(columns, count)), _block(along, math.ceil(count / columns))
    return tuple(
        PlannedCanvas(
            panel=first + place + 1,
            position_mm=(
                wide.start_mm + place % columns * across.canvas_mm,
                high.start_mm + place // columns * along.canvas_mm,
            ),
        )
        for place in range(count)
    )


def _block(axis: Axis, count: int, *, gap_mm: float = 0.0) -> Axis:
    """So many canvases in a line as one: bare canvas at its ends is that of the outermost."""
    more = (count - 1) * (axis.canvas_mm + gap_mm)
    return replace(axis, canvas_mm=axis.canvas_mm + more, inked_mm=axis.inked_mm + more)


def _most(axis: Axis, wanted: int, gap_mm: float) -> int:
    """How many canvases of those wanted fit in a line; along a roll all of them."""
    if axis.sheet_mm is None:
        return wanted
    pitch_mm = axis.canvas_mm + gap_mm
    held = math.floor((axis.spare_mm + pitch_mm + EQUAL_MM) / pitch_mm)
    return min(wanted, max(0, held))
