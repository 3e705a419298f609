"""A job by itself on its own sheet or roll lies as its layout, its ticket and its print files have it."""

from __future__ import annotations

from collections.abc import Sequence

from pycore.layout.plan import plan_sheets
from pycore.plan.choose import Chosen, cuts_of
from pycore.plan.options import PlanJob, PlanOptions, Turning
from pycore.plan.packing import Placed
from pycore.plan.pieces import Piece, longest_mm, own_stock
from pycore.plan.rows import Filled


def own_layout(jobs: Sequence[PlanJob], pieces: Sequence[Piece], options: PlanOptions) -> Chosen | None:
    """The canvases of one job where its layout has them, and the cuts.

    Parameters
    ----------
    jobs : sequence of PlanJob
        Those that share what is loaded.
    pieces : sequence of Piece
        Theirs, in the order of the panels.
    options : PlanOptions

    Returns
    -------
    Chosen or None
        None where more is asked than the layout knows of: other jobs or copies, other sheets, a gap or a
        knife's width, pins, or that nothing is turned.

    Examples
    --------
    >>> from pycore.contract.job import Group, Job
    >>> from pycore.plan.pieces import pieces_of
    >>> trio = [PlanJob(name="Low tide", job=Job(group=Group(panels=3)))]
    >>> chosen = own_layout(trio, pieces_of(trio, turning=Turning.WHERE_EQUAL), PlanOptions())
    >>> [sheet.placed[0].piece.panel for sheet in chosen.sheets]
    [1, 2, 3]
    """
    is_plain = not (options.stocks or options.pins or options.gap_mm or options.knife_mm)
    if not is_plain or len(jobs) > 1 or jobs[0].copies > 1:
        return None
    plan, stock = plan_sheets(jobs[0].job), own_stock(jobs[0].job)
    if plan is None or plan.length_mm > longest_mm(stock):
        return None
    if plan.turned and options.turning is Turning.NEVER:
        return None
    sheets = tuple(
        Filled(
            stock=stock,
            length_mm=plan.length_mm,
            placed=tuple(
                Placed(
                    piece=pieces[one.panel - 1],
                    x_mm=one.position_mm[0],
                    y_mm=one.position_mm[1],
                    turned=plan.turned,
                )
                for one in sheet
            ),
        )
        for sheet in plan.sheets
    )
    cuts = [cuts_of(sheet, knife_mm=0) for sheet in sheets]
    if None in cuts:
        return None
    return Chosen(sheets=sheets, cuts=tuple(one for one in cuts if one is not None))
