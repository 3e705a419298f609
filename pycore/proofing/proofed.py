"""The flat canvas as its print will look on the screen, for everything that is shown away from the stage."""

from __future__ import annotations

from collections.abc import Generator

import numpy as np
from PIL import Image

from pycore.bridge.progress import Progress
from pycore.colour.icc.endpoints import Standard
from pycore.colour.link.viewing import Viewing
from pycore.contract.job import Job
from pycore.layout.grid import PixelGrid
from pycore.picture.tones import U8
from pycore.proofing.profile_store import Desk
from pycore.proofing.proof_input import canvas_tops, make_subject, picture_space
from pycore.render.panels import stacked_canvas
from pycore.render.preview import PreviewSource


def proofed_canvas(
    job: Job, grid: PixelGrid, preview: PreviewSource, desk: Desk
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
    desk : Desk
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
    yield Progress(done=1, label="Proofing the colours")
    subject = make_subject(pixels, picture_space(preview.source), grid)
    table = desk.link(subject, job.colour, viewing=Viewing.BLACK, screen=Standard.SRGB).pillow()
    # Bare canvas is no ink: it stays as it is.
    shown = np.full_like(pixels, 255)
    for top in canvas_tops(pixels, grid):
        inked = (slice(top + grid.rows[1], top + grid.rows[4]), slice(grid.columns[1], grid.columns[4]))
        held = Image.fromarray(np.ascontiguousarray(pixels[inked]))
        shown[inked] = np.asarray(held.filter(table))[..., :3]
    return shown
