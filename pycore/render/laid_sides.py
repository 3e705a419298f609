"""The four sides of a job with their lines continued, as they are judged, and a move of the crop."""

from __future__ import annotations

from typing import Final

from pycore.contract.job import Crop, Fill, Job, Sides, fill_of, side_fill
from pycore.conventions import Side
from pycore.edges.continued import LaidSide
from pycore.edges.crop_moves import FARTHEST, Surroundings, crop_move
from pycore.edges.report import CropMove
from pycore.edges.things import cut_things
from pycore.fill.checks import band_px, picture_area
from pycore.fill.continued_sides import plan_ppi
from pycore.fill.facing import facing
from pycore.layout.grid import pixel_grid
from pycore.layout.window import picture_window
from pycore.render.continued_plans import KeptPlans

#: Decimals of a crop that is proposed: a tenth of a pixel of a very large picture.
_DECIMALS: Final = 6

_CONTINUED: Final = Sides(fill=Fill.CONTINUED)


def laid_sides(plans: KeptPlans, job: Job) -> dict[Side, LaidSide]:
    """Lay the four sides of a panel with their lines continued, whatever its own fills.

    Parameters
    ----------
    plans : KeptPlans
    job : Job
        A checked job of one panel; of its sides only the bands count.

    Returns
    -------
    dict from Side to LaidSide
        Without corner squares and bleed.

    Raises
    ------
    FieldError
        The crop holds less than a pixel.
    """
    canvas = plans.laid(job.model_copy(update={"sides": _CONTINUED}))
    found = {}
    for side in Side:
        faced = facing(canvas.pixels, canvas.grid, side)
        begin, end = faced.along[1], faced.along[2]
        found[side] = LaidSide(
            side=faced.view[faced.front_edge : faced.end, begin:end],
            face=faced.face[::-1],
            depth_px=max(1, faced.depth),
            band_px=min(band_px(side_fill(job.sides, side), canvas.grid), len(faced.face)),
        )
    return found


def move_of_crop(plans: KeptPlans, job: Job, side: Side, laid: LaidSide) -> CropMove | None:
    """Find a small move of the crop after which a side's edge cuts no distinct thing.

    Parameters
    ----------
    plans : KeptPlans
    job : Job
        A checked job. Panels of a group share one crop, which is not moved.
    side : Side
    laid : LaidSide
        That side of the job.

    Returns
    -------
    CropMove or None
        None where nothing is cut, no small move frees the edge and leaves the opposite one free, or the
        picture runs on round a side.

    Raises
    ------
    FieldError
        The crop holds less than a pixel.
    """
    things = cut_things(laid.face, depth_px=laid.depth_px)
    # Where the picture runs on, the face is not what is judged.
    runs_on = any(fill_of(job.sides, one) is Fill.RUN_ON for one in Side)
    if not things or runs_on or job.group.panels > 1:
        return None
    pixels, (top, right, bottom, left) = plans.around(job, farthest=FARTHEST)
    around = Surroundings(
        pixels=pixels, top=top, right=right, bottom=bottom, left=left, depth_px=laid.depth_px
    )
    move = crop_move(around, side, things)
    if not move:
        return None
    level = side in (Side.LEFT, Side.RIGHT)
    return _moved(plans, job, right_px=move if level else 0, down_px=0 if level else move)


def _moved(plans: KeptPlans, job: Job, *, right_px: int, down_px: int) -> CropMove:
    width_px, height_px = plans.picture_px
    window = picture_window(job, width_px=width_px, height_px=height_px).window
    grid = pixel_grid(job, ppi=plan_ppi(job))
    left, top, right, bottom = picture_area(grid, job)
    x = window.x + right_px * window.width / (right - left)
    y = window.y + down_px * window.height / (bottom - top)
    width, height = round(window.width, _DECIMALS), round(window.height, _DECIMALS)
    return CropMove(
        right_mm=round(right_px / grid.px_per_mm, 1),
        down_mm=round(down_px / grid.px_per_mm, 1),
        crop=Crop(
            x=min(max(round(x, _DECIMALS), 0.0), 1 - width),
            y=min(max(round(y, _DECIMALS), 0.0), 1 - height),
            width=width,
            height=height,
        ),
    )
