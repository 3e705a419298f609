"""Which corner of a canvas tells most of its sides: where the picture has something to show."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np
from numpy.typing import NDArray

from pycore.contract.job import Fill, Hung, Job, SideFill
from pycore.conventions import Side
from pycore.layout.group import panel_of
from pycore.render.corner_canvas import corner_sides, face_corner_area
from pycore.render.preview import PreviewSource

#: In the order in which they are taken where they tell as much.
CORNERS: Final = ("top-right", "top-left", "bottom-right", "bottom-left")

#: A corner is judged on so many pixels each way: large forms tell fills apart, fine texture does not.
_JUDGED_PX: Final = 10

#: What a corner counts that is seen from below, where less light falls.
_FROM_BELOW: Final = 0.8


def with_fill(job: Job, fill: Fill, *, side: Side | None = None) -> Job:
    """The job with another fill for one side, or for the sides that have none of their own.

    Parameters
    ----------
    job : Job
    fill : Fill
    side : Side, optional
        The side that gets it as its own.

    Returns
    -------
    Job

    Examples
    --------
    >>> with_fill(Job(), Fill.PLAIN).sides.fill.value
    'plain'
    >>> with_fill(Job(), Fill.PLAIN, side=Side.LEFT).sides.left.fill.value
    'plain'
    """
    if side is None:
        sides = job.sides.model_copy(update={"fill": fill})
    else:
        own = getattr(job.sides, side.value) or SideFill()
        sides = job.sides.model_copy(update={side.value: own.model_copy(update={"fill": fill})})
    return job.model_copy(update={"sides": sides})


def corner_panel(preview: PreviewSource, job: Job, corner: str) -> Job:
    """The panel of a group that has one of the group's corners, as a job of its own.

    Parameters
    ----------
    preview : PreviewSource
    job : Job
        A checked job.
    corner : str
        top-right, top-left, bottom-right or bottom-left.

    Returns
    -------
    Job

    Raises
    ------
    FieldError
        The panel's window holds less than a pixel.
    """
    starts = corner.endswith("left") if job.group.hung is Hung.ACROSS else corner.startswith("top")
    source = preview.source
    return panel_of(
        job, 1 if starts else job.group.panels, width_px=source.width_px, height_px=source.height_px
    )


def telling_corner(
    preview: PreviewSource,
    job: Job,
    *,
    face_mm: float,
    among: Sequence[str] = CORNERS,
    side: Side | None = None,
) -> str:
    """Pick the corner whose part of the face tells most, among those that the chosen fill reaches.

    It varies across both of its edges: what varies along an edge alone looks alike with most fills.

    The fill that is chosen has no say in it, so that a choice among fills does not move the corner.

    Parameters
    ----------
    preview : PreviewSource
    job : Job
        A checked job.
    face_mm : float
        How much of the face's edges is looked at.
    among : sequence of str
        Which corners.
    side : Side, optional
        The side whose own fill is chosen; else that of all sides is.

    Returns
    -------
    str

    Raises
    ------
    FieldError
        The crop holds less than a pixel.
    """
    alike = with_fill(job, Fill.MIRROR, side=side)
    following = {corner: _following(job, corner, side) for corner in among}
    most = max(following.values())
    found: dict[str, float] = {}
    for corner in among:
        if following[corner] < most:
            continue
        panel = corner_panel(preview, alike, corner)
        area = face_corner_area(preview, panel, corner=corner, face_mm=face_mm)
        small = preview.part(area, job.picture.turn, width=_JUDGED_PX, height=_JUDGED_PX)
        # In whole numbers, so that both interpreters pick the same.
        grey = small.astype(np.int64).sum(axis=2)
        told = min(_spread(grey, axis=1), _spread(grey, axis=0))
        found[corner] = told * (1.0 if corner.startswith("top") else _FROM_BELOW)
    return max(found, key=lambda corner: found[corner])


def _spread(grey: NDArray[np.int64], *, axis: int) -> int:
    """How much the picture varies along an axis; a fill differs from another by what lies across its edge."""
    count = grey.shape[axis]
    return int((count * (grey * grey).sum(axis=axis) - grey.sum(axis=axis) ** 2).sum())


def _following(job: Job, corner: str, side: Side | None) -> int:
    """How many sides of a corner the chosen fill reaches."""
    if side is not None:
        return int(side in corner_sides(corner))
    own = (getattr(job.sides, side.value) for side in corner_sides(corner))
    return sum(one is None or one.fill is None for one in own)
