"""Whether a canvas has the pixels that its fills ask for. Needs no arrays, so that a layout loads none."""

from __future__ import annotations

from collections.abc import Collection

from pycore.contract.job import Fill, Job, ResolvedFill, fill_of, side_fill
from pycore.conventions import Side, round_half_up
from pycore.errors import GeometryError
from pycore.layout.grid import PixelGrid
from pycore.speech import say


def picture_area(grid: PixelGrid, job: Job) -> tuple[int, int, int, int]:
    """The part of the canvas that the picture itself covers: the face zone and the sides where it runs on.

    Parameters
    ----------
    grid : PixelGrid
    job : Job

    Returns
    -------
    (left, top, right, bottom) : tuple of int
        Pixels, right and bottom excluded.

    Examples
    --------
    >>> from pycore.layout.grid import pixel_grid
    >>> picture_area(pixel_grid(Job(), ppi=25.4), Job())
    (45, 45, 346, 246)
    """
    runs_on = {side: fill_of(job.sides, side) is Fill.RUN_ON for side in Side}
    return (
        grid.back_columns[0] if runs_on[Side.LEFT] else grid.columns[2],
        grid.back_rows[0] if runs_on[Side.TOP] else grid.rows[2],
        grid.back_columns[1] if runs_on[Side.RIGHT] else grid.columns[3],
        grid.back_rows[1] if runs_on[Side.BOTTOM] else grid.rows[3],
    )


def check_fills(grid: PixelGrid, job: Job, *, only: Collection[Side] = tuple(Side)) -> None:
    """Check that the face has the pixels which the fills ask of it.

    Parameters
    ----------
    grid : PixelGrid
    job : Job
        A checked job.
    only : collection of Side
        Which sides the canvas has: a part of a canvas has not all four.

    Raises
    ------
    GeometryError
        A mirror or fade needs more pixels than the face has; a band is wider than the face.

    Examples
    --------
    >>> from pycore.layout.grid import pixel_grid
    >>> check_fills(pixel_grid(Job(), ppi=72), Job())
    """
    per_mm = grid.px_per_mm
    left, top, right, bottom = picture_area(grid, job)
    wide, high = right - left, bottom - top
    reaches = {
        Side.TOP: top - grid.rows[1],
        Side.RIGHT: grid.columns[4] - right,
        Side.BOTTOM: grid.rows[4] - bottom,
        Side.LEFT: left - grid.columns[1],
    }
    for side in Side:
        if side not in only:
            continue
        fill = side_fill(job.sides, side)
        upright = side in (Side.TOP, Side.BOTTOM)
        held = high if upright else wide
        face = (grid.rows[3] - grid.rows[2]) if upright else (grid.columns[3] - grid.columns[2])
        # A continued side looks no deeper than the face is.
        if fill.fill in (Fill.MIRROR, Fill.FADE) and reaches[side] > held:
            raise GeometryError(
                field="bars.depth_mm",
                expected=say(
                    "at most {held:.1f} mm for the {side} side (the fill “{fill}” takes at most "
                    "{held2:.1f} mm from the face, bleed included)",
                    held=held / per_mm - job.wrap.ink_over_mm,
                    side=side,
                    fill=fill.fill,
                    held2=held / per_mm,
                ),
                got=say("{depth_mm:g} mm", depth_mm=job.bars.depth_mm),
                remedy=say("use shallower bars or less bleed, or fill that side with drawn-out or plain"),
            )
        if uses_band(fill) and band_px(fill, grid) > face:
            raise GeometryError(
                field=_band_field(job, side),
                expected=say("at most {face:.1f} mm, the size of the face", face=face / per_mm),
                got=say("{band_mm:g} mm", band_mm=fill.band_mm),
                remedy=say("average a narrower band"),
            )


def needed_rows(grid: PixelGrid, job: Job, side: Side) -> int:
    """Count the picture's rows that top or bottom needs to be filled, from the picture's own edge.

    Parameters
    ----------
    grid : PixelGrid
    job : Job
    side : Side
        Top or bottom.

    Returns
    -------
    int

    Examples
    --------
    >>> from pycore.layout.grid import pixel_grid
    >>> needed_rows(pixel_grid(Job(), ppi=25.4), Job(), Side.TOP)
    27
    """
    fill = side_fill(job.sides, side)
    at_top = side is Side.TOP
    picture = picture_area(grid, job)[1 if at_top else 3]
    face = grid.rows[2 if at_top else 3]
    # At least a row of the face; of a side that the picture runs on to, all of it.
    rows = abs(face - picture) + 1
    rows += abs(grid.rows[1 if at_top else 4] - picture)
    return rows + (band_px(fill, grid) if uses_band(fill) else 0)


def uses_band(fill: ResolvedFill) -> bool:
    """Say whether a fill averages the band beside the edge.

    Parameters
    ----------
    fill : ResolvedFill

    Returns
    -------
    bool
    """
    coloured = fill.fill in (Fill.PLAIN, Fill.FADE) and fill.colour == "edge"
    return fill.fill is Fill.DRAWN_OUT or coloured


def band_px(fill: ResolvedFill, grid: PixelGrid) -> int:
    """Count the band's rows.

    Parameters
    ----------
    fill : ResolvedFill
    grid : PixelGrid

    Returns
    -------
    int
        Pixels, at least one.
    """
    return max(1, round_half_up(fill.band_mm * grid.px_per_mm))


def _band_field(job: Job, side: Side) -> str:
    own = getattr(job.sides, side.value)
    return "sides.band_mm" if own is None or own.band_mm is None else f"sides.{side}.band_mm"
