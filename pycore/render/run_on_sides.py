"""The picture as it would go round each of a job's edges, as it is judged."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pycore.contract.job import Fill, Job, SideFill, Sides
from pycore.conventions import Side
from pycore.edges.run_on import RunOnSide, usual_change
from pycore.edges.working import from_edge
from pycore.fill.checks import picture_area
from pycore.fill.continued_ground import I32, colour_steps
from pycore.fill.continued_sides import plan_ppi
from pycore.layout.grid import pixel_grid
from pycore.layout.group import panel_jobs
from pycore.layout.window import CropWindow, picture_window
from pycore.render.continued_plans import KeptPlans

#: Of all that a panel can show, whichever of its sides run on, the widest window and the highest.
_WIDEST, _HIGHEST = (
    Sides.model_validate({side.value: SideFill(fill=Fill.RUN_ON) for side in pair})
    for pair in ((Side.LEFT, Side.RIGHT), (Side.TOP, Side.BOTTOM))
)


@dataclass(frozen=True, kw_only=True, eq=False)
class _Around:
    """All of the picture that can lie on one panel, small."""

    steps: I32
    usual_change: float
    box: CropWindow

    def columns(self, *shares: float) -> list[int]:
        """Shares of the picture's width as columns."""
        across = self.steps.shape[1]
        return [min(max(0, round((one - self.box.x) / self.box.width * across)), across) for one in shares]

    def rows(self, *shares: float) -> list[int]:
        """Shares of its height as rows."""
        down = len(self.steps)
        return [min(max(0, round((one - self.box.y) / self.box.height * down)), down) for one in shares]


def run_on_sides(plans: KeptPlans, job: Job) -> list[dict[Side, RunOnSide]]:
    """Take the picture as it goes round each side if that side runs on, the others as the job has them.

    A side's own fill moves nothing of it.

    Parameters
    ----------
    plans : KeptPlans
    job : Job
        A checked job.

    Returns
    -------
    list of dict from Side to RunOnSide
        One, or one for each panel of a group.

    Raises
    ------
    FieldError
        The crop holds less than a pixel.
    """
    around = [
        _around(plans, widest, highest)
        for widest, highest in zip(_panels(plans, job, _WIDEST), _panels(plans, job, _HIGHEST), strict=True)
    ]
    found: list[dict[Side, RunOnSide]] = [{} for _ in around]
    for side in Side:
        own: SideFill = getattr(job.sides, side.value) or SideFill()
        runs_on = own.model_copy(update={"fill": Fill.RUN_ON})
        panels = _panels(plans, job, job.sides.model_copy(update={side.value: runs_on}))
        for of_panel, here, panel in zip(found, around, panels, strict=True):
            of_panel[side] = _seen_from(plans, panel, side, here)
    return found


def _panels(plans: KeptPlans, job: Job, sides: Sides) -> list[Job]:
    width_px, height_px = plans.picture_px
    return panel_jobs(job.model_copy(update={"sides": sides}), width_px=width_px, height_px=height_px)


def _around(plans: KeptPlans, widest: Job, highest: Job) -> _Around:
    """Resample it once: that costs more than all that follows."""
    width_px, height_px = plans.picture_px
    windows, scales = [], []
    for panel in (widest, highest):
        window = picture_window(panel, width_px=width_px, height_px=height_px).window
        left, top, right, bottom = picture_area(pixel_grid(panel, ppi=plan_ppi(panel)), panel)
        windows.append(window)
        scales.append(((right - left) / window.width, (bottom - top) / window.height))
    wide, high = windows
    x, y = min(wide.x, high.x), min(wide.y, high.y)
    box = CropWindow(
        x=x,
        y=y,
        width=max(one.x + one.width for one in windows) - x,
        height=max(one.y + one.height for one in windows) - y,
    )
    columns = math.ceil(box.width * max(scale[0] for scale in scales))
    rows = math.ceil(box.height * max(scale[1] for scale in scales))
    steps = colour_steps(plans.part(widest, box, width=columns, height=rows))
    return _Around(steps=steps, usual_change=usual_change(steps), box=box)


def _seen_from(plans: KeptPlans, panel: Job, side: Side, around: _Around) -> RunOnSide:
    width_px, height_px = plans.picture_px
    shown = picture_window(panel, width_px=width_px, height_px=height_px)
    window, face = shown.window, shown.face
    across = around.columns(window.x, face.x, face.x + face.width, window.x + window.width)
    down = around.rows(window.y, face.y, face.y + face.height, window.y + window.height)
    outwards, along = (down, across) if side in (Side.TOP, Side.BOTTOM) else (across, down)
    first, last = (0, 1) if side in (Side.TOP, Side.LEFT) else (2, 3)
    return RunOnSide(
        steps=from_edge(around.steps[down[0] : down[3], across[0] : across[3]], side),
        usual_change=around.usual_change,
        depth_px=max(1, outwards[last] - outwards[first]),
        begin=along[1] - along[0],
        end=along[2] - along[0],
    )
