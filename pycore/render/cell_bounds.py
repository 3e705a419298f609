"""The least and the greatest value that an enlarged picture may show between four pixels; see `ringing`.

This is the way to them that serves natively and for 16 bits; `cell_words` has the one that serves for 8 in
WebAssembly. Both give the same.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any, Final

import numpy as np
import numpy.typing as npt

from pycore.picture.tones import Values
from pycore.workers import IN_WEBASSEMBLY

#: Cells by number; cell (i, j) lies between rows i - 1 and i, columns j - 1 and j.
Cells = npt.NDArray[np.intp]

#: Neighbours that differ by no more, of 255, make no hard edge. Derived: cubic convolution overshoots by 2/27
#: of a step, in linear light; of 24 levels that is 3 levels beside black and less than 2 in middle tones.
SOFT: Final = 24

#: A crest rises by no more than `MOST_CREST`, of 255, and by nothing where the picture rises by `DRAWN` or
#: more from both sides. Our own choice: waves of 60 levels to either side keep all of their amplitude but
#: one thousandth, and lines as hard as that are drawn more often than photographed.
MOST_CREST: Final = 12
DRAWN: Final = 96

#: The picture is looked at in stretches of so many columns.
STRETCH: Final = 64

#: So many columns before and after those of a stretch's own cells bear upon them: a difference between
#: columns j - 1 and j, or in j, counts for cells j - 2 to j + 3.
BESIDE: Final = 3, 2


@dataclass(frozen=True, kw_only=True, eq=False)
class Block:
    """Rows of an enlarged picture that are looked at together.

    Attributes
    ----------
    found : slice
        Its rows of the result.
    source : slice
        The rows of the picture that it is made from.
    cells : (rows of the result,) int
        In which cell each of its rows lies, rising.
    """

    found: slice
    source: slice
    cells: Cells

    @property
    def first(self) -> int:
        """The first row of its cells."""
        return int(self.cells[0])

    @property
    def end(self) -> int:
        """The row after its last cells."""
        return int(self.cells[-1]) + 1


@dataclass(frozen=True, kw_only=True, eq=False)
class CellBounds:
    """The least and the greatest value allowed in some cells.

    Attributes
    ----------
    block : Block
        Whose rows of cells these are, from the first to the last.
    column : int
        The first of these cells in each row.
    least, greatest : (rows, columns, channels) uint8 or uint16
    near : (stretches, channels) bool
        Whether there is a hard edge near each stretch of them; everything passes where there is none.
    """

    block: Block
    column: int
    least: Values
    greatest: Values
    near: npt.NDArray[np.bool_]

    def hold(self, found: Values, columns: Cells) -> None:
        """Bring enlarged values into the bounds of their cells, in place.

        Parameters
        ----------
        found : (height, width, channels) array
            All of the enlarged picture.
        columns : (width,) int
            The cells in which its columns lie, rising.
        """
        height, width, channels = self.least.shape
        begin, end = (int(one) for one in np.searchsorted(columns, (self.column, self.column + width)))
        if begin == end:
            return
        places = self.block.cells - self.block.first
        part, here = found[self.block.found, begin:end], columns[begin:end] - self.column
        times = np.bincount(here, minlength=width)
        cells = slice(int(here[0]), int(here[-1]) + 1)
        is_once_each = bool((times[cells] == 1).all())
        if is_once_each or not IN_WEBASSEMBLY:
            least, greatest = self.least.copy(), self.greatest.copy()
            self._open(least, greatest)
            if is_once_each:
                least, greatest = least[:, cells], greatest[:, cells]
            else:
                least, greatest = (np.repeat(one, times, axis=1) for one in (least, greatest))
            np.clip(part, least[places], greatest[places], out=part)
            return
        # All bounds of a cell stand in 2, 8 or 16 bytes, which are copied in one step there.
        room = 1 << (channels - 1).bit_length()
        together: Values = np.empty((height, width, 2, room), self.least.dtype)
        for channel in range(channels):
            together[..., 0, channel] = self.least[..., channel]
            together[..., 1, channel] = self.greatest[..., channel]
        self._open(together[..., 0, :], together[..., 1, :])
        together = np.repeat(together, times, axis=1)[places]
        for channel in range(channels):
            values = part[..., channel]
            np.clip(values, together[..., 0, channel], together[..., 1, channel], out=values)

    def _open(self, least: Values, greatest: Values) -> None:
        """Let everything pass where no hard edge is near."""
        for stretch, channel in np.argwhere(~self.near).tolist():
            softly = slice(stretch * STRETCH, (stretch + 1) * STRETCH)
            least[:, softly, channel] = 0
            greatest[:, softly, channel] = highest(greatest)


def bounds_by_values(values: Values, blocks: Sequence[Block]) -> Iterator[CellBounds]:
    """Work out the bounds of the cells near hard edges.

    Parameters
    ----------
    values : (rows, columns, channels) uint8 or uint16
        Encoded values. A tone curve only rises, so what bounds them bounds their light.
    blocks : sequence of Block

    Yields
    ------
    CellBounds

    Examples
    --------
    >>> edge = np.array([[[40], [40], [40], [200], [200], [200]]], np.uint8)
    >>> block = Block(found=slice(0, 1), source=slice(0, 1), cells=np.array([0]))
    >>> [bounds] = bounds_by_values(edge, [block])
    >>> bounds.least[0, :, 0].tolist(), bounds.greatest[0, :, 0].tolist()
    ([40, 40, 40, 40, 200, 200, 200], [40, 40, 40, 200, 200, 200, 200])
    """
    for block in blocks:
        yield from _block_bounds(values, block)


def _block_bounds(values: Values, block: Block) -> Iterator[CellBounds]:
    _, width, channels = values.shape
    hard = np.zeros(((width // STRETCH + 1) * STRETCH + sum(BESIDE), channels), np.bool_)
    hard[BESIDE[0] : BESIDE[0] + width] = _hard_columns(values[block.source])
    near = near_hard_edges(hard)
    # A cell rests on the two rows and columns at either side.
    top = max(0, block.first - 2)
    values = values[top : block.end + 1]
    for first, last in runs(near):
        start = max(0, first * STRETCH - 2)
        least, greatest = _bounds(values[:, start : last * STRETCH + 1])
        begin = first * STRETCH - start
        here = slice(block.first - top, block.end - top), slice(begin, begin + (last - first) * STRETCH)
        yield CellBounds(
            block=block,
            column=first * STRETCH,
            least=least[here],
            greatest=greatest[here],
            near=near[first:last],
        )


def near_hard_edges(hard: npt.NDArray[np.bool_]) -> npt.NDArray[np.bool_]:
    """Stretches of cells near which there is a hard edge.

    Parameters
    ----------
    hard : (columns, channels) bool
        Whether one lies in a column or between it and the one before. The columns are those of whole
        stretches and `BESIDE` before and after.

    Returns
    -------
    (stretches, channels) bool
    """
    wide = np.zeros((len(hard) + 1, hard.shape[1]), np.bool_)
    wide[:-1] = hard
    begin = np.arange(0, len(hard) - sum(BESIDE), STRETCH)
    ends = np.stack([begin, begin + STRETCH + sum(BESIDE)], axis=1).ravel()
    return np.logical_or.reduceat(wide, ends, axis=0)[::2]


def runs(near: npt.NDArray[np.bool_]) -> list[list[int]]:
    """From where to where stretches with a hard edge in any channel follow one another.

    Parameters
    ----------
    near : (stretches, channels) bool

    Returns
    -------
    list of [first, last + 1]

    Examples
    --------
    >>> runs(np.array([[True], [True], [False], [True]]))
    [[0, 2], [3, 4]]
    """
    wide = np.zeros(len(near) + 2, np.bool_)
    wide[1:-1] = np.logical_or.reduce(near, axis=1)
    found: list[list[int]] = np.flatnonzero(wide[1:] != wide[:-1]).reshape(-1, 2).tolist()
    return found


def highest(values: Values) -> Any:
    """The highest value of an array's type.

    Parameters
    ----------
    values : uint8 or uint16 array

    Returns
    -------
    numpy.uint8 or numpy.uint16
    """
    return ~values.dtype.type(0)


def _hard_columns(values: Values) -> npt.NDArray[np.bool_]:
    """Whether a value of each column and channel is more than `SOFT` from the one above or to the left."""
    rows, columns, channels = values.shape
    # One long row is quicker than short ones in rows.
    flat = values.reshape(rows, columns * channels)
    most = np.maximum.reduce(_differences(flat[1:], flat[:-1]), axis=0, initial=0)
    across = np.maximum.reduce(_differences(flat[:, channels:], flat[:, :-channels]), axis=0)
    most[channels:] = np.maximum(most[channels:], across)
    hard: npt.NDArray[np.bool_] = most.reshape(columns, channels) > SOFT * (highest(values) // 255)
    return hard


def _differences(one: Values, other: Values) -> Values:
    found = np.maximum(one, other)
    found -= np.minimum(one, other)
    return found


def _bounds(values: Values) -> tuple[Values, Values]:
    """The least and the greatest values of all cells, (rows + 1, columns + 1, channels)."""
    wide = _with_edges(values)
    # Across: between two columns of each row. A cell has two rows, and of the two the greater counts.
    before, after = wide[1:-1, :-1], wide[1:-1, 1:]
    greater = np.maximum(before, after)
    rises, falls = greater - before, greater - after
    crest = np.minimum(rises[:, :-2], falls[:, 2:])
    trough = np.minimum(falls[:, :-2], rises[:, 2:])
    rise, fall = (_room(np.maximum(one[:-1], one[1:])) for one in (crest, trough))
    # Down: between two rows of each column, likewise. Two rooms have place in one value.
    before, after = wide[:-1, 1:-1], wide[1:, 1:-1]
    greater = np.maximum(before, after)
    rises, falls = greater - before, greater - after
    crest = np.minimum(rises[:-2], falls[2:])
    trough = np.minimum(falls[:-2], rises[2:])
    rise += _room(np.maximum(crest[:, :-1], crest[:, 1:]))
    fall += _room(np.maximum(trough[:, :-1], trough[:, 1:]))
    greater, lesser = greater[1:-1], (before - falls)[1:-1]
    greatest = np.maximum(greater[:, :-1], greater[:, 1:])
    least = np.minimum(lesser[:, :-1], lesser[:, 1:])
    # Without passing 0 and the highest value.
    least -= np.minimum(fall, least, out=fall)
    greatest += np.minimum(rise, highest(values) - greatest, out=rise)
    return least, greatest


def _with_edges(values: Values) -> Values:
    """Two rows and columns more at each end, like the outermost; quicker than `numpy.pad`."""
    wide = np.empty((values.shape[0] + 4, values.shape[1] + 4, values.shape[2]), values.dtype)
    wide[2:-2, 2:-2] = values
    wide[2:-2, :2], wide[2:-2, -2:] = values[:, :1], values[:, -1:]
    wide[:2], wide[-2:] = wide[2], wide[-3]
    return wide


def _room(crest: Values) -> Values:
    """How far a value may pass the four, by the lesser of the two rises."""
    level = highest(crest) // 255
    room: Values = crest >> 1
    np.minimum(room, level * MOST_CREST, out=room)
    room *= crest < level * DRAWN
    return room
