"""The piece on a photographed wall: measured, drawn in the photograph's perspective, written as a still."""

from __future__ import annotations

import io
from collections.abc import Generator
from dataclasses import dataclass
from pathlib import Path
from typing import Final

import numpy as np

from pycore.contract.job import Job
from pycore.contract.notes import Note
from pycore.conventions import MM_PER_INCH
from pycore.errors import FieldError
from pycore.fold.spec import fold_spec
from pycore.layout.grid import PixelGrid, pixel_grid, preview_ppi
from pycore.model.texture import canvas_texture
from pycore.picture.tones import U8
from pycore.printing.place import file_at
from pycore.printing.screen_picture import screen_kind, write_screen_picture
from pycore.progress import Progress, map_progress, part_of
from pycore.proofing.profile_store import ProfileStore
from pycore.speech import say
from pycore.tasks.open_picture import OpenPicture
from pycore.wall.draw import Look, draw_pieces
from pycore.wall.measure import MeasuredWall, measure
from pycore.wall.photograph import WallPhoto, open_photograph
from pycore.wall.piece import canvas_parts, panels_of
from pycore.wall.report import StillReport, WallOptions, WallReport

#: Pixels of the canvas for one of the photograph, and of all canvases at most.
_FINENESS: Final = 1.4
_MOST_PX: Final = 12_000_000
_LEAST_PX: Final = 40_000
#: Share of the time that the canvas takes, for the progress only.
_CANVAS: Final = 0.5

_STILL: Final = "still"


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class HungPiece:
    """A photograph with the piece on its wall.

    Attributes
    ----------
    pixels : (rows, columns, 3) uint8
        srgb_encoded.
    report : WallReport
    notes : list of Note
    """

    pixels: U8
    report: WallReport
    notes: list[Note]


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class WrittenStill:
    """A written still, opened again, and notes."""

    report: StillReport
    notes: list[Note]


def open_wall_photo(data: bytes, *, file: str) -> Generator[Progress, None, WallPhoto]:
    """Open a photograph of a wall.

    Parameters
    ----------
    data : bytes
        The file.
    file : str
        Its name.

    Yields
    ------
    Progress

    Returns
    -------
    WallPhoto

    Raises
    ------
    PictureError
        It is no photograph that can be used.
    """
    yield Progress(done=0, label=say("Reading the photograph"))
    return open_photograph(data, file=file)


def measure_wall(job: Job, photo: WallPhoto, *, options: WallOptions) -> MeasuredWall:
    """Measure the wall and say where the piece is seen, without drawing it.

    Parameters
    ----------
    job : Job
        A checked job.
    photo : WallPhoto
    options : WallOptions

    Returns
    -------
    MeasuredWall

    Raises
    ------
    FieldError
        A reference or its corners are wrong or not found, or the piece is not seen.
    """
    return measure(job, photo, options)


def hang_on_wall(
    job: Job,
    picture: OpenPicture,
    profiles: ProfileStore,
    photo: WallPhoto,
    *,
    options: WallOptions,
    in_front: WallPhoto | None = None,
) -> Generator[Progress, None, HungPiece]:
    """Draw a job's folded canvas on a photographed wall, at true scale, with its sides, depth and shadow.

    Parameters
    ----------
    job : Job
        A checked job.
    picture : OpenPicture
    profiles : ProfileStore
    photo : WallPhoto
    options : WallOptions
    in_front : WallPhoto, optional
        A mask of the photograph's size: white where something stands before the piece.

    Yields
    ------
    Progress

    Returns
    -------
    HungPiece

    Raises
    ------
    FieldError, GeometryError, ProfileError
        The wall cannot be measured, the mask is of another size, or the canvas cannot be folded, filled or
        proofed.
    """
    yield Progress(done=0, label=say("Measuring the wall"))
    mask = None if in_front is None else _mask(in_front, photo)
    # The fold first: it can refuse the job, and then nothing has been drawn for nothing.
    fold_spec(job)
    wall = measure(job, photo, options)
    grid = _grid(job, wall, photo)
    steps = canvas_texture(job, grid, picture.preview, profiles, colours=options.colours)
    canvases = yield from part_of(steps, begin=0.0, share=_CANVAS)
    pieces = [
        (box, panels_of(box, canvas_parts(canvas, grid)))
        for box, canvas in zip(wall.boxes, np.split(canvases, len(wall.boxes)), strict=True)
    ]
    drawing = draw_pieces(
        photo.pixels,
        np.diag([photo.scale, photo.scale, 1.0]) @ wall.fit.camera,
        pieces,
        light=wall.light,
        look=Look(amount=options.room_light, shadow=options.shadow, from_deg=wall.report.light_from_deg),
        in_front=mask,
    )
    drawn = yield from part_of(map_progress(drawing, _drawing), begin=_CANVAS, share=1 - _CANVAS)
    return HungPiece(pixels=drawn, report=wall.report, notes=[*picture.preview.notes, *wall.notes])


def check_still_place(out: Path) -> None:
    """Find out before the work that a still cannot be written there.

    Parameters
    ----------
    out : Path

    Raises
    ------
    FieldError
        Its name ends otherwise than in .png, .jpg or .jpeg.
    OutputError
        Its folder does not exist, or it may not be written.
    """
    screen_kind(out, field=_STILL)


def write_still(hung: HungPiece, *, out: Path) -> WrittenStill:
    """Write a still in sRGB, without metadata of the photograph, and open it again.

    Parameters
    ----------
    hung : HungPiece
    out : Path
        Ends in .png, .jpg or .jpeg.

    Returns
    -------
    WrittenStill

    Raises
    ------
    FieldError, OutputError
        Another ending, or the file cannot be written there.
    """
    kind = screen_kind(out, field=_STILL)
    with file_at(out, field=_STILL) as file:
        still_px = write_screen_picture(hung.pixels, file, kind=kind)
        size = file.seek(0, io.SEEK_END)
    report = StillReport(**dict(hung.report), file=out.name, bytes=size, still_px=still_px)
    return WrittenStill(report=report, notes=hung.notes)


def _grid(job: Job, wall: MeasuredWall, photo: WallPhoto) -> PixelGrid:
    """As fine as the photograph shows the piece, and no finer than is worth it."""
    face = np.array(wall.report.panels_px[0]) * photo.scale
    edges = np.linalg.norm(np.roll(face, -1, axis=0) - face, axis=1)
    per_mm = max(max(edges[0], edges[2]) / job.face.width_mm, max(edges[1], edges[3]) / job.face.height_mm)
    most = preview_ppi(job, preview_px=_MOST_PX // len(wall.boxes))
    least = preview_ppi(job, preview_px=_LEAST_PX)
    return pixel_grid(job, ppi=float(np.clip(_FINENESS * per_mm * MM_PER_INCH, least, most)))


def _mask(in_front: WallPhoto, photo: WallPhoto) -> U8:
    if in_front.size_px != photo.size_px:
        wide, high = photo.size_px
        raise FieldError(
            field="in_front",
            expected=say("a mask of {wide} x {high} pixels, as the upright photograph", wide=wide, high=high),
            got=say("{wide} x {high} pixels", wide=in_front.size_px[0], high=in_front.size_px[1]),
            remedy=say("paint it over a copy of the photograph"),
        )
    return np.asarray(in_front.image.convert("L").resize(photo.image.size))


def _drawing(done: float) -> Progress:
    return Progress(done=done, label=say("Drawing the piece on the wall"))
