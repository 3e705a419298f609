"""The flat canvas as its print will look on the screen, for everything that is shown away from the stage."""

from __future__ import annotations

from collections.abc import Generator

import numpy as np

from pycore.colour.icc.endpoints import Standard
from pycore.colour.link.viewing import Viewing
from pycore.contract.job import Colour, Job
from pycore.layout.grid import PixelGrid
from pycore.picture.tones import U8
from pycore.progress import Progress
from pycore.proofing.profile_store import ProfileStore
from pycore.proofing.proof_input import ProofInput, inked_parts, make_proof_input, picture_space
from pycore.render.panels import stacked_canvas
from pycore.render.preview import PreviewSource
from pycore.speech import say


def proofed_canvas(
    job: Job, grid: PixelGrid, preview: PreviewSource, profiles: ProfileStore
) -> Generator[Progress, None, U8]:
    """Render and proof a job's canvas; of a group all panels as one, so that they match as in print.

    Parameters
    ----------
    job : Job
        A checked job.
    grid : PixelGrid
        Of one canvas.
    preview : PreviewSource
        The open picture.
    profiles : ProfileStore
        Holds the canvas profiles.

    Yields
    ------
    Progress

    Returns
    -------
    (panels * rows, columns, 3) uint8
        srgb_encoded, with the canvas's black simulated; bare canvas is white.

    Raises
    ------
    FieldError, GeometryError, ProfileError
        The canvas cannot be filled or proofed.
    """
    canvas = yield from stacked_canvas(preview, job, grid)
    pixels = np.ascontiguousarray(canvas[..., :3])
    yield Progress(done=1, label=say("Proofing the colours"))
    proof_input = make_proof_input(pixels, picture_space(preview.source), grid)
    proofed = proofed_flat(proof_input, grid, job.colour, profiles, viewing=Viewing.BLACK)
    return np.ascontiguousarray(proofed[..., :3])


def proofed_flat(
    proof_input: ProofInput, grid: PixelGrid, colour: Colour, profiles: ProfileStore, *, viewing: Viewing
) -> U8:
    """Proof a flat canvas, or the stacked canvases of a group.

    Parameters
    ----------
    proof_input : ProofInput
        As filed.
    grid : PixelGrid
        Of one canvas.
    colour : Colour
        Of the job.
    profiles : ProfileStore
        Holds the canvas profiles.
    viewing : Viewing
        What of the canvas's white and black is simulated.

    Returns
    -------
    (panels * rows, columns, 4) uint8
        srgb_encoded, and the clip difference; bare canvas is white and clips nothing.

    Raises
    ------
    FieldError, ProfileError
        The profile is not open, or lacks what is needed.
    """
    link = profiles.link(proof_input, colour, viewing=viewing, screen=Standard.SRGB)
    pixels = proof_input.pixels
    shown = np.full((*pixels.shape[:2], 4), (255, 255, 255, 0), np.uint8)
    for inked in inked_parts(pixels, grid):
        shown[inked] = link.shown(pixels[inked])
    return shown
