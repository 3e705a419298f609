"""Random sets of jobs, and a checker of plans that shares no line with what makes them."""

from __future__ import annotations

import random

from pycore.contract.check import check_job
from pycore.contract.job import Job
from pycore.plan.options import PlanJob, PlanOptions, Stock
from pycore.plan.result import CutWay, Plan, PlannedCut, PlannedSheet
from pycore.tasks.layout import lay_out

#: Common sheets and rolls (common practice), mm; None is a roll.
STOCKS = ((329, 483), (432, 559), (610, 914), (610, None), (914, None), (1118, None))

#: Pieces stand on whole micrometres, each rounded up by less than one.
SLIGHT_MM = 0.02

Box = tuple[float, float, float, float]


def random_set(seed: int) -> tuple[list[PlanJob], PlanOptions]:
    """Two to twelve jobs with their copies, and a sheet or roll that holds each of them.

    Parameters
    ----------
    seed : int

    Returns
    -------
    tuple of list of PlanJob and PlanOptions
    """
    draw = random.Random(seed)
    width, height = STOCKS[seed % len(STOCKS)]
    margin = draw.choice(((0, 0, 0, 0), (3, 3, 3, 3), (5, 5, 20, 5)))
    stock = Stock(width_mm=width, height_mm=height, margin_mm=margin)
    options = PlanOptions(
        stocks=(stock,), gap_mm=draw.choice((0, 0, 4, 10)), knife_mm=draw.choice((0, 0, 2)), price_per_m2=20
    )
    # A canvas is wider than its face by twice the bars and the turn-over, and margins must stay free.
    depth = draw.choice((18, 20, 38)) if width > 400 else 18
    most = min(width, height or 900) - 2 * (depth + 25) - 32
    give = draw.choice(((0, 0), (0, 0), (0.5, 0.5), (0.4, 1.1)))
    jobs = []
    for number in range(draw.randint(2, 12)):
        face = {"width_mm": draw.randint(80, most), "height_mm": draw.randint(80, most)}
        tree = {
            "face": face,
            "bars": {"depth_mm": depth},
            "canvas": {"stretch_percent": list(give)},
            "group": {"panels": draw.choice((1, 1, 1, 2, 3))},
            "wrap": {"ink_over_mm": draw.choice((6, 6, 25))},
        }
        job = check_job(tree)
        jobs.append(PlanJob(name=f"piece {number}", job=job, copies=draw.choice((1, 1, 1, 2, 4))))
    return jobs, options


def check_plan(plan: Plan, jobs: list[PlanJob], *, gap_mm: float, knife_mm: float) -> None:
    """Demand that every canvas lies inside, apart from others, and comes off by the cuts in their order.

    Parameters
    ----------
    plan : Plan
    jobs : list of PlanJob
    gap_mm, knife_mm : float
    """
    names = [piece.name for sheet in plan.sheets for piece in sheet.pieces]
    assert len(names) == len(set(names)) == sum(one.copies * one.job.group.panels for one in jobs)
    for sheet in plan.sheets:
        check_sheet(sheet, {one.name: one for one in jobs}, gap_mm=gap_mm, knife_mm=knife_mm)


def check_sheet(sheet: PlannedSheet, jobs: dict[str, PlanJob], *, gap_mm: float, knife_mm: float) -> None:
    """Demand the same of one sheet.

    Parameters
    ----------
    sheet : PlannedSheet
    jobs : dict of str to PlanJob
    gap_mm, knife_mm : float
    """
    boxes: list[Box] = []
    for piece in sheet.pieces:
        box = (piece.x_mm, piece.y_mm, piece.x_mm + piece.width_mm, piece.y_mm + piece.height_mm)
        across, down = jobs[piece.job].job.canvas.stretch_percent
        assert across == down or piece.turned == turned_by_layout(jobs[piece.job].job)
        dry = dry_strip(jobs[piece.job], turned=piece.turned)
        top, right, bottom, left = sheet.margin_mm
        # Canvas on the sheet, ink within the margins.
        assert box[0] >= max(0, left - dry[0]) - 1e-6
        assert box[1] >= max(0, top - dry[1]) - 1e-6
        assert box[2] <= sheet.width_mm - max(0, right - dry[0]) + 1e-6
        assert box[3] <= sheet.height_mm - max(0, bottom - dry[1]) + 1e-6
        boxes.append(box)
    between = max(gap_mm, knife_mm) - 1e-6
    for number, one in enumerate(boxes):
        for other in boxes[number + 1 :]:
            assert (
                other[0] - one[2] >= between
                or one[0] - other[2] >= between
                or other[1] - one[3] >= between
                or one[1] - other[3] >= between
            )
    cut_by_order(sheet, boxes, knife_mm=knife_mm)


def turned_by_layout(job: Job) -> bool:
    """Whether the layout, which a person reads beside the job's figures, turns the canvas.

    Parameters
    ----------
    job : Job

    Returns
    -------
    bool
    """
    layout = lay_out(job)
    return (layout.sheet.fits and layout.sheet.turned) if layout.plan is None else layout.plan.turned


def dry_strip(one: PlanJob, *, turned: bool) -> tuple[float, float]:
    """Derived: the turn-over less the bleed, before the canvas is stretched.

    Parameters
    ----------
    one : PlanJob
    turned : bool

    Returns
    -------
    tuple of float
    """
    across, down = one.job.canvas.stretch_percent
    dry = one.job.wrap.turnover_mm - one.job.wrap.ink_over_mm
    pair = dry / (1 + across / 100), dry / (1 + down / 100)
    return pair[::-1] if turned else pair


def cut_by_order(sheet: PlannedSheet, boxes: list[Box], *, knife_mm: float) -> None:
    """Cut the sheet as the plan says, and demand that exactly the pieces come of it.

    Parameters
    ----------
    sheet : PlannedSheet
    boxes : list of tuple
        Left, top, right, bottom of each piece.
    knife_mm : float
    """
    parts: list[Box] = [(0.0, 0.0, sheet.width_mm, sheet.height_mm)]
    assert [cut.number for cut in sheet.cuts] == list(range(1, len(sheet.cuts) + 1))
    for cut in sheet.cuts:
        (part,) = [one for one in parts if _goes_through(cut, one, knife_mm)]
        parts.remove(part)
        parts += _halves(cut, part, knife_mm)
        at = cut.start_mm[1] if cut.way is CutWay.ACROSS else cut.start_mm[0]
        axis = 1 if cut.way is CutWay.ACROSS else 0
        for box in boxes:
            if _inside(box, part):
                half = knife_mm / 2 - SLIGHT_MM
                assert at + half <= box[axis] or at - half >= box[axis + 2]
    for box in boxes:
        same = [one for one in parts if all(abs(a - b) <= SLIGHT_MM for a, b in zip(one, box, strict=True))]
        assert len(same) == 1


def _goes_through(cut: PlannedCut, part: Box, knife_mm: float) -> bool:
    """Whether a cut leads from one edge of a part to the opposite one, and takes some of it."""
    first, second = (0, 1) if cut.way is CutWay.ACROSS else (1, 0)
    ends = (cut.start_mm[first], cut.end_mm[first])
    assert cut.start_mm[second] == cut.end_mm[second]
    reaches = abs(ends[0] - part[first]) < 1e-6 and abs(ends[1] - part[first + 2]) < 1e-6
    at, half = cut.start_mm[second], knife_mm / 2 - 1e-6
    return reaches and part[second] - half < at < part[second + 2] + half


def _inside(box: Box, part: Box) -> bool:
    return (
        box[0] >= part[0] - SLIGHT_MM
        and box[1] >= part[1] - SLIGHT_MM
        and box[2] <= part[2] + SLIGHT_MM
        and box[3] <= part[3] + SLIGHT_MM
    )


def _halves(cut: PlannedCut, part: Box, knife_mm: float) -> list[Box]:
    left, top, right, bottom = part
    if cut.way is CutWay.ACROSS:
        at = cut.start_mm[1]
        return [(left, top, right, at - knife_mm / 2), (left, at + knife_mm / 2, right, bottom)]
    at = cut.start_mm[0]
    return [(left, top, at - knife_mm / 2, bottom), (at + knife_mm / 2, top, right, bottom)]
