"""Bringing a job's colours in: fitted to the picture on its canvas, for proofs, figures and print files."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache

from pycore.colour.gamut.device_gamut import DeviceGamut
from pycore.colour.icc.endpoints import Endpoint
from pycore.colour.icc.profile import Profile
from pycore.colour.icc.same_profile import is_same_profile
from pycore.colour.link.make_map import Shift
from pycore.colour.link.proof import colorimetric
from pycore.colour.mapping.bring_in import BringIn, fit_bring_in
from pycore.colour.mapping.bring_pixels import PixelBringer
from pycore.colour.mapping.node_moves import bring_in_shift
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
        intent=colorimetric(colour.intent),
        black_point_compensation=colour.black_point_compensation,
        threshold_de=colour.clip_threshold_de,
        strength=colour.bring_in,
    )


def shift(bring_in: BringIn, space: Endpoint, gamut: DeviceGamut, colour: Colour) -> Shift | None:
    """Find what bringing in adds to the Lab that the canvas is asked for.

    Parameters
    ----------
    bring_in : BringIn
        Fitted to the picture.
    space : Profile or Standard
        Of the values that will be asked about: grey, RGB or CMYK.
    gamut : DeviceGamut
        The canvas's.
    colour : Colour
        The job's choices.

    Returns
    -------
    callable or None
        From the axes of a table to (all nodes, 3) float64 differences of Lab; None where nothing moves.

    Raises
    ------
    ProfileError
        A profile lacks what is needed.
    """
    if bring_in.does_nothing or _is_canvas(space, gamut):
        return None
    return _shift_of(_asked(bring_in, space, gamut, colour))


def pixel_bringer(
    bring_in: BringIn, proof_input: ProofInput, gamut: DeviceGamut, colour: Colour
) -> PixelBringer | None:
    """Make what moves a picture's pixels in its own space.

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
    PixelBringer or None
        None where nothing moves.

    Raises
    ------
    ProfileError
        A profile lacks what is needed, such as the way back into the picture's space.
    """
    if bring_in.does_nothing or _is_canvas(proof_input.space, gamut):
        return None
    return _bringer_of(_asked(bring_in, proof_input.space, gamut, colour))


@dataclass(frozen=True, kw_only=True, slots=True)
class _Asked:
    """What moves depend on. A fit's limits and its test of inside are the gamut's."""

    furthest: bytes
    figures: tuple[float, ...]
    gamut: DeviceGamut
    space: Endpoint
    kind: Intent
    black_point_compensation: bool
    bring_in: BringIn = field(compare=False)


def _asked(bring_in: BringIn, space: Endpoint, gamut: DeviceGamut, colour: Colour) -> _Asked:
    return _Asked(
        furthest=bring_in.furthest.tobytes(),
        figures=(
            *(bring_in.black, bring_in.white, bring_in.darkest, bring_in.lightest),
            *(bring_in.aim, bring_in.slack, bring_in.strength),
        ),
        gamut=gamut,
        space=space,
        kind=colorimetric(colour.intent),
        black_point_compensation=colour.black_point_compensation,
        bring_in=bring_in,
    )


@lru_cache(maxsize=2)
def _shift_of(asked: _Asked) -> Shift:
    """The moves cost most of the work; figures, proof and print file of one picture share them."""
    return bring_in_shift(
        asked.bring_in,
        asked.space,
        asked.gamut,
        intent=asked.kind,
        black_point_compensation=asked.black_point_compensation,
    )


@lru_cache(maxsize=2)
def _bringer_of(asked: _Asked) -> PixelBringer:
    return PixelBringer(
        _shift_of(asked),
        asked.space,
        asked.gamut,
        intent=asked.kind,
        black_point_compensation=asked.black_point_compensation,
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
    move = pixel_bringer(bring_in, proof_input, gamut, colour)
    if move is None:
        return proof_input
    return make_proof_input(move(proof_input.pixels), proof_input.space, grid)


def _is_canvas(space: Endpoint, gamut: DeviceGamut) -> bool:
    """What is in the canvas's own values already has no colour that it cannot hold."""
    return isinstance(space, Profile) and is_same_profile(space, gamut.profile)
