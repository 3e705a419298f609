"""The flat canvas as a model's texture: the colours of the file, or those of its print."""

from __future__ import annotations

import io
from collections.abc import Generator

import numpy as np
from PIL import Image

from pycore.bridge.messages import Progress
from pycore.bridge.showing_messages import ModelColours
from pycore.colour.endpoints import Standard
from pycore.colour.viewing import Viewing
from pycore.contract.job import Job
from pycore.layout.grid import PixelGrid
from pycore.printing.preview import PreviewSource
from pycore.printing.screen import to_screen
from pycore.printing.tones import U8
from pycore.proofing.desk import Desk
from pycore.proofing.subject import make_subject, picture_space


def canvas_texture(
    job: Job, grid: PixelGrid, preview: PreviewSource, desk: Desk, *, colours: ModelColours
) -> Generator[Progress, None, U8]:
    """Render the flat canvas in sRGB.

    Parameters
    ----------
    job : Job
        A checked job.
    grid : PixelGrid
        The canvas's lines at the texture's resolution.
    preview : PreviewSource
        The open picture.
    desk : Desk
        Holds the canvas profiles.
    colours : ModelColours

    Yields
    ------
    Progress

    Returns
    -------
    (rows, columns, 3) uint8
        srgb_encoded; bare canvas is white.

    Raises
    ------
    FieldError, GeometryError, ProfileError
        The canvas cannot be filled or proofed.
    """
    canvas = yield from preview.canvas(job, grid)
    pixels = np.ascontiguousarray(canvas[..., :3])
    if colours is ModelColours.FILED:
        return pixels if preview.is_srgb else np.array(to_screen(pixels, preview.source))
    yield Progress(done=1, label="Proofing the colours")
    subject = make_subject(pixels, picture_space(preview.source), grid)
    link = desk.link(subject, job.colour, viewing=Viewing.BLACK, screen=Standard.SRGB)
    # Bare canvas is no ink: it stays as it is.
    shown = np.full_like(pixels, 255)
    inked = (slice(grid.rows[1], grid.rows[4]), slice(grid.columns[1], grid.columns[4]))
    held = Image.fromarray(np.ascontiguousarray(pixels[inked]))
    shown[inked] = np.asarray(held.filter(link.pillow()))[..., :3]
    return shown


def texture_file(pixels: U8) -> bytes:
    """The texture as a PNG without a profile, which a model takes as sRGB; no value is lost.

    Examples
    --------
    >>> texture_file(np.zeros((2, 2, 3), np.uint8))[1:4]
    b'PNG'
    """
    out = io.BytesIO()
    Image.fromarray(pixels).save(out, "PNG", compress_level=6)
    return out.getvalue()
