"""What a page needs to show a piece on a photographed wall by itself: photograph, corners, canvas, still."""

from __future__ import annotations

import io
from collections.abc import Generator
from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.contract.job import Job
from pycore.contract.notes import Note
from pycore.contract.record import Pair
from pycore.layout.grid import PixelGrid
from pycore.model.report import ModelColours
from pycore.model.texture import canvas_texture
from pycore.picture.tones import U8
from pycore.printing.screen_picture import write_screen_picture
from pycore.progress import Progress, map_progress
from pycore.proofing.profile_store import ProfileStore
from pycore.render.panels import panel_grid
from pycore.speech import say
from pycore.tasks.open_picture import OpenPicture
from pycore.tasks.wall import HungPiece
from pycore.wall.keep import KeptPhoto, keep_photograph
from pycore.wall.measure import as_corners, mark_reference, marked_reference, snapped_corners
from pycore.wall.notes import opened_notes
from pycore.wall.photograph import WallPhoto
from pycore.wall.reference import Corners, Reference
from pycore.wall.report import StillReport

#: About how many pixels the flat canvas has that the page draws.
CANVAS_PX: Final = 2_000_000


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class OpenedWall:
    """A photograph of a wall as the page keeps it, and notes."""

    kept: KeptPhoto
    notes: list[Note]


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class FoundReference:
    """A reference's corners, and its width and height in mm."""

    corners: Corners
    size_mm: Pair
    snapped: bool
    """The corners lie where edges of the photograph meet."""


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class MadeStill:
    """A still's bytes, opened again, and notes."""

    data: bytes
    report: StillReport
    notes: list[Note]


def keep_wall_photo(
    data: bytes, *, file: str, focal_px: float | None = None
) -> Generator[Progress, None, OpenedWall]:
    """Open a photograph of a wall and make the copy that is kept, without what its file tells.

    Parameters
    ----------
    data : bytes
        The file, or a copy that was kept before.
    file : str
        Its name.
    focal_px : float, optional
        Kept beside such a copy.

    Yields
    ------
    Progress

    Returns
    -------
    OpenedWall

    Raises
    ------
    PictureError
        It is no photograph that can be used.
    """
    yield Progress(done=0, label=say("Reading the photograph"))
    kept = keep_photograph(data, file=file, focal_px=focal_px)
    return OpenedWall(kept=kept, notes=opened_notes(was_px=kept.was_px, is_px=kept.photo.size_px))


def find_reference(photo: WallPhoto, reference: Reference) -> Generator[Progress, None, FoundReference]:
    """Look for a reference; where its corners are given, move them to the edges that lie near.

    Parameters
    ----------
    photo : WallPhoto
    reference : Reference

    Yields
    ------
    Progress

    Returns
    -------
    FoundReference

    Raises
    ------
    FieldError
        It is not found, or its size or corners are wrong.
    """
    label = say("Looking for the reference")
    yield Progress(done=0, label=label)
    if reference.corners is None:
        looking = mark_reference(reference, photo)
        marked = yield from map_progress(looking, lambda done: Progress(done=done, label=label))
        return FoundReference(corners=as_corners(marked.corners_px), size_mm=marked.size_mm, snapped=True)
    snapped = snapped_corners(reference.corners, photo)
    corners = reference.corners if snapped is None else snapped
    marked = marked_reference(Reference(size=reference.size, corners=corners), photo)
    return FoundReference(corners=corners, size_mm=marked.size_mm, snapped=snapped is not None)


def wall_canvas(
    job: Job, picture: OpenPicture, profiles: ProfileStore, *, colours: ModelColours
) -> Generator[Progress, None, tuple[U8, PixelGrid]]:
    """Render the flat canvas in sRGB, for a page that draws it on the wall by itself.

    Parameters
    ----------
    job : Job
        A checked job.
    picture : OpenPicture
    profiles : ProfileStore
    colours : ModelColours

    Yields
    ------
    Progress

    Returns
    -------
    (panels * rows, columns, 4) uint8
        srgb_encoded, alpha 255.
    PixelGrid
        Of one canvas.

    Raises
    ------
    FieldError, GeometryError, ProfileError
        The canvas cannot be filled or proofed.
    """
    grid = panel_grid(job, preview_px=CANVAS_PX)
    pixels = yield from canvas_texture(job, grid, picture.preview, profiles, colours=colours)
    opaque = np.full((*pixels.shape[:2], 1), 255, np.uint8)
    return np.concatenate([pixels, opaque], axis=2), grid


def still_file(hung: HungPiece, *, file: str) -> MadeStill:
    """Write a still as a JPEG in sRGB, without metadata of the photograph, and open it again.

    Parameters
    ----------
    hung : HungPiece
    file : str
        Its name, for the report.

    Returns
    -------
    MadeStill
    """
    out = io.BytesIO()
    size = write_screen_picture(hung.pixels, out, kind="JPEG")
    report = StillReport(**dict(hung.report), file=file, bytes=len(out.getvalue()), still_px=size)
    return MadeStill(data=out.getvalue(), report=report, notes=hung.notes)
