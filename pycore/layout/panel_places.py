"""Where the panels of a job hang, and which rows of the stacked canvases are whose."""

from __future__ import annotations

from pycore.contract.job import Job
from pycore.contract.record import Pair, Record
from pycore.layout.grid import PixelGrid
from pycore.layout.group import panel_centres_mm


class PanelPlace(Record):
    """Where one panel hangs, and which rows of the texture are its own."""

    number: int
    """From 1, left to right or top to bottom."""
    centre_mm: Pair
    """Of its face, from the middle of the group: x right, y up."""
    top_px: int
    bottom_px: int
    """Excluded."""


def panel_places(job: Job, grid: PixelGrid) -> list[PanelPlace]:
    """The places of a job's panels; one where there is no group.

    Parameters
    ----------
    job : Job
        A checked job.
    grid : PixelGrid
        Of one panel's canvas; the texture holds them one below the other.

    Returns
    -------
    list of PanelPlace

    Examples
    --------
    >>> from pycore.contract.job import Group
    >>> from pycore.layout.grid import pixel_grid
    >>> job = Job(group=Group(panels=2, gap_mm=19.1))
    >>> [(one.centre_mm, one.top_px) for one in panel_places(job, pixel_grid(job, ppi=25.4))]
    [((-160.0, 0.0), 0), ((160.0, 0.0), 291)]
    """
    rows = grid.height_px
    return [
        PanelPlace(number=place + 1, centre_mm=centre, top_px=place * rows, bottom_px=(place + 1) * rows)
        for place, centre in enumerate(panel_centres_mm(job))
    ]
