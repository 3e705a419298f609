"""The plans of a job's continued sides, made from a reduced copy of its picture and kept while they hold."""

from __future__ import annotations

from collections.abc import Generator
from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.contract.job import Fill, Job, fill_of
from pycore.conventions import Side
from pycore.fill.checks import picture_area
from pycore.fill.continued_sides import NOTHING_CONTINUED, ContinuedPlans, plan_ppi, plan_sides
from pycore.fill.continued_vectors import ContinuedPlan
from pycore.fill.facing import U8
from pycore.layout.grid import PixelGrid, pixel_grid
from pycore.layout.quarter_turns import turned_size
from pycore.layout.window import CropWindow, picture_window
from pycore.picture.source import SourcePicture
from pycore.progress import Progress, map_progress, part_of_share
from pycore.render.area import job_area, window_area
from pycore.render.reduced_copy import ReducedCopy, copied
from pycore.render.resample import Area
from pycore.speech import say

#: Plans that are kept: of a group of five panels those of two settings.
_MOST_KEPT: Final = 40

_LEVEL: Final = (Side.LEFT, Side.RIGHT)


def continued_sides(job: Job) -> frozenset[Side]:
    """Which sides are to be continued.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    frozenset of Side

    Examples
    --------
    >>> continued_sides(Job())
    frozenset()
    """
    return frozenset(side for side in Side if fill_of(job.sides, side) is Fill.CONTINUED)


@dataclass(frozen=True, kw_only=True, eq=False)
class PlanCanvas:
    """A small canvas on which sides are planned, with all of its sides laid.

    Attributes
    ----------
    pixels : (rows, columns, 3) uint8
    grid : PixelGrid
    """

    pixels: U8
    grid: PixelGrid


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
        self._kept: dict[tuple[object, ...], ContinuedPlan] = {}

    @property
    def picture_px(self) -> tuple[int, int]:
        """Width and height of the upright picture."""
        return self._source.width_px, self._source.height_px

    def plans(self, job: Job, *, share: float) -> Generator[Progress, None, ContinuedPlans]:
        """Plan the sides that are to be continued.

        Parameters
        ----------
        job : Job
            A checked job whose fills have been checked against its grid.
        share : float
            What of the whole work the planning is, for the progress only.

        Yields
        ------
        Progress
            Between sides, while something is planned.

        Returns
        -------
        mapping from Side to ContinuedPlan

        Raises
        ------
        FieldError
            The crop holds less than a pixel.
        """
        continued = continued_sides(job)
        if not continued:
            return NOTHING_CONTINUED
        keys = self._keys(job, continued)
        known = {side: self._kept[key] for side, key in keys.items() if key in self._kept}
        if len(known) == len(continued):
            return known
        canvas = self.bare(job)
        plans = yield from self._planned(job, canvas, keys, known, share=share)
        return plans

    def laid(self, job: Job) -> PlanCanvas:
        """The small canvas with the sides as the job has them: those that are not continued, mirrored.

        Parameters
        ----------
        job : Job
            A checked job.

        Returns
        -------
        PlanCanvas

        Raises
        ------
        FieldError
            The crop holds less than a pixel.
        """
        keys = self._keys(job, continued_sides(job))
        known = {side: self._kept[key] for side, key in keys.items() if key in self._kept}
        canvas = self.bare(job)
        for _ in self._planned(job, canvas, keys, known, share=1.0):
            pass
        return canvas

    def around(self, job: Job, *, farthest: float) -> tuple[U8, tuple[int, int, int, int]]:
        """The picture on the face and round about it, at the plan's resolution.

        Parameters
        ----------
        job : Job
            A checked job of one panel on whose sides the picture does not run on.
        farthest : float
            How far round about, in bar depths.

        Returns
        -------
        pixels : (rows, columns, 3) uint8
        beyond : tuple of int
            Pixels beyond the face at the top, right, bottom and left; 0 where the picture ends there.

        Raises
        ------
        FieldError
            The crop holds less than a pixel.
        """
        grid = pixel_grid(job, ppi=plan_ppi(job))
        left, top, right, bottom = picture_area(grid, job)
        area, turn = job_area(self._source, job), job.picture.turn
        wide, high = turned_size((self._source.width_px, self._source.height_px), turn)
        per_x, per_y = (area.right - area.left) / (right - left), (area.bottom - area.top) / (bottom - top)
        most = int(farthest * job.bars.depth_mm * grid.px_per_mm)
        beyond = (
            min(most, int(area.top / per_y)),
            min(most, int((wide - area.right) / per_x)),
            min(most, int((high - area.bottom) / per_y)),
            min(most, int(area.left / per_x)),
        )
        wider = Area(
            left=area.left - beyond[3] * per_x,
            top=area.top - beyond[0] * per_y,
            right=area.right + beyond[1] * per_x,
            bottom=area.bottom + beyond[2] * per_y,
        )
        pixels = copied(
            self._copy,
            wider,
            turn,
            self._source,
            width=right - left + beyond[1] + beyond[3],
            height=bottom - top + beyond[0] + beyond[2],
        )
        return pixels, beyond

    def part(self, job: Job, window: CropWindow, *, width: int, height: int) -> U8:
        """Any part of the picture as a job turns it, small.

        Parameters
        ----------
        job : Job
            A checked job; its turn alone counts.
        window : CropWindow
        width, height : int
            Pixels.

        Returns
        -------
        (height, width, 3) uint8
        """
        area = window_area(self._source, job, window)
        return copied(self._copy, area, job.picture.turn, self._source, width=width, height=height)

    def bare(self, job: Job) -> PlanCanvas:
        """The small canvas with the picture on it and nothing on its sides.

        Parameters
        ----------
        job : Job
            A checked job.

        Returns
        -------
        PlanCanvas

        Raises
        ------
        FieldError
            The crop holds less than a pixel.
        """
        grid = pixel_grid(job, ppi=plan_ppi(job))
        left, top, right, bottom = picture_area(grid, job)
        pixels = np.zeros((grid.height_px, grid.width_px, 3), np.uint8)
        window = picture_window(job, width_px=self._source.width_px, height_px=self._source.height_px).window
        pixels[top:bottom, left:right] = self.part(job, window, width=right - left, height=bottom - top)
        return PlanCanvas(pixels=pixels, grid=grid)

    def _planned(
        self,
        job: Job,
        canvas: PlanCanvas,
        keys: dict[Side, tuple[object, ...]],
        known: ContinuedPlans,
        *,
        share: float,
    ) -> Generator[Progress, None, ContinuedPlans]:
        area = picture_area(canvas.grid, job)
        planning = plan_sides(canvas.pixels, canvas.grid, area, frozenset(keys), known=known)
        steps = part_of_share(planning, begin=0.0, share=share)
        plans = yield from map_progress(steps, _continuing)
        for side, plan in plans.items():
            self._kept[keys[side]] = plan
        while len(self._kept) > _MOST_KEPT:
            # The oldest first: a dictionary keeps the order in which it was filled.
            del self._kept[next(iter(self._kept))]
        return plans

    def _keys(self, job: Job, continued: frozenset[Side]) -> dict[Side, tuple[object, ...]]:
        """What each side's plan rests on; top and bottom go on past left and right, too."""
        grid = pixel_grid(job, ppi=plan_ppi(job))
        rests_on = (grid, picture_area(grid, job), job_area(self._source, job), job.picture.turn)
        widened_by = continued.intersection(_LEVEL)
        return {side: (*rests_on, side, None if side in _LEVEL else widened_by) for side in continued}


def _continuing(done: float) -> Progress:
    return Progress(done=done, label=say("Continuing the sides"))
