"""How much of a canvas clips, of all that is seen of it."""

from __future__ import annotations

from pycore.contract.job import Colour
from pycore.layout.grid import PixelGrid
from pycore.proofing.profile_store import ProfileStore
from pycore.proofing.proof_input import ProofInput, seen_regions


def clipped_share(proof_input: ProofInput, colour: Colour, grid: PixelGrid, profiles: ProfileStore) -> float:
    """The share of face and sides that clips, after bringing in.

    Parameters
    ----------
    proof_input : ProofInput
        As filed.
    colour : Colour
        Of the job.
    grid : PixelGrid
        Of the subject's pixels.
    profiles : ProfileStore
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
    report = profiles.report(profiles.brought(proof_input, colour, grid), colour)
    areas = [(one.right - one.left) * (one.bottom - one.top) for one in seen_regions(grid)]
    clipped = sum(one.share * area for one, area in zip(report.regions, areas, strict=True))
    return float(clipped / sum(areas))
