"""From marked or looked-for references to the wall, the camera and the place of a piece."""

from __future__ import annotations

from collections.abc import Generator
from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.contract.job import Job
from pycore.contract.notes import Note
from pycore.errors import FieldError
from pycore.layout.group import group_size_mm, panel_centres_mm
from pycore.progress import run_to_end
from pycore.speech import say
from pycore.wall.aspect import nearest_size
from pycore.wall.corners import check_corners
from pycore.wall.find_paper import refine_in, search_paper
from pycore.wall.fit_wall import Marked, WallFit, fit_wall, usual_focal_px
from pycore.wall.least_squares import Floats
from pycore.wall.light import RoomLight, read_light
from pycore.wall.notes import wall_notes
from pycore.wall.photograph import WallPhoto
from pycore.wall.piece import Box
from pycore.wall.place import is_cut_off, seen_corners
from pycore.wall.reference import Corners, Reference, reference_sizes
from pycore.wall.report import WallOptions, WallReport

#: How far from a hand's marks edges are looked for, as a share of the photograph's longer side.
_SNAP_SHARE: Final = 0.004


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class MeasuredWall:
    """A wall, and where a piece hangs on it.

    Attributes
    ----------
    fit : WallFit
        In pixels of the full upright photograph.
    light : RoomLight
    boxes : list of Box
        Each panel.
    report : WallReport
    notes : list of Note
    """

    fit: WallFit
    light: RoomLight
    boxes: list[Box]
    report: WallReport
    notes: list[Note]


def measure(job: Job, photo: WallPhoto, options: WallOptions) -> MeasuredWall:
    """Measure a photograph's wall and place a job's piece on it.

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
    marked = [marked_reference(one, photo) for one in options.references]
    fit = fit_wall(marked, size_px=photo.size_px, filed_focal_px=photo.focal_px)
    boxes, whole = _boxes(job, options)
    corners = seen_corners(fit.camera, boxes, whole, size_px=photo.size_px)
    within = fit.size_within_mm(whole.centre_mm, whole.size_mm)
    light = read_light(
        photo.pixels,
        np.diag([photo.scale, photo.scale, 1.0]) @ fit.wall_to_photo,
        reference_mm=marked[0].size_mm,
        centre_mm=whole.centre_mm,
        size_mm=whole.size_mm,
    )
    first, second, third = ((float(a), float(b), float(c)) for a, b, c in fit.wall_to_photo)
    from_deg = light.from_deg if options.light_from_deg is None else options.light_from_deg
    report = WallReport(
        wall_to_photo=(first, second, third),
        focal_px=fit.pose.focal_px,
        focal_from=fit.focal_from,
        off_normal_deg=fit.pose.off_normal_deg,
        photo_px=photo.size_px,
        references_mm=tuple(one.size_mm for one in marked),
        corners_px=tuple(as_corners(one.corners_px) for one in marked),
        face_px=as_corners(corners[0]),
        panels_px=tuple(as_corners(one) for one in corners[1:]),
        uncertainty_percent=100 * within[0] / whole.size_mm[0],
        width_within_mm=within[0],
        height_within_mm=within[1],
        light_from_deg=from_deg,
    )
    notes = wall_notes(
        fit,
        light,
        unsure=max(within[0] / whole.size_mm[0], within[1] / whole.size_mm[1]),
        has_filed_focal=photo.focal_px is not None,
        is_reduced=photo.scale < 1,
        is_cut_off=is_cut_off(corners[0], size_px=photo.size_px),
    )
    return MeasuredWall(fit=fit, light=light, boxes=boxes, report=report, notes=notes)


def marked_reference(reference: Reference, photo: WallPhoto) -> Marked:
    """A reference with its size, and its corners as given or as found in the photograph.

    Parameters
    ----------
    reference : Reference
    photo : WallPhoto

    Returns
    -------
    Marked

    Raises
    ------
    FieldError
        Its size or corners are wrong, or it is not found.
    """
    return run_to_end(mark_reference(reference, photo))


def mark_reference(reference: Reference, photo: WallPhoto) -> Generator[float, None, Marked]:
    """Mark a reference: its size, and its corners as given or as found in the photograph.

    Parameters
    ----------
    reference : Reference
    photo : WallPhoto

    Yields
    ------
    float
        How much of the work is done, 0 to 1.

    Returns
    -------
    Marked

    Raises
    ------
    FieldError
        Its size or corners are wrong, or it is not found.
    """
    sizes = reference_sizes(reference.size)
    width, height = photo.size_px
    usual = usual_focal_px(photo.size_px)
    if reference.corners is None:
        focal = None if photo.focal_px is None else photo.focal_px * photo.scale
        found = yield from search_paper(photo.image, sizes, focal_px=focal, usual_px=usual * photo.scale)
        if found is None:
            raise FieldError(
                field="corners",
                expected=say("found in the photograph, or given"),
                got=say("a photograph in which no sheet of that size is seen surely"),
                remedy=say("mark the reference's four corners by hand"),
            )
        corners: Floats = found.corners_px / photo.scale
    else:
        corners = check_corners(reference.corners, width_px=width, height_px=height)
    size, _ = nearest_size(
        corners, sizes, focal_px=photo.focal_px, usual_px=usual, centre_px=np.array([width, height]) / 2
    )
    return Marked(size_mm=size, corners_px=corners)


def snapped_corners(corners: Corners, photo: WallPhoto) -> Corners | None:
    """Corners that a hand has marked roughly, moved to where the edges' lines meet.

    Parameters
    ----------
    corners : four (x, y)
        Upper left, upper right, lower right, lower left; pixels of the full upright photograph.
    photo : WallPhoto

    Returns
    -------
    four (x, y), or None
        None where the edges are not seen within reach.

    Raises
    ------
    FieldError
        The corners are those of no rectangle.
    """
    width, height = photo.size_px
    found = check_corners(corners, width_px=width, height_px=height)
    reach = max(4.0, _SNAP_SHARE * max(photo.image.size))
    lines = refine_in(photo.image, found * photo.scale, reach_px=reach)
    return None if lines is None else as_corners(lines.corners_px / photo.scale)


def as_corners(points: Floats) -> Corners:
    """Four points as plain numbers.

    Parameters
    ----------
    points : (4, 2) float64

    Returns
    -------
    four (x, y)

    Examples
    --------
    >>> as_corners(np.zeros((4, 2)))[0]
    (0.0, 0.0)
    """
    first, second, third, fourth = ((float(x), float(y)) for x, y in points)
    return first, second, third, fourth


def _boxes(job: Job, options: WallOptions) -> tuple[list[Box], Box]:
    """Each panel's box and the one round all."""
    face, depth = (job.face.width_mm, job.face.height_mm), job.bars.depth_mm
    x, y = options.at_mm
    boxes = [
        Box(centre_mm=(x + right, y + up), size_mm=face, depth_mm=depth)
        for right, up in panel_centres_mm(job)
    ]
    if len(boxes) == 1:
        return boxes, boxes[0]
    take_up = 2 * job.canvas.thickness_mm
    wide, high = group_size_mm(job)
    whole = Box(centre_mm=(x, y), size_mm=(wide - take_up, high - take_up), depth_mm=depth)
    return boxes, whole
