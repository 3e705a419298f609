"""Which part of a canvas the printer can reach, where the canvas lies on the sheet or roll."""

from __future__ import annotations

from pycore.contract.job import Job
from pycore.contract.record import Pair, Record
from pycore.layout.flat import flat_sizes
from pycore.layout.plan import plan_sheets
from pycore.layout.sheet import fit_sheet


class PrintableArea(Record):
    """A rectangle on the canvas in mm from its upper-left corner; ends past the canvas are cut to it."""

    left_mm: float
    top_mm: float
    right_mm: float
    bottom_mm: float


def printable_area(job: Job) -> PrintableArea:
    """The part of the canvas inside the sheet's unprintable margins.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    PrintableArea
        All of the canvas where the sheet does not hold it: another sheet is needed, and its margins are not
        known. Of a canvas that lies turned, what can be printed whichever way it was turned.

    Examples
    --------
    >>> face, sheet = {"width_mm": 211, "height_mm": 297}, {"width_mm": 329, "height_mm": 483}
    >>> job = Job.model_validate({"face": face, "bars": {"depth_mm": 33}, "sheet": sheet})
    >>> area = printable_area(job)
    >>> round(area.left_mm, 2), area.top_mm
    (2.45, 0.0)
    """
    width, height = flat_sizes(job).canvas_mm
    fit = fit_sheet(job)
    if not fit.fits:
        return PrintableArea(left_mm=0.0, top_mm=0.0, right_mm=width, bottom_mm=height)
    return _area(job, fit.position_mm, length_mm=fit.length_mm, turned=fit.turned)


def panel_areas(job: Job) -> list[PrintableArea]:
    """The printable part of each panel's canvas, where the plan of the group lays it.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    list of PrintableArea
        By the panel's number; of a single canvas `printable_area` alone.

    Examples
    --------
    >>> tree = {"face": {"width_mm": 200}, "group": {"panels": 3}, "sheet": {"width_mm": 873}}
    >>> [round(one.left_mm, 2) for one in panel_areas(Job.model_validate(tree))]
    [2.85, 0.0, 0.0]
    """
    plan = plan_sheets(job) if job.group.panels > 1 else None
    if plan is None:
        return [printable_area(job)] * job.group.panels
    return [
        _area(job, one.position_mm, length_mm=plan.length_mm, turned=plan.turned)
        for sheet in plan.sheets
        for one in sheet
    ]


def _area(job: Job, position_mm: Pair, *, length_mm: float, turned: bool) -> PrintableArea:
    width, height = flat_sizes(job).canvas_mm
    (first_x, last_x), (first_y, last_y) = _unprintable(job, position_mm, length_mm=length_mm, turned=turned)
    if turned:
        across, along = max(first_x, last_x), max(first_y, last_y)
        first_x, last_x, first_y, last_y = along, along, across, across
    return PrintableArea(
        left_mm=max(0.0, first_x),
        top_mm=max(0.0, first_y),
        right_mm=width - max(0.0, last_x),
        bottom_mm=height - max(0.0, last_y),
    )


def _unprintable(job: Job, position_mm: Pair, *, length_mm: float, turned: bool) -> tuple[Pair, Pair]:
    """How far the margins reach into the canvas at its ends, across the sheet and along it."""
    top, right, bottom, left = job.sheet.margin_mm
    sizes = flat_sizes(job).canvas_mm
    across, along = sizes[::-1] if turned else sizes
    x, y = position_mm
    return (
        (left - x, right - (job.sheet.width_mm - x - across)),
        (top - y, bottom - (length_mm - y - along)),
    )
