"""Sizes of the flat canvas, in mm as printed, before it is stretched."""

from __future__ import annotations

from dataclasses import dataclass

from pycore.contract.job import Job
from pycore.contract.record import Pair


@dataclass(frozen=True, kw_only=True)
class FlatSizes:
    """The flat canvas as printed: (width, height) in mm and where its lines run.

    Attributes
    ----------
    face_zone_mm, inked_mm, canvas_mm : (width, height)
        The printed face with its take-up; what carries ink; what is cut out of the sheet.
    columns_mm : tuple of 6 floats
        From the canvas's left edge: 0, inked from, left front edge, right front edge, inked to, canvas width.
    rows_mm : tuple of 6 floats
        The same from the top edge downwards.
    back_columns_mm, back_rows_mm : (first, second)
        Where the canvas folds round the back edges, from the left and from the top edge.
    """

    face_zone_mm: Pair
    inked_mm: Pair
    canvas_mm: Pair
    columns_mm: tuple[float, ...]
    rows_mm: tuple[float, ...]
    back_columns_mm: Pair
    back_rows_mm: Pair


def stretch_factors(job: Job) -> Pair:
    """1 + stretch across and down: what the canvas measures when pulled tight over what is printed.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    tuple of float
        Across and down.

    Examples
    --------
    >>> stretch_factors(Job())
    (1.0, 1.0)
    """
    across, down = job.canvas.stretch_percent
    return 1 + across / 100, 1 + down / 100


def flat_sizes(job: Job) -> FlatSizes:
    """Lay the canvas out flat.

    With face W x H, depth d, turn-over r, ink-over p and thickness t, the printed face zone is W + 2t by
    H + 2t, because the outer surface passes round the bars one thickness out; the inked area adds d + p and
    the canvas d + r on every side. All are divided by 1 + stretch, per axis.

    Parameters
    ----------
    job : Job
        A checked job.

    Returns
    -------
    FlatSizes
        In mm.

    Examples
    --------
    >>> [round(length, 3) for length in flat_sizes(Job()).canvas_mm]
    [390.9, 290.9]
    """
    take_up = 2 * job.canvas.thickness_mm
    wide, high = stretch_factors(job)
    columns = _lines(job, job.face.width_mm + take_up, wide)
    rows = _lines(job, job.face.height_mm + take_up, high)
    turned_mm = job.wrap.turnover_mm
    return FlatSizes(
        face_zone_mm=(columns[3] - columns[2], rows[3] - rows[2]),
        inked_mm=(columns[4] - columns[1], rows[4] - rows[1]),
        canvas_mm=(columns[5], rows[5]),
        columns_mm=columns,
        rows_mm=rows,
        back_columns_mm=(turned_mm / wide, columns[5] - turned_mm / wide),
        back_rows_mm=(turned_mm / high, rows[5] - turned_mm / high),
    )


def _lines(job: Job, zone_mm: float, stretched: float) -> tuple[float, ...]:
    depth, turned, inked = job.bars.depth_mm, job.wrap.turnover_mm, job.wrap.ink_over_mm
    near = turned + depth
    lines = (0.0, turned - inked, near, near + zone_mm, near + zone_mm + depth + inked, 2 * near + zone_mm)
    return tuple(line / stretched for line in lines)
