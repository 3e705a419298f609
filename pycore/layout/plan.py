"""All canvases of a group on the loaded sheets or roll.

Equal canvases lie in rows and columns, all of them the same way round; neighbours share one cut. For one
orientation this is exact: canvases that all lie the same way on a rectangle never number more than the
columns that fit across times the rows that fit along. Both orientations are tried. A mixture of the two on
one sheet, which may now and then hold one more, is not.
"""

from __future__ import annotations

import math
from dataclasses import replace

from pycore.contract.job import Job
from pycore.contract.record import Pair, Record
from pycore.layout.flat import flat_sizes
from pycore.layout.sheet import Axis, fit_sheet, sheet_axes

#: Lengths that differ by less are equal, as in `pycore.layout.sheet`.
_EQUAL_MM = 1e-9


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


def _laid(job: Job, *, turned: bool) -> SheetPlan | None:
    across, along = sheet_axes(job, flat_sizes(job), turned=turned)
    count = job.group.panels
    columns, most_along = _most(across, count), _most(along, count)
    if columns == 0 or most_along == 0:
        return None
    rows = min(math.ceil(count / columns), most_along)
    # As square as may be: a roll's last row is then filled, if it can be.
    columns = math.ceil(min(count, columns * rows) / rows)
    sheets = []
    for first in range(0, count, columns * rows):
        here = min(columns * rows, count - first)
        sheets.append(_sheet(across, along, first=first, count=here, columns=columns))
    return SheetPlan(
        sheets=tuple(sheets),
        turned=turned,
        length_mm=_block(along, rows).length_mm,
    )


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


def _block(axis: Axis, count: int) -> Axis:
    """So many canvases in a line as one: bare canvas at its ends is that of the outermost."""
    more = (count - 1) * axis.canvas_mm
    return replace(axis, canvas_mm=axis.canvas_mm + more, inked_mm=axis.inked_mm + more)


def _most(axis: Axis, wanted: int) -> int:
    """How many canvases of those wanted fit in a line; along a roll all of them."""
    if axis.sheet_mm is None:
        return wanted
    held = math.floor((axis.spare_mm + axis.canvas_mm + _EQUAL_MM) / axis.canvas_mm)
    return min(wanted, max(0, held))
