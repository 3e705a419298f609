"""A bound on what an enlarged picture may show between four of its pixels, so that hard edges do not ring.

Cubic convolution overshoots beside a hard edge. Between four pixels a value may therefore leave their range
only as far as the picture itself goes on in that direction from both sides: where it rises towards the four
from the left and from the right, a crest may lie between them, and half the lesser of the two rises is
allowed. Beside an edge the picture is level on one side, and nothing is allowed there.

That is looked at only near edges of more than `SOFT` levels; softer ones ring by 3 levels at most.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, Final

import numpy as np
import numpy.typing as npt

from pycore.picture.tones import Values

Cells = npt.NDArray[np.intp]

#: Neighbours that differ by no more, of 255, make no hard edge. Derived: cubic convolution overshoots by 2/27
#: of a step, in linear light; of 24 levels that is 3 levels beside black and less than 2 in middle tones.
SOFT: Final = 24

#: The picture is looked at in stretches of so many columns.
_STRETCH: Final = 64


@dataclass(frozen=True, kw_only=True, eq=False)
class CellBounds:
    """The least and the greatest value allowed in each cell between four pixels.

    Attributes
    ----------
    pairs : (rows + 1, columns + 1, channels) uint16 or uint32
        The two side by side in one number, twice as long as a value of the picture. Cell (i, j) lies between
        rows i - 1 and i, columns j - 1 and j; outside the picture its edge goes on.
    """

    pairs: Values

    @property
    def least(self) -> Values:
        """The least values, (rows + 1, columns + 1, channels)."""
        return self._halves[..., 0]

    @property
    def greatest(self) -> Values:
        """The greatest values, (rows + 1, columns + 1, channels)."""
        return self._halves[..., 1]

    @property
    def _halves(self) -> Values:
        return _halves(self.pairs)

    def open(self, places: Iterable[tuple[slice, int]]) -> None:
        """Let everything pass in some cells.

        Parameters
        ----------
        places : iterable of (slice, int)
            Columns of cells, and the channel.
        """
        least, greatest = self.least, self.greatest
        top = _top(least)
        for columns, channel in places:
            least[:, columns, channel] = 0
            greatest[:, columns, channel] = top

    def hold(self, values: Values, rows: Cells, columns: Cells) -> None:
        """Bring enlarged values into the bounds of their cells, in place.

        Parameters
        ----------
        values : (height, width, channels) array
        rows, columns : (height,) and (width,) int
            The cells in which they lie, rising.
        """
        # Each cell's bounds as often as the result has columns in it, and then whole rows: in both
        # interpreters the quickest way.
        times = np.bincount(columns, minlength=self.pairs.shape[1])
        bounds = _halves(np.repeat(self.pairs, times, axis=1)[rows])
        np.clip(values, bounds[..., 0], bounds[..., 1], out=values)


def _halves(pairs: Values) -> Values:
    return pairs.view(f"u{pairs.itemsize // 2}").reshape(*pairs.shape, 2)


def hold_edges(found: Values, values: Values, rows: Cells, columns: Cells) -> None:
    """Keep an enlarged picture from ringing beside its hard edges.

    Parameters
    ----------
    found : (height, width, channels) uint8 or uint16
        Enlarged; changed in place.
    values : (rows, columns, channels) uint8 or uint16
        The same part of the picture.
    rows, columns : (height,) and (width,) int
        In which cell between pixels each row and column of `found` lies; see `CellBounds`.

    Examples
    --------
    >>> edge = np.array([[[40], [40], [40], [200], [200], [200]]], np.uint8)
    >>> found = np.array([[[40], [12], [40], [228]]], np.uint8)
    >>> hold_edges(found, edge, np.array([0]), np.array([1, 2, 2, 4]))
    >>> found[..., 0].tolist()
    [[40, 40, 40, 200]]
    """
    near = _hard_stretches(values)
    # A cell rests on the two rows and columns at either side.
    top = max(0, int(rows[0]) - 2)
    values, rows = values[top : int(rows[-1]) + 2], rows - top
    for first, last in _runs(np.logical_or.reduce(near, axis=1)):
        begin, end = (int(one) for one in np.searchsorted(columns, (first * _STRETCH, last * _STRETCH)))
        if begin == end:
            continue
        start = max(0, first * _STRETCH - 2)
        bounds = cell_bounds(values[:, start : last * _STRETCH + 1])
        softs = np.argwhere(~near[first:last]).tolist()
        begins = (((first + stretch) * _STRETCH - start, channel) for stretch, channel in softs)
        bounds.open((slice(place, place + _STRETCH), channel) for place, channel in begins)
        bounds.hold(found[:, begin:end], rows, columns[begin:end] - start)


def _hard_stretches(values: Values) -> npt.NDArray[np.bool_]:
    """Stretches of cells near which two neighbouring pixels differ by more than `SOFT`, in each channel."""
    _, columns, channels = values.shape
    # A difference between columns j - 1 and j, or in j, bears upon cells j - 1 to j + 2: so many columns lie
    # before and after those of a stretch's own cells.
    hard = np.zeros((columns + _STRETCH + 6, channels), np.bool_)
    hard[3 : columns + 3] = _hard_columns(values)
    begin = np.arange(0, columns + 1, _STRETCH)
    ends = np.stack([begin, begin + _STRETCH + 5], axis=1).ravel()
    return np.logical_or.reduceat(hard, ends, axis=0)[::2]


def _runs(near: npt.NDArray[np.bool_]) -> list[list[int]]:
    """From where to where stretches follow one another."""
    wide = np.zeros(len(near) + 2, np.bool_)
    wide[1:-1] = near
    runs: list[list[int]] = np.flatnonzero(wide[1:] != wide[:-1]).reshape(-1, 2).tolist()
    return runs


def _hard_columns(values: Values) -> npt.NDArray[np.bool_]:
    """Whether a value of each column and channel is more than `SOFT` from the one above or to the left."""
    rows, columns, channels = values.shape
    soft = values.dtype.type(SOFT * (_top(values) // 255))
    # One long row is quicker than short ones in rows.
    flat = values.reshape(rows, columns * channels)
    # Beyond 0 and the highest value it begins anew, so that one comparison serves for both signs.
    lower = flat - soft
    most = np.maximum.reduce(flat[1:] - lower[:-1], axis=0, initial=0)
    across = np.maximum.reduce(flat[:, channels:] - lower[:, :-channels], axis=0)
    most[channels:] = np.maximum(most[channels:], across)
    hard: npt.NDArray[np.bool_] = most.reshape(columns, channels) > 2 * soft
    return hard


def cell_bounds(values: Values) -> CellBounds:
    """Work out the bounds of a picture.

    Parameters
    ----------
    values : (rows, columns, channels) uint8 or uint16
        Encoded values. A tone curve only rises, so what bounds them bounds their light.

    Returns
    -------
    CellBounds

    Examples
    --------
    >>> edge = np.array([[[40], [40], [40], [200], [200], [200]]], np.uint8)
    >>> bounds = cell_bounds(edge)
    >>> bounds.least[0, :, 0].tolist(), bounds.greatest[0, :, 0].tolist()
    ([40, 40, 40, 40, 200, 200, 200], [40, 40, 40, 200, 200, 200, 200])
    """
    wide = _with_edges(values)
    # Across: between two columns of each row. A cell has two rows, and of the two the greater counts.
    before, after = wide[1:-1, :-1], wide[1:-1, 1:]
    greater = np.maximum(before, after)
    rises, falls = greater - before, greater - after
    crest = _half_the_lesser(rises[:, :-2], falls[:, 2:])
    trough = _half_the_lesser(falls[:, :-2], rises[:, 2:])
    rise, fall = (np.maximum(one[:-1], one[1:]) for one in (crest, trough))
    # Down: between two rows of each column, likewise. Half the lesser rise is below half the highest value,
    # so two of them have room in one.
    before, after = wide[:-1, 1:-1], wide[1:, 1:-1]
    greater = np.maximum(before, after)
    rises, falls = greater - before, greater - after
    crest = _half_the_lesser(rises[:-2], falls[2:])
    trough = _half_the_lesser(falls[:-2], rises[2:])
    rise += np.maximum(crest[:, :-1], crest[:, 1:])
    fall += np.maximum(trough[:, :-1], trough[:, 1:])
    greater, lesser = greater[1:-1], (before - falls)[1:-1]
    greatest = np.maximum(greater[:, :-1], greater[:, 1:])
    least = np.minimum(lesser[:, :-1], lesser[:, 1:])
    # Without passing 0 and the highest value.
    halves = np.empty((*least.shape, 2), values.dtype)
    np.subtract(least, np.minimum(fall, least, out=fall), out=halves[..., 0])
    np.add(greatest, np.minimum(rise, _top(values) - greatest, out=rise), out=halves[..., 1])
    return CellBounds(pairs=halves.view(f"u{2 * values.itemsize}")[..., 0])


def _top(values: Values) -> Any:
    """The highest value, of the values' own type."""
    return ~values.dtype.type(0)


def _with_edges(values: Values) -> Values:
    """Two rows and columns more at each end, like the outermost; quicker than `numpy.pad`."""
    wide = np.empty((values.shape[0] + 4, values.shape[1] + 4, values.shape[2]), values.dtype)
    wide[2:-2, 2:-2] = values
    wide[2:-2, :2], wide[2:-2, -2:] = values[:, :1], values[:, -1:]
    wide[:2], wide[-2:] = wide[2], wide[-3]
    return wide


def _half_the_lesser(one: Values, other: Values) -> Values:
    lesser = np.minimum(one, other)
    lesser >>= 1
    return lesser
