"""A small part of the face as the print file has it, pixel by pixel, with and without output sharpening."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pycore.contract.job import Job
from pycore.fill.checks import picture_area
from pycore.layout.grid import pixel_grid
from pycore.layout.group import panel_of
from pycore.picture.tones import U8, tones
from pycore.render.area import job_area
from pycore.render.box_sums import box_sums
from pycore.render.preview import PreviewSource
from pycore.render.resample import Area, resample
from pycore.render.sharpen import passes, sharpen

#: The picture is looked at in so many pixels along its longer side to find where its edges are.
_LOOKED_AT_PX = 240


@dataclass(frozen=True, kw_only=True, eq=False)
class Detail:
    """A part of the face at the print file's resolution.

    Attributes
    ----------
    left_px, top_px : int
        Where on the canvas it begins.
    plain, sharpened : (rows, columns, channels) uint8
        Values of the picture's own space.
    """

    left_px: int
    top_px: int
    plain: U8
    sharpened: U8


def print_detail(preview: PreviewSource, job: Job, *, width_px: int, height_px: int) -> Detail:
    """Render the part of the face that has most edges, as large as asked for or as the face is.

    Of a group it is the first panel's.

    Parameters
    ----------
    preview : PreviewSource
        The open picture.
    job : Job
        A checked job; its resolution, its enlarging and its sharpening count.
    width_px, height_px : int
        Of the part, in pixels of the print file.

    Returns
    -------
    Detail

    Raises
    ------
    FieldError
        The crop holds less than a pixel.
    """
    source = preview.source
    job = panel_of(job, 1, width_px=source.width_px, height_px=source.height_px)
    grid, area = pixel_grid(job, ppi=job.print.ppi), job_area(source, job)
    left, top, right, bottom = picture_area(grid, job)
    width, height = right - left, bottom - top
    across, down = (area.right - area.left) / width, (area.bottom - area.top) / height
    face = (grid.columns[2] - left, grid.rows[2] - top, grid.columns[3] - left, grid.rows[3] - top)
    wide, high = min(width_px, face[2] - face[0]), min(height_px, face[3] - face[1])
    x, y = _busiest(preview, job, (width, height), face, (wide, high))
    times = passes(grid.px_per_mm)
    # Sharpening looks so far around, as far as the picture goes.
    begin_x, begin_y = max(0, x - times), max(0, y - times)
    end_x, end_y = min(width, x + wide + times), min(height, y + high + times)
    around = np.empty((end_y - begin_y, end_x - begin_x, source.channels), np.uint8)
    part = Area(
        left=area.left + begin_x * across,
        top=area.top + begin_y * down,
        right=area.left + end_x * across,
        bottom=area.top + end_y * down,
    )
    for _ in resample(
        source.image,
        part,
        around,
        turn=job.picture.turn,
        tones=tones(source.linear, channels=source.channels),
        enlarging=job.picture.enlarging,
    ):
        pass
    sharp = sharpen(around, amount=job.print.sharpening, times=times)
    shown = slice(y - begin_y, y - begin_y + high), slice(x - begin_x, x - begin_x + wide)
    return Detail(left_px=left + x, top_px=top + y, plain=around[shown], sharpened=sharp[shown])


def _busiest(
    preview: PreviewSource,
    job: Job,
    size: tuple[int, int],
    face: tuple[int, int, int, int],
    part: tuple[int, int],
) -> tuple[int, int]:
    """Where on the picture the part begins in which neighbours differ most; the first of equals."""
    scale = min(1.0, _LOOKED_AT_PX / max(size))
    columns, rows = (max(2, int(one * scale)) for one in size)
    grey = preview.reduced(job, columns, rows).astype(np.int64).sum(axis=2)
    edges = np.zeros_like(grey)
    edges[:, 1:] += np.abs(np.diff(grey, axis=1))
    edges[1:] += np.abs(np.diff(grey, axis=0))
    # In whole numbers, so that both interpreters pick the same.
    first, last = (face[0] * columns // size[0], face[1] * rows // size[1]), (face[2], face[3])
    high, wide = max(1, part[1] * rows // size[1]), max(1, part[0] * columns // size[0])
    end = last[0] * columns // size[0], last[1] * rows // size[1]
    sums = box_sums(
        edges[first[1] : max(end[1], first[1] + high), first[0] : max(end[0], first[0] + wide)], high, wide
    )
    row, column = divmod(int(sums.argmax()), sums.shape[1])
    x, y = (column + first[0]) * size[0] // columns, (row + first[1]) * size[1] // rows
    return min(max(x, face[0]), face[2] - part[0]), min(max(y, face[1]), face[3] - part[1])
