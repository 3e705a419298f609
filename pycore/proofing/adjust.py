"""Bringing a job's colours in: fitted to the picture on its canvas, for proofs, figures and print files."""

from __future__ import annotations

import numpy as np
from PIL import Image, ImageFilter

from pycore.colour.gamut.device_gamut import DeviceGamut
from pycore.colour.mapping.bring_in import BringIn, Mover, bring_in_mover, bring_in_table, fit_bring_in
from pycore.contract.job import Colour, Intent
from pycore.layout.grid import PixelGrid
from pycore.proofing.proof_input import ProofInput, make_proof_input


def fitted(proof_input: ProofInput, gamut: DeviceGamut, colour: Colour) -> BringIn:
    """Fit the bring-in to a subject as it is filed.

    The perceptual and the saturation intent bring colours in by rules of their own; what is fitted for them
    is what the relative intent would need.

    Parameters
    ----------
    proof_input : ProofInput
    gamut : DeviceGamut
    colour : Colour
        Of the job.

    Returns
    -------
    BringIn

    Raises
    ------
    ProfileError
        A profile lacks what is needed.
    """
    return fit_bring_in(
        proof_input.colours,
        proof_input.space,
        gamut,
        intent=_kind(colour.intent),
        black_point_compensation=colour.black_point_compensation,
        threshold_de=colour.clip_threshold_de,
        strength=colour.bring_in,
    )


def mover(bring_in: BringIn, proof_input: ProofInput, gamut: DeviceGamut, colour: Colour) -> Mover:
    """Make the function that moves single colours, for tables that begin with it.

    Parameters
    ----------
    bring_in : BringIn
        Fitted to the picture.
    proof_input : ProofInput
    gamut : DeviceGamut
        The canvas's.
    colour : Colour
        The job's choices.

    Returns
    -------
    callable
        (n, 3) float64 of the picture's encoded values to the same, 0 to 1.
    """
    return bring_in_mover(
        bring_in,
        proof_input.space,
        gamut,
        intent=_kind(colour.intent),
        black_point_compensation=colour.black_point_compensation,
    )


def table(
    bring_in: BringIn, proof_input: ProofInput, gamut: DeviceGamut, colour: Colour
) -> ImageFilter.Color3DLUT:
    """Make the table that moves a picture's pixels.

    Parameters
    ----------
    bring_in : BringIn
        Fitted to the picture.
    proof_input : ProofInput
    gamut : DeviceGamut
        The canvas's.
    colour : Colour
        The job's choices.

    Returns
    -------
    PIL.ImageFilter.Color3DLUT
        From the picture's encoded values to the same.
    """
    return bring_in_table(
        bring_in,
        proof_input.space,
        gamut,
        intent=_kind(colour.intent),
        black_point_compensation=colour.black_point_compensation,
    )


def brought_in(
    proof_input: ProofInput, bring_in: BringIn, gamut: DeviceGamut, colour: Colour, grid: PixelGrid
) -> ProofInput:
    """A subject as it is after bringing in.

    Parameters
    ----------
    proof_input : ProofInput
        As filed.
    bring_in : BringIn
        Fitted to it.
    gamut : DeviceGamut
    colour : Colour
        Of the job.
    grid : PixelGrid
        Of the subject's pixels.

    Returns
    -------
    ProofInput

    Raises
    ------
    ProfileError
        A profile lacks what is needed.
    """
    moved = Image.fromarray(proof_input.pixels).filter(table(bring_in, proof_input, gamut, colour))
    return make_proof_input(np.asarray(moved), proof_input.space, grid)


def _kind(intent: Intent) -> Intent:
    return Intent.ABSOLUTE if intent is Intent.ABSOLUTE else Intent.RELATIVE
