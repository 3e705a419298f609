"""A piece of a grown side brought near to the light and colour that the picture has where it goes.

Two pieces side by side may differ a little all over, as two parts of a sky do; a cut alone would show. Each
is therefore changed, on the whole and slowly from place to place, towards the reflected picture beneath it.
"""

from __future__ import annotations

from typing import Final

import numpy as np
import numpy.typing as npt

U8 = npt.NDArray[np.uint8]
F64 = npt.NDArray[np.float64]

#: A piece is compared in so many cells each way.
_CELLS: Final = 4

#: No cell is changed by more, in 8-bit values: a piece with a thing in it shall not get that thing's shadow.
_MOST: Final = 24


def shade(piece: U8, beneath: U8) -> F64:
    """How much is to be added to each pixel of one channel of a piece.

    Parameters
    ----------
    piece, beneath : (rows, columns) uint8
        The piece, and the reflected picture where it goes; encoded.

    Returns
    -------
    (rows, columns) float64
        At most 24 either way; between the middles of the cells by linear interpolation.

    Examples
    --------
    >>> shade(np.full((8, 8), 40, np.uint8), np.full((8, 8), 43, np.uint8))[0, :2].tolist()
    [3.0, 3.0]
    """
    difference = _cell_means(beneath) - _cell_means(piece)
    wanted = np.clip(difference, -float(_MOST), float(_MOST))
    return _between(_between(wanted, piece.shape[0]).T, piece.shape[1]).T


def _bounds(size: int) -> npt.NDArray[np.intp]:
    cells = min(_CELLS, size)
    # Of the machine's own size for an index, which is what `reduceat` takes.
    return np.arange(cells + 1, dtype=np.intp) * size // cells


def _cell_means(values: U8) -> F64:
    """The mean of each cell: a sum of whole numbers, divided once."""
    rows, columns = _bounds(values.shape[0]), _bounds(values.shape[1])
    sums = np.add.reduceat(values, rows[:-1], axis=0, dtype=np.int64)
    sums = np.add.reduceat(sums, columns[:-1], axis=1, dtype=np.int64)
    means: F64 = sums / (np.diff(rows)[:, np.newaxis] * np.diff(columns))
    return means


def _between(cells: F64, size: int) -> F64:
    """Rows of cells drawn out to `size` rows, linearly from middle to middle."""
    count = len(cells)
    at = np.clip((np.arange(size) + 0.5) * count / size - 0.5, 0.0, count - 1.0)
    low = np.minimum(at.astype(np.int64), max(count - 2, 0))
    share = (at - low)[:, np.newaxis]
    high = np.minimum(low + 1, count - 1)
    drawn: F64 = cells[low] + (cells[high] - cells[low]) * share
    return drawn
