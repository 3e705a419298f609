"""The canvases of a group's panels for the screen, stacked below one another in one picture."""

from __future__ import annotations

from collections.abc import Generator, Sequence
from functools import partial

import numpy as np

from pycore.contract.job import Job
from pycore.conventions import MM_PER_INCH
from pycore.layout.flat import flat_sizes
from pycore.layout.grid import PixelGrid, pixel_grid, preview_ppi
from pycore.layout.group import panel_jobs
from pycore.picture.tones import U8
from pycore.progress import Progress, map_progress, part_of
from pycore.render.canvas import Rendering
from pycore.render.preview import PreviewSource
from pycore.speech import say

#: Rows of all canvases together: what graphics processors take at least, in practice.
_MOST_ROWS = 8192


def panel_grid(job: Job, *, preview_px: int) -> PixelGrid:
    """The lines of one panel's canvas, so fine that all panels together have about so many pixels.

    Parameters
    ----------
    job : Job
        A checked job.
    preview_px : int
        Of all canvases.

    Returns
    -------
    PixelGrid

    Examples
    --------
    >>> from pycore.contract.job import Group
    >>> [panel_grid(Job(group=Group(panels=count)), preview_px=2_000_000).rows[5] for count in (1, 4)]
    [1130, 565]
    """
    count = job.group.panels
    ppi = preview_ppi(job, preview_px=preview_px // count)
    if count > 1:
        ppi = min(ppi, (_MOST_ROWS // count - 1) / flat_sizes(job).canvas_mm[1] * MM_PER_INCH)
    return pixel_grid(job, ppi=ppi)


def stacked_canvas(preview: PreviewSource, job: Job, grid: PixelGrid) -> Rendering:
    """Render every panel's canvas and stack them; of a single panel it is that panel's canvas.

    Parameters
    ----------
    preview : PreviewSource
    job : Job
        A checked job.
    grid : PixelGrid
        Of one panel's canvas.

    Yields
    ------
    Progress

    Returns
    -------
    (panels * rows, columns, 4) uint8
        As `PreviewSource.canvas` gives each.

    Raises
    ------
    GeometryError
        A side asks for more pixels than the face has.
    FieldError
        A panel's window holds less than a pixel.
    """
    source = preview.source
    jobs = panel_jobs(job, width_px=source.width_px, height_px=source.height_px)
    if len(jobs) == 1:
        return (yield from preview.canvas(jobs[0], grid))
    return (yield from stacked([preview.canvas(one, grid) for one in jobs]))


def stacked(renderings: Sequence[Rendering]) -> Generator[Progress, None, U8]:
    """Run several renderings of one size and stack what they return.

    Parameters
    ----------
    renderings : sequence of generators

    Yields
    ------
    Progress
        Naming the panel.

    Returns
    -------
    (panels * rows, columns, channels) uint8
    """
    canvases: list[U8] = []
    count = len(renderings)
    for number, rendering in enumerate(renderings, start=1):
        part = part_of(rendering, begin=(number - 1) / count, share=1 / count)
        canvases.append(
            (
                yield from map_progress(
                    part,
                    partial(_of_panel, panel=say("panel {number} of {count}", number=number, count=count)),
                )
            )
        )
    return np.concatenate(canvases)


def _of_panel(step: Progress, *, panel: str) -> Progress:
    return Progress(done=step.done, label=f"{step.label}, {panel}")
