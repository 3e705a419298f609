"""Only a corner of the flat canvas, few pixels, for a small picture of it: filled as the whole would be."""

from __future__ import annotations

from collections.abc import Generator
from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

from pycore.contract.job import Fill, Group, Job, ResolvedFill, SideFill, Sides, side_fill
from pycore.conventions import MM_PER_INCH, Side
from pycore.fill.checks import picture_area, uses_band
from pycore.fill.colour import mean_light, srgb_values
from pycore.layout.grid import PixelGrid, pixel_grid, preview_ppi
from pycore.layout.window import picture_spans
from pycore.picture.tones import U8
from pycore.progress import Progress
from pycore.render.area import job_area
from pycore.render.canvas import bare_canvas, fill_canvas
from pycore.render.preview import PreviewSource
from pycore.render.resample import Area

#: Pixels from which the mean colour beside an edge is taken, along the edge and across it.
_BAND_PX: Final = (128, 4)

#: Pixels of a whole canvas where a fill cannot be made of a corner alone.
_WHOLE_PX: Final = 400_000

#: The two sides that are not seen cost nothing.
_UNSEEN: Final = SideFill(fill=Fill.PLAIN, colour="#808080")


@dataclass(frozen=True, kw_only=True, eq=False)
class CornerCanvas:
    """Pixels of the flat canvas about one corner of the face, and where they lie.

    Attributes
    ----------
    pixels : (rows, columns, 4) uint8
        As `PreviewSource.canvas` gives them.
    column, row : tuple of 3 float
        Of the far end of what of the face is there, of the face's corner, and of the canvas's edge.
    across_mm, down_mm : tuple of 3 float
        The same three lines as distances from the corner, outwards, on the flat sheet.
    """

    pixels: U8
    column: tuple[float, float, float]
    row: tuple[float, float, float]
    across_mm: tuple[float, float, float]
    down_mm: tuple[float, float, float]

    def places(
        self, across_mm: npt.NDArray[np.float32], down_mm: npt.NDArray[np.float32]
    ) -> npt.NDArray[np.intp]:
        """The nearest pixels to places on the flat sheet.

        Parameters
        ----------
        across_mm, down_mm : (n,) float32
            Outwards from the corner.

        Returns
        -------
        (n,) intp
            Into the pixels, row by row.
        """
        rows, columns = self.pixels.shape[:2]
        column = _line(across_mm, self.across_mm, self.column, columns)
        row = _line(down_mm, self.down_mm, self.row, rows)
        return row * columns + column


def corner_sides(corner: str) -> tuple[Side, Side]:
    """The upright and the level side that meet in a corner.

    Parameters
    ----------
    corner : str
        top-right, top-left, bottom-right or bottom-left.

    Returns
    -------
    tuple of Side
        Top or bottom; right or left.

    Examples
    --------
    >>> [side.value for side in corner_sides("bottom-left")]
    ['bottom', 'left']
    """
    upright, level = corner.split("-")
    return Side(upright), Side(level)


def face_corner_area(preview: PreviewSource, job: Job, *, corner: str, face_mm: float) -> Area:
    """What a corner of the face shows of the picture, with the sides on to which the picture runs.

    Parameters
    ----------
    preview : PreviewSource
    job : Job
        A checked job of one panel.
    corner : str
    face_mm : float
        How much of the face's edges belongs to the corner.

    Returns
    -------
    Area
        Pixels of the turned picture.

    Raises
    ------
    FieldError
        The crop holds less than a pixel.
    """
    area = job_area(preview.source, job)
    across, down = picture_spans(job)
    upright, level = corner_sides(corner)
    zone_mm = face_mm + 2 * job.canvas.thickness_mm
    wide = (area.right - area.left) / across.length_mm * (zone_mm + across.before_mm)
    if level is Side.RIGHT:
        wide = (area.right - area.left) / across.length_mm * (zone_mm + across.after_mm)
    per_mm = (area.bottom - area.top) / down.length_mm
    high = per_mm * (zone_mm + (down.before_mm if upright is Side.TOP else down.after_mm))
    return Area(
        left=max(area.left, area.right - wide) if level is Side.RIGHT else area.left,
        top=area.top if upright is Side.TOP else max(area.top, area.bottom - high),
        right=area.right if level is Side.RIGHT else min(area.right, area.left + wide),
        bottom=min(area.bottom, area.top + high) if upright is Side.TOP else area.bottom,
    )


def corner_canvas(
    preview: PreviewSource, job: Job, *, corner: str, face_mm: float, px_per_mm: float
) -> Generator[Progress, None, CornerCanvas]:
    """Fill a corner of a job's flat canvas.

    A fill looks no further into the picture than a side is deep, so a small face with the same sides shows
    the same in its corner; only the mean colour beside an edge belongs to the whole of it, and is given.
    Sides with continued lines are planned on the whole canvas, and cost what that costs.

    Parameters
    ----------
    preview : PreviewSource
    job : Job
        A checked job of one panel.
    corner : str
        top-right, top-left, bottom-right or bottom-left.
    face_mm : float
        How much of the face's edges is seen.
    px_per_mm : float
        As fine as it shall be; a whole canvas is coarser where it would be large.

    Yields
    ------
    Progress

    Returns
    -------
    CornerCanvas

    Raises
    ------
    FieldError
        The crop holds less than a pixel.
    GeometryError
        A side asks for more pixels than the face has.
    """
    fills = {side: side_fill(job.sides, side) for side in corner_sides(corner)}
    if any(fill.fill is Fill.CONTINUED for fill in fills.values()):
        ppi = min(px_per_mm * MM_PER_INCH, preview_ppi(job, preview_px=_WHOLE_PX))
        grid = pixel_grid(job, ppi=ppi)
        pixels = yield from preview.canvas(job, grid)
        return _located(pixels, grid, job, corner)
    blur_mm = max(fill.blur_mm for fill in fills.values())
    needed_mm = max(face_mm, job.bars.depth_mm + job.wrap.ink_over_mm) + blur_mm + 1.0
    small_mm = min(needed_mm, job.face.width_mm, job.face.height_mm)
    sides = {side.value: _own(fill, preview, job, side) for side, fill in fills.items()}
    small = job.model_copy(
        update={
            "face": job.face.model_copy(update={"width_mm": small_mm, "height_mm": small_mm}),
            "group": Group(),
            "sides": Sides(
                **({side.value: _UNSEEN for side in Side} | sides),
            ),
        }
    )
    grid = pixel_grid(small, ppi=px_per_mm * MM_PER_INCH)
    left, top, right, bottom = picture_area(grid, small)
    canvas = bare_canvas(grid, channels=4, is_cmyk=False)
    area = face_corner_area(preview, job, corner=corner, face_mm=small_mm)
    canvas[top:bottom, left:right, :3] = preview.part(
        area, job.picture.turn, width=right - left, height=bottom - top
    )
    # Colours are given in the picture's own values, where the fill takes them as they are.
    yield from fill_canvas(canvas, grid, small, tables=preview.tones, plain_colour=srgb_values, continued={})
    return _located(canvas, grid, small, corner)


def _own(fill: ResolvedFill, preview: PreviewSource, job: Job, side: Side) -> SideFill:
    colour = fill.colour
    if fill.fill in (Fill.PLAIN, Fill.FADE):
        values = _edge_values(fill, preview, job, side) if uses_band(fill) else preview.plain_colour(colour)
        colour = "#" + "".join(f"{int(value):02x}" for value in values[:3])
    return SideFill(fill=fill.fill, blur_mm=fill.blur_mm, band_mm=fill.band_mm, colour=colour)


def _edge_values(fill: ResolvedFill, preview: PreviewSource, job: Job, side: Side) -> tuple[int, ...]:
    """The mean colour of the band beside the whole of an edge, in the picture's own values."""
    area = job_area(preview.source, job)
    across, down = picture_spans(job)
    is_level = side in (Side.LEFT, Side.RIGHT)
    per_x = (area.right - area.left) / across.length_mm
    per_y = (area.bottom - area.top) / down.length_mm
    left, right = area.left + across.before_mm * per_x, area.right - across.after_mm * per_x
    top, bottom = area.top + down.before_mm * per_y, area.bottom - down.after_mm * per_y
    band = max(fill.band_mm * (per_x if is_level else per_y), 1.0)
    if side is Side.RIGHT:
        left = max(left, right - band)
    elif side is Side.LEFT:
        right = min(right, left + band)
    elif side is Side.TOP:
        bottom = min(bottom, top + band)
    else:
        top = max(top, bottom - band)
    along, beside = _BAND_PX
    width, height = (beside, along) if is_level else (along, beside)
    strip = preview.part(
        Area(left=left, top=top, right=right, bottom=bottom), job.picture.turn, width=width, height=height
    )
    light = mean_light(strip, preview.tones)
    return tuple(int(preview.tones.from_light16[channel][value]) for channel, value in enumerate(light))


def _located(pixels: U8, grid: PixelGrid, job: Job, corner: str) -> CornerCanvas:
    upright, level = corner_sides(corner)
    reach = job.bars.depth_mm + job.wrap.turnover_mm
    columns, rows = grid.columns, grid.rows
    column = (columns[2], columns[3], columns[5]) if level is Side.RIGHT else (columns[3], columns[2], 0)
    row = (rows[3], rows[2], 0) if upright is Side.TOP else (rows[2], rows[3], rows[5])
    return CornerCanvas(
        pixels=pixels,
        column=column,
        row=row,
        across_mm=(-job.face.width_mm, 0.0, reach),
        down_mm=(-job.face.height_mm, 0.0, reach),
    )


def _line(
    at_mm: npt.NDArray[np.float32],
    lines_mm: tuple[float, float, float],
    lines_px: tuple[float, float, float],
    size: int,
) -> npt.NDArray[np.intp]:
    """The pixel of each distance, linear between the three lines; every pixel holds half a step each way."""
    inner = (lines_px[0] - lines_px[1]) / (lines_mm[0] - lines_mm[1])
    outer = (lines_px[2] - lines_px[1]) / (lines_mm[2] - lines_mm[1])
    place = np.where(at_mm < 0, np.float32(inner), np.float32(outer)) * at_mm + np.float32(lines_px[1])
    found: npt.NDArray[np.intp] = np.clip(place, 0, size - 1).astype(np.intp)
    return found
