"""How much of a canvas clips, of all that is seen of it."""

from __future__ import annotations

from pycore.contract.job import Colour
from pycore.layout.grid import PixelGrid
from pycore.proofing.profile_store import Desk
from pycore.proofing.proof_input import Subject, seen_regions


def clipped_share(subject: Subject, colour: Colour, grid: PixelGrid, desk: Desk) -> float:
    """The share of face and sides that clips, after bringing in.

    Parameters
    ----------
    subject : Subject
        As filed.
    colour : Colour
        Of the job.
    grid : PixelGrid
        Of the subject's pixels.
    desk : Desk
        Holds the canvas profiles.

    Returns
    -------
    float
        0 to 1.

    Raises
    ------
    FieldError, ProfileError
        The profile is not open, or lacks what is needed.
    """
    report = desk.report(desk.brought(subject, colour, grid), colour)
    areas = [(one.right - one.left) * (one.bottom - one.top) for one in seen_regions(grid)]
    clipped = sum(one.share * area for one, area in zip(report.regions, areas, strict=True))
    return float(clipped / sum(areas))
