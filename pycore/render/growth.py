"""The plans of a job's grown sides, made from a reduced copy of its picture and kept while they hold."""

from __future__ import annotations

from collections.abc import Generator

import numpy as np

from pycore.contract.job import Fill, Job, side_fill
from pycore.conventions import Side
from pycore.fill.checks import picture_area
from pycore.fill.extend import reflect
from pycore.fill.facing import U8, facing
from pycore.fill.grown_plan import SidePlan, plan_ppi, plan_side
from pycore.fill.sides import GrownPlans
from pycore.layout.grid import PixelGrid, pixel_grid
from pycore.picture.source import SourcePicture
from pycore.progress import Progress, map_progress, part_of_share
from pycore.render.area import job_area
from pycore.render.reduced_copy import ReducedCopy, copied
from pycore.render.resample import Area

#: Plans that are kept: of a group of five panels those of two seeds.
_MOST_KEPT = 40


def grows(job: Job) -> bool:
    """Whether any side is to be grown.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    bool

    Examples
    --------
    >>> grows(Job())
    False
    """
    return any(side_fill(job.sides, side).fill is Fill.CONTINUED for side in Side)


class KeptPlans:
    """The plans last made for one picture; a side is planned anew when what it rests on changes.

    Parameters
    ----------
    source : SourcePicture
    copy : ReducedCopy
        Of the whole picture. Always this one, so that screen and print plan from the same pixels.
    """

    def __init__(self, source: SourcePicture, copy: ReducedCopy) -> None:
        self._source = source
        self._copy = copy
        self._kept: dict[tuple[object, ...], SidePlan] = {}

    def plans(self, job: Job, *, share: float) -> Generator[Progress, None, GrownPlans]:
        """Plan the sides that are to be grown.

        Parameters
        ----------
        job : Job
            A checked job whose fills have been checked against its grid.
        share : float
            What of the whole work the planning is, for the progress only.

        Yields
        ------
        Progress
            Between pieces, while something is planned.

        Returns
        -------
        mapping from Side to SidePlan

        Raises
        ------
        FieldError
            The crop holds less than a pixel.
        """
        growing = [side for side in Side if side_fill(job.sides, side).fill is Fill.CONTINUED]
        if not growing:
            return {}
        grid = pixel_grid(job, ppi=plan_ppi(job))
        area = job_area(self._source, job)
        canvas: U8 | None = None
        plans: dict[Side, SidePlan] = {}
        for number, side in enumerate(growing):
            key = (grid, picture_area(grid, job), area, job.picture.turn, job.sides.seed, side)
            if key not in self._kept:
                if canvas is None:
                    canvas = self._planned_on(job, grid, area)
                planning = part_of_share(
                    plan_side(facing(canvas, grid, side), ppi=grid.ppi, seed=job.sides.seed),
                    begin=share * number / len(growing),
                    share=share / len(growing),
                )
                self._kept[key] = yield from map_progress(planning, _growing)
            plans[side] = self._kept[key]
        while len(self._kept) > _MOST_KEPT:
            # The oldest first: a dictionary keeps the order in which it was filled.
            del self._kept[next(iter(self._kept))]
        return plans

    def _planned_on(self, job: Job, grid: PixelGrid, area: Area) -> U8:
        """The small canvas with the picture on it, reflected past its edges."""
        turn = job.picture.turn
        left, top, right, bottom = picture_area(grid, job)
        canvas = np.zeros((grid.height_px, grid.width_px, 3), np.uint8)
        canvas[top:bottom, left:right] = copied(
            self._copy, area, turn, self._source, width=right - left, height=bottom - top
        )
        for view, start, edge in (
            (canvas[:, left:right], top, bottom),
            (canvas[::-1, left:right], grid.height_px - bottom, grid.height_px - top),
            (canvas.transpose(1, 0, 2), left, right),
            (canvas.transpose(1, 0, 2)[::-1], grid.width_px - right, grid.width_px - left),
        ):
            reflect(view, start=start, edge=edge, end=len(view))
        return canvas


def _growing(done: float) -> Progress:
    return Progress(done=done, label="Continuing the sides")
