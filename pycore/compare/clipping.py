"""How much of a canvas lies outside the gamut, of all that is seen of it."""

from __future__ import annotations

from pycore.contract.job import Colour
from pycore.layout.grid import PixelGrid
from pycore.proofing.profile_store import ProfileStore
from pycore.proofing.proof_input import ProofInput


def outside_share(proof_input: ProofInput, colour: Colour, grid: PixelGrid, profiles: ProfileStore) -> float:
    """The share of face and sides outside the gamut, after bringing in; the same as the gamut figures give.

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
    return profiles.report(profiles.brought(proof_input, colour, grid), colour).outside_share
