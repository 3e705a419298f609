"""A bound on what an enlarged picture may show between four of its pixels, so that hard edges do not ring.

Cubic convolution overshoots beside a hard edge. Between four pixels a value may therefore leave their range
only as far as the picture itself goes on in that direction from both sides: where it rises towards the four
from the left and from the right, a crest may lie between them, and half the lesser of the two rises is
allowed. Beside an edge the picture is level on one side, and nothing is allowed there.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pycore.picture.tones import Values


@dataclass(frozen=True, kw_only=True, eq=False)
class CellBounds:
    """The least and the greatest value allowed in each cell between four pixels of one channel.

    Attributes
    ----------
    least, greatest : (rows + 1, columns + 1) array
        Of the picture's own kind. Cell (i, j) lies between rows i - 1 and i, columns j - 1 and j; outside the
        picture its edge goes on.
    """

    least: Values
    greatest: Values

    def hold(self, values: Values, rows: npt.NDArray[np.intp], columns: npt.NDArray[np.intp]) -> None:
        """Bring enlarged values into the bounds of their cells, in place.

        Parameters
        ----------
        values : (height, width) array
        rows, columns : (height,) and (width,) int
            The cells in which they lie.
        """
        np.maximum(values, self.least.take(columns, axis=1).take(rows, axis=0), out=values)
        np.minimum(values, self.greatest.take(columns, axis=1).take(rows, axis=0), out=values)


def cell_bounds(values: Values) -> CellBounds:
    """Work out the bounds of one channel of a picture.

    Parameters
    ----------
    values : (rows, columns) uint8 or uint16
        Encoded values. A tone curve only rises, so what bounds them bounds their light.

    Returns
    -------
    CellBounds

    Examples
    --------
    >>> edge = np.array([[40, 40, 40, 200, 200, 200]], np.uint8)
    >>> bounds = cell_bounds(edge)
    >>> bounds.least[0].tolist(), bounds.greatest[0].tolist()
    ([40, 40, 40, 40, 200, 200, 200], [40, 40, 40, 200, 200, 200, 200])
    """
    wide = np.pad(values, 2, mode="edge")
    top = values.dtype.type(np.iinfo(values.dtype).max)
    rise_across, fall_across = _crests(wide[1:-1].T)
    rise_down, fall_down = _crests(wide[:, 1:-1])
    pairs = wide[1:-2, 1:-1], wide[2:-1, 1:-1]
    greatest, least = np.maximum(*pairs), np.minimum(*pairs)
    greatest = np.maximum(greatest[:, :-1], greatest[:, 1:])
    least = np.minimum(least[:, :-1], least[:, 1:])
    for rise in (rise_across.T, rise_down):
        # Without passing the highest value.
        greatest += np.minimum(rise, top - greatest)
    for fall in (fall_across.T, fall_down):
        least -= np.minimum(fall, least)
    return CellBounds(least=least, greatest=greatest)


def _crests(values: Values) -> tuple[Values, Values]:
    """How far a crest and a trough may go between each two rows: half the lesser rise, or fall, to them.

    Of neighbouring columns the greater counts, since a cell has two.
    """
    before, first, second, after = values[:-3], values[1:-2], values[2:-1], values[3:]
    rise = np.minimum(np.maximum(first, before) - before, np.maximum(second, after) - after)
    fall = np.minimum(np.maximum(first, before) - first, np.maximum(second, after) - second)
    rise, fall = (np.maximum(one[:, :-1], one[:, 1:]) >> 1 for one in (rise, fall))
    return rise, fall
