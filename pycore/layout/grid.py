"""The canvas as whole pixels: where each of its lines falls at a resolution."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pycore.contract.job import Job
from pycore.contract.record import Record
from pycore.conventions import MM_PER_INCH, mm_to_px
from pycore.layout.flat import flat_sizes

Six = tuple[int, int, int, int, int, int]

#: Of a grid's six lines those that the fold knows: ink ends where nothing is folded.
_FOLDED = (0, 2, 3, 5)


@dataclass(frozen=True, kw_only=True)
class PixelGrid:
    """Pixel lines of the flat canvas, from its left and its top edge.

    Attributes
    ----------
    columns, rows : tuple of 6 ints
        0, inked from, first front edge, second front edge, inked to, canvas size.
    back_columns, back_rows : tuple of 2 ints
        Where the canvas folds round the back edges.
    ppi : float
        Pixels per inch of printed canvas.
    """

    columns: Six
    rows: Six
    back_columns: tuple[int, int]
    back_rows: tuple[int, int]
    ppi: float

    @property
    def px_per_mm(self) -> float:
        """Pixels per mm of printed canvas."""
        return self.ppi / MM_PER_INCH

    @property
    def fold_columns(self) -> list[float]:
        """Canvas edge, front edges and edge as fractions of its width: where the folded mesh's strips lie."""
        return [self.columns[line] / self.width_px for line in _FOLDED]

    @property
    def fold_rows(self) -> list[float]:
        """The same from the top, as fractions of its height."""
        return [self.rows[line] / self.height_px for line in _FOLDED]

    @property
    def width_px(self) -> int:
        """Of the whole canvas."""
        return self.columns[5]

    @property
    def height_px(self) -> int:
        """Of the whole canvas."""
        return self.rows[5]


class Box(Record):
    """A rectangle of pixels, right and bottom excluded."""

    left: int
    top: int
    right: int
    bottom: int


def pixel_grid(job: Job, *, ppi: float) -> PixelGrid:
    """Round the flat layout's lines to pixels.

    Every line is rounded half up from its distance to the canvas's left or top edge, so the total is exact
    and each line within half a pixel of its place.

    Parameters
    ----------
    job : Job
        A checked job.
    ppi : float
        Pixels per inch of printed canvas.

    Returns
    -------
    PixelGrid

    Examples
    --------
    >>> pixel_grid(Job(), ppi=300).columns
    (0, 224, 531, 4085, 4393, 4617)
    """
    sizes = flat_sizes(job)
    columns = [mm_to_px(line, ppi=ppi) for line in sizes.columns_mm]
    rows = [mm_to_px(line, ppi=ppi) for line in sizes.rows_mm]
    back_columns = [mm_to_px(line, ppi=ppi) for line in sizes.back_columns_mm]
    back_rows = [mm_to_px(line, ppi=ppi) for line in sizes.back_rows_mm]
    return PixelGrid(
        columns=(columns[0], columns[1], columns[2], columns[3], columns[4], columns[5]),
        rows=(rows[0], rows[1], rows[2], rows[3], rows[4], rows[5]),
        back_columns=(back_columns[0], back_columns[1]),
        back_rows=(back_rows[0], back_rows[1]),
        ppi=ppi,
    )


def preview_ppi(job: Job, *, preview_px: int) -> float:
    """A resolution at which the canvas has about so many pixels, and no more.

    It moves in steps of an eighth of an octave, so that a small change of the bar depth leaves it, and with
    it the picture already resampled for the face, as it is.

    Parameters
    ----------
    job : Job
        A checked job.
    preview_px : int
        Pixels of the whole canvas.

    Returns
    -------
    float
        Pixels per inch.

    Examples
    --------
    >>> round(preview_ppi(Job(), preview_px=2_000_000), 2)
    98.7
    """
    width, height = flat_sizes(job).canvas_mm
    exact = math.sqrt(preview_px / (width * height)) * MM_PER_INCH
    return float(2.0 ** (math.floor(math.log2(exact) * 8) / 8))
