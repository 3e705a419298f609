"""The picture as it is judged: how many pixels, and which side is where."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, TypeVar

import numpy as np
import numpy.typing as npt

from pycore.contract.job import Job, Sides
from pycore.conventions import Side
from pycore.edges.gradients import F64
from pycore.layout.group import panel_jobs
from pycore.picture.tones import U8

Number = TypeVar("Number", bound=np.generic)

#: Pixels of the faces that are judged: 1 a mm on one of 400 x 300 mm. Our own choice: as fine as one sees a
#: piece, or a group of panels, from where the whole of it is seen, and little enough work for a browser.
_FACE_PX: Final = 120_000

#: A side is judged on at least this many pixels of its depth, unless the face then had over `_MOST_PX`.
_LEAST_DEEP_PX: Final = 8
_MOST_PX: Final = 220_000


@dataclass(frozen=True, kw_only=True, eq=False)
class WorkingFace:
    """The picture on the face as it is judged, whatever its sides show now.

    Attributes
    ----------
    values : (rows, columns, 3) float64
        Encoded values, 0 to 1.
    depth_px : float
        The bar depth in these pixels.
    """

    values: F64
    depth_px: float


def working_px_per_mm(job: Job) -> float:
    """The resolution at which edges are judged; it depends on the job's sizes alone.

    Parameters
    ----------
    job : Job

    Returns
    -------
    float
        Pixels per mm.

    Examples
    --------
    >>> round(working_px_per_mm(Job()), 3)
    1.414
    """
    area = job.face.width_mm * job.face.height_mm * job.group.panels
    wanted = max(math.sqrt(_FACE_PX / area), _LEAST_DEEP_PX / job.bars.depth_mm)
    return min(wanted, math.sqrt(_MOST_PX / area))


def working_faces(
    job: Job, resampled: Callable[[Job, int, int], U8], *, width_px: int, height_px: int
) -> list[WorkingFace]:
    """Reduce the picture for judging, as if no side ran on: figures do not move with what they judge.

    Parameters
    ----------
    job : Job
        A checked job.
    resampled : callable
        Gives the window on the picture of a job with so many columns and rows, (rows, columns, 3 or more)
        uint8 in encoded values.
    width_px, height_px : int
        The upright picture's size, before the job's turn.

    Returns
    -------
    list of WorkingFace
        One, or one for each panel of a group.

    Raises
    ------
    FieldError
        The crop holds less than a pixel.
    """
    per_mm = working_px_per_mm(job)
    # Even numbers, so that what is halved is halved alike from every side.
    columns, rows = (
        2 * max(2, round(size_mm * per_mm / 2)) for size_mm in (job.face.width_mm, job.face.height_mm)
    )
    bare = job.model_copy(update={"sides": Sides()})
    return [
        WorkingFace(
            values=resampled(panel, columns, rows)[..., :3].astype(np.float64) / 255,
            depth_px=job.bars.depth_mm * per_mm,
        )
        for panel in panel_jobs(bare, width_px=width_px, height_px=height_px)
    ]


def halved(values: F64) -> F64:
    """An image at half its resolution: means of two by two pixels.

    Parameters
    ----------
    values : (rows, columns, channels) float64
        A last odd row or column is left out.

    Returns
    -------
    (rows // 2, columns // 2, channels) float64

    Examples
    --------
    >>> halved(np.arange(8.0).reshape(2, 4, 1)).ravel().tolist()
    [2.5, 4.5]
    """
    rows, columns = len(values) // 2 * 2, values.shape[1] // 2 * 2
    across = values[:rows, 0:columns:2] + values[:rows, 1:columns:2]
    result: F64 = (across[0::2] + across[1::2]) / 4
    return result


def from_edge(values: npt.NDArray[Number], side: Side) -> npt.NDArray[Number]:
    """An image with one side's front edge as its first row, going inwards row by row.

    Parameters
    ----------
    values : (rows, columns, ...) array
        Of the face, or of the canvas.
    side : Side

    Returns
    -------
    array of the same type
        A view. Columns run from left to right, or from top to bottom.

    Examples
    --------
    >>> from_edge(np.array([[1.0, 2.0], [3.0, 4.0]]), Side.RIGHT).tolist()
    [[2.0, 4.0], [1.0, 3.0]]
    """
    if side is Side.TOP:
        return values
    if side is Side.BOTTOM:
        return values[::-1]
    across = values.swapaxes(0, 1)
    return across if side is Side.LEFT else across[::-1]
