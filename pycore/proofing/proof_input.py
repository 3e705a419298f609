"""What is proofed: the flat canvas in an RGB space, and which part of it is face and which is side."""

from __future__ import annotations

from collections.abc import Generator
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from numpy.typing import NDArray

from pycore.colour.icc.endpoints import Endpoint, Standard
from pycore.colour.icc.profile import parse_profile
from pycore.colour.mapping.picture_colours import PictureColours, Region, picture_colours
from pycore.contract.job import Job
from pycore.layout.grid import PixelGrid
from pycore.picture.source import SourcePicture
from pycore.picture.tones import U8
from pycore.progress import Progress
from pycore.render.panels import panel_grid, stacked_canvas
from pycore.render.preview import PreviewSource

#: Pixels of the flat canvas that figures, labels and what is brought in are taken from.
PROOF_INPUT_PX: Final = 2_000_000


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class ProofInput:
    """Pixels to be proofed.

    Attributes
    ----------
    pixels : (rows, columns, 3) uint8
        The flat canvas, encoded values of `space`; of a group all canvases, one below the other.
    space : Profile or Standard
        RGB.
    colours : PictureColours
        Of the face and the four sides as they are seen; ink on the turn-over does not count.
    """

    pixels: U8
    space: Endpoint
    colours: PictureColours


def picture_space(source: SourcePicture) -> Endpoint:
    """The RGB space that a picture is proofed in: its own, or sRGB for grey, CMYK and what has no profile.

    Parameters
    ----------
    source : SourcePicture

    Returns
    -------
    Profile or Standard
    """
    if source.image.mode == "RGB" and source.profile is not None:
        return parse_profile(source.profile)
    return Standard.SRGB


def make_proof_input(pixels: U8, space: Endpoint, grid: PixelGrid) -> ProofInput:
    """Make a canvas, or the stacked canvases of a group, ready for proofing.

    Parameters
    ----------
    pixels : (rows, columns, 3) uint8
        The flat canvas, or several of them.
    space : Profile or Standard
        Whose values they are.
    grid : PixelGrid
        The lines of one canvas.

    Returns
    -------
    ProofInput
        Its face is the faces of all canvases together, and so is every side.
    """
    one = seen_regions(grid)
    tops = canvas_tops(pixels, grid)
    moved = [
        replace(region, top=region.top + top, bottom=region.bottom + top) for top in tops for region in one
    ]
    colours = picture_colours(pixels, moved)
    if len(tops) > 1:
        counts = colours.counts.reshape(len(tops), len(one), -1).sum(axis=0)
        colours = replace(colours, counts=counts, regions=colours.regions[: len(one)])
    return ProofInput(pixels=pixels, space=space, colours=colours)


def canvas_tops(pixels: NDArray[np.uint8], grid: PixelGrid) -> list[int]:
    """The first row of each of the stacked canvases.

    Parameters
    ----------
    pixels : (rows, columns) or (rows, columns, channels) uint8
        Canvases stacked from the top down, or a value for each of their pixels.
    grid : PixelGrid
        That of one canvas.

    Returns
    -------
    list of int

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> from pycore.layout.grid import pixel_grid
    >>> grid = pixel_grid(Job(), ppi=25.4)
    >>> canvas_tops(np.zeros((2 * grid.height_px, grid.width_px, 3), np.uint8), grid)
    [0, 291]
    """
    return list(range(0, len(pixels), grid.height_px))


def inked_parts(pixels: NDArray[np.uint8], grid: PixelGrid) -> list[tuple[slice, slice]]:
    """Rows and columns of each of the stacked canvases that carry ink.

    Parameters
    ----------
    pixels : (rows, columns) or (rows, columns, channels) uint8
        As for `canvas_tops`.
    grid : PixelGrid
        That of one canvas.

    Returns
    -------
    list of (slice, slice)

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> from pycore.layout.grid import pixel_grid
    >>> grid = pixel_grid(Job(), ppi=25.4)
    >>> inked_parts(np.zeros((grid.height_px, grid.width_px, 3), np.uint8), grid)
    [(slice(19, 272, None), slice(19, 372, None))]
    """
    columns = slice(grid.columns[1], grid.columns[4])
    return [(slice(top + grid.rows[1], top + grid.rows[4]), columns) for top in canvas_tops(pixels, grid)]


def seen_regions(grid: PixelGrid) -> list[Region]:
    """The face and the four sides on the flat canvas, as far as they are seen.

    Parameters
    ----------
    grid : PixelGrid

    Returns
    -------
    list of Region
        Face, top, right, bottom, left.

    Examples
    --------
    >>> from pycore.contract.job import Job
    >>> from pycore.layout.grid import pixel_grid
    >>> [region.name for region in seen_regions(pixel_grid(Job(), ppi=72))]
    ['face', 'top', 'right', 'bottom', 'left']
    """
    left, right = grid.columns[2], grid.columns[3]
    top, bottom = grid.rows[2], grid.rows[3]
    return [
        Region(name="face", left=left, top=top, right=right, bottom=bottom),
        Region(name="top", left=left, top=grid.back_rows[0], right=right, bottom=top),
        Region(name="right", left=right, top=top, right=grid.back_columns[1], bottom=bottom),
        Region(name="bottom", left=left, top=bottom, right=right, bottom=grid.back_rows[1]),
        Region(name="left", left=grid.back_columns[0], top=top, right=left, bottom=bottom),
    ]


def flat_proof_input(
    job: Job, preview: PreviewSource, *, most_px: int = PROOF_INPUT_PX
) -> Generator[Progress, None, tuple[ProofInput, PixelGrid]]:
    """Render a job's flat canvas, of a group all panels', ready for proofing.

    Parameters
    ----------
    job : Job
        A checked job.
    preview : PreviewSource
        The open picture.
    most_px : int
        About how many pixels all canvases have together.

    Yields
    ------
    Progress

    Returns
    -------
    ProofInput, PixelGrid
        The lines are those of one canvas.

    Raises
    ------
    FieldError, GeometryError, ProfileError
        The canvas cannot be filled, or the picture's profile cannot be used.
    """
    grid = panel_grid(job, preview_px=most_px)
    canvas = yield from stacked_canvas(preview, job, grid)
    pixels = np.ascontiguousarray(canvas[..., :3])
    return make_proof_input(pixels, picture_space(preview.source), grid), grid
