"""The flat canvas as a model's texture: the colours of the file, or those of its print."""

from __future__ import annotations

import io
from collections.abc import Generator

import numpy as np
from PIL import Image

from pycore.contract.job import Job
from pycore.layout.grid import PixelGrid
from pycore.model.report import ModelColours
from pycore.picture.tones import U8
from pycore.progress import Progress
from pycore.proofing.profile_store import ProfileStore
from pycore.proofing.proofed import proofed_canvas
from pycore.render.panels import stacked_canvas
from pycore.render.preview import PreviewSource
from pycore.render.screen import to_screen


def canvas_texture(
    job: Job, grid: PixelGrid, preview: PreviewSource, profiles: ProfileStore, *, colours: ModelColours
) -> Generator[Progress, None, U8]:
    """Render the flat canvas in sRGB.

    Parameters
    ----------
    job : Job
        A checked job.
    grid : PixelGrid
        Of one canvas, at the texture's resolution.
    preview : PreviewSource
        The open picture.
    profiles : ProfileStore
        Holds the canvas profiles.
    colours : ModelColours

    Yields
    ------
    Progress

    Returns
    -------
    (panels * rows, columns, 3) uint8
        srgb_encoded; bare canvas is white. Of a group the panels' canvases, one below the other.

    Raises
    ------
    FieldError, GeometryError, ProfileError
        The canvas cannot be filled or proofed.
    """
    if colours is ModelColours.PRINTED:
        return (yield from proofed_canvas(job, grid, preview, profiles))
    canvas = yield from stacked_canvas(preview, job, grid)
    pixels = np.ascontiguousarray(canvas[..., :3])
    return pixels if preview.is_srgb else np.array(to_screen(pixels, preview.source))


def texture_file(pixels: U8) -> bytes:
    """Write the texture as a PNG without a profile, which a model takes as sRGB; no value is lost.

    Parameters
    ----------
    pixels : (rows, columns, 3) uint8
        srgb_encoded.

    Returns
    -------
    bytes

    Examples
    --------
    >>> texture_file(np.zeros((2, 2, 3), np.uint8))[1:4]
    b'PNG'
    """
    out = io.BytesIO()
    Image.fromarray(pixels).save(out, "PNG", compress_level=6)
    return out.getvalue()
