"""The bounds of `cell_bounds` for 8 bits, by words of eight bytes; see `byte_lanes`.

Of an enlarged photograph one value in a hundred lies outside the range of the four pixels around it. So all
values are compared with that range, eight at a time, and only where one lies outside it is worked out how far
it may. Channels are worked on one by one: eight bytes of a word follow one another in a row.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

from pycore.picture.tones import U8
from pycore.render.byte_lanes import Words, compared, greater, halved, lesser, moved, outside
from pycore.render.cell_bounds import STRETCH, Block, Cells, runs
from pycore.render.hard_words import BYTES, near_by_words

#: Bytes of the picture that are worked on at a time: long rows take fewer calls, and a dozen times as many
#: bytes are in use.
_CACHED: Final = 2**21

#: Columns of the picture before and after a piece's own. The left pixel of a cell is the column before its
#: number, so cells begin at a piece's second word.
_BEFORE, _AFTER = 9, 7

_Places = npt.NDArray[np.intp]


def hold_by_words(found: U8, values: U8, blocks: Sequence[Block], columns: Cells) -> None:
    """Bring enlarged values into the bounds of their cells, in place.

    Parameters
    ----------
    found : (height, width, channels) uint8
        Enlarged. It is quicker where the values of a channel follow one another in memory.
    values : (rows, columns, channels) uint8
        The same part of the picture.
    blocks : sequence of Block
        From top to bottom, together all rows of `found`.
    columns : (width,) int
        In which cell each column of `found` lies, rising.

    Examples
    --------
    >>> edge = np.array([[[40], [40], [40], [200], [200], [200]]], np.uint8)
    >>> found = np.array([[[40], [12], [40], [228]]], np.uint8)
    >>> block = Block(found=slice(0, 1), source=slice(0, 1), cells=np.array([0]))
    >>> hold_by_words(found, edge, [block], np.array([1, 2, 2, 4]))
    >>> found[..., 0].tolist()
    [[40, 40, 40, 200]]
    """
    height, width, channels = values.shape
    count = width // STRETCH + 1
    at_once = max(1, _CACHED // (height * channels * STRETCH))
    for first in range(0, count, at_once):
        _Piece(values, blocks, first, min(first + at_once, count)).hold(found, columns)


class _Piece:
    """Some stretches of cells, with the greater and the lesser of every two pixels side by side.

    A word's bytes are pixels of one row and channel; rows before and after the picture's own are like the
    outermost.
    """

    def __init__(self, values: U8, blocks: Sequence[Block], first: int, last: int) -> None:
        self._start, self._blocks = first * STRETCH, blocks
        self._words = _words(values, self._start - _BEFORE, last * STRETCH + _AFTER)
        beside = moved(self._words, 1)
        self._pairs = compared(self._words[:, 1:-1], beside[:, 1:-1])
        self._near = near_by_words(beside, self._pairs, blocks)

    def hold(self, found: U8, columns: Cells) -> None:
        """Bring enlarged values into the bounds of these cells, in place."""
        rows = np.concatenate([block.cells for block in self._blocks])
        for begin, stop in runs(self._near.reshape(len(self._near), -1)):
            cells = self._start + begin * STRETCH, self._start + stop * STRETCH
            left, right = (int(one) for one in np.searchsorted(columns, cells))
            here = columns[left:right] - self._start
            part, near = found[:, left:right], self._near[begin:stop]
            if len(here) and (np.diff(here) == 1).all():
                self._hold_part(self._once(part, rows, here), None if near.all() else near, begin)
            elif len(here):
                self._hold_part(self._spread(part, rows, here), None if near.all() else near, begin)

    def _cut(self, cells: Cells) -> slice:
        """The words that hold some cells; all of them if that is most, since whole rows are quicker."""
        first, last = int(cells[0]) // BYTES + 1, int(cells[-1]) // BYTES + 2
        count = self._words.shape[2]
        return slice(0, count) if 4 * (last - first) > 3 * count else slice(first, last)

    def _once(self, part: U8, rows: Cells, cells: Cells) -> _Part:
        """A part whose columns lie in one cell each; the cells' bounds are where they are."""
        most, least = self._pairs
        cut = self._cut(cells)
        before = int(cells[0]) + BYTES * (1 - cut.start)
        values = np.empty((part.shape[2], len(rows), cut.stop - cut.start), np.int64)
        inside = slice(before, before + len(cells))
        values.view(np.uint8)[..., inside] = np.moveaxis(part, 2, 0)
        upper: slice | Cells = rows
        lower: slice | Cells = rows + 1
        if (np.diff(rows) == 1).all():
            upper, lower = slice(int(rows[0]), int(rows[-1]) + 1), slice(int(rows[0]) + 1, int(rows[-1]) + 2)
        greatest = [most[:, upper, cut], most[:, lower, cut]]
        flags = outside(values, [least[:, upper, cut], least[:, lower, cut]], greatest)
        lanes = flags.view(np.uint8)
        lanes[..., :before] = lanes[..., inside.stop :] = 0
        return _Part(
            part, values, inside, flags, rows, np.arange(BYTES * values.shape[2]) + cells[0] - before
        )

    def _spread(self, part: U8, rows: Cells, cells: Cells) -> _Part:
        """A part of which several columns lie in a cell; the cells' bounds are spread."""
        most, least = self._pairs
        cut = self._cut(cells)
        upper, lower = slice(int(rows[0]), int(rows[-1]) + 1), slice(int(rows[0]) + 1, int(rows[-1]) + 2)
        bounds = (
            lesser(least[:, upper, cut], least[:, lower, cut]),
            greater(most[:, upper, cut], most[:, lower, cut]),
        )
        channels, height, width = part.shape[2], len(rows), len(cells)
        values = np.zeros((channels, height, -(-width // BYTES)), np.int64)
        values.view(np.uint8)[..., :width] = np.moveaxis(part, 2, 0)
        places = cells + BYTES * (1 - cut.start)
        spread = [_spread(one, places, values.shape[2]).take(rows - rows[0], axis=1) for one in bounds]
        return _Part(part, values, slice(0, width), outside(values, spread[:1], spread[1:]), rows, cells)

    def _hold_part(self, part: _Part, near: npt.NDArray[np.bool_] | None, first: int) -> None:
        """Hold the values outside the range of their cells' four pixels near a hard edge.

        `near` is of the stretches from `first` on, None where there is one near all of them.
        """
        places = np.flatnonzero(part.flags.view(np.bool_))
        width = BYTES * part.flags.shape[2]
        row = places // width
        cell = part.cells[places - row * width]
        channels, blocks = self._near.shape[1:]
        if near is not None:
            numbers = np.repeat(np.arange(blocks), [len(block.cells) for block in self._blocks])
            of_row = (np.arange(channels)[:, np.newaxis] * blocks + numbers).ravel()
            here = near.reshape(len(near), -1)[cell // STRETCH - first, of_row[row]]
            places, row, cell = places[here], row[here], cell[here]
        if len(places) == 0:
            return
        # The row of the cell's upper pixels, of which there is one before the picture's own twice.
        upper = np.arange(channels)[:, np.newaxis] * self._words.shape[1] + part.rows + 1
        corners = (upper.ravel() * (self._words.shape[2] * BYTES))[row] + cell + BYTES
        values = part.values.reshape(-1).view(np.uint8)
        values[places] = _held(values[places], self._words, corners)
        part.found[...] = np.moveaxis(part.values.view(np.uint8)[..., part.inside], 0, 2)


@dataclass(frozen=True)
class _Part:
    """Columns of the enlarged picture, as words.

    Attributes
    ----------
    found : (height, width, channels) uint8
        Where they came from.
    values : (channels, height, words) int64
    inside : slice
        Bytes of a row of these that are values.
    flags : (channels, height, words) int64
        Bytes of 1 for those that lie outside the range of their cells' four pixels.
    rows : (height,) int
    cells : (bytes,) int
        In which cell each row and byte lies.
    """

    found: U8
    values: Words
    inside: slice
    flags: Words
    rows: Cells
    cells: Cells


def _spread(bounds: Words, cells: Cells, count: int) -> Words:
    """The bytes of cells in which columns lie, in so many words; 0 past the last."""
    found = np.zeros((*bounds.shape[:2], count), np.int64)
    spread, each = found.view(np.uint8), bounds.view(np.uint8)
    # Where the picture is hardly enlarged most columns lie in the cell after the one of the column before.
    breaks = [0, *(np.flatnonzero(np.diff(cells) != 1) + 1).tolist(), len(cells)]
    if len(breaks) * BYTES < len(cells):
        for begin, end in itertools.pairwise(breaks):
            spread[..., begin:end] = each[..., cells[begin] : cells[end - 1] + 1]
        return found
    for channel in range(len(found)):
        spread[channel, :, : len(cells)] = each[channel][:, cells]
    return found


#: The pixels on which a cell's bounds rest, as rows and columns from its upper left one: its own four, then
#: those above, below, to the left and to the right.
_AROUND: Final = (
    ((0, 0), (0, 1), (1, 0), (1, 1)),
    ((-1, 0), (-1, 1), (2, 0), (2, 1)),
    ((0, -1), (1, -1), (0, 2), (1, 2)),
)
#: Beside which of a cell's own pixels the other eight lie.
_OF_SLOPES: Final = [0, 1, 2, 3, 0, 2, 1, 3]


def _held(values: U8, words: Words, places: _Places) -> U8:
    """Values outside the range of their cells' four pixels, held.

    Parameters
    ----------
    values : (count,) uint8
    words : (channels, rows, words) int64
        The picture's bytes.
    places : (count,) int
        Where in them each cell's upper left pixel is.
    """
    pixels, row = words.reshape(-1).view(np.uint8), words.shape[2] * BYTES
    steps = np.array([down * row + across for part in _AROUND for down, across in part], places.dtype)
    count = len(values)
    filled = np.arange(-(-count // BYTES) * BYTES)
    filled[count:] = count - 1
    around = pixels[places[filled] + steps[:, np.newaxis]]
    found = values[filled]
    # Where a value lies below the range, all is seen from 255 down.
    turn = ((found < around[0]) * np.uint8(255)).view(np.int64)
    each = around.view(np.int64)
    each ^= turn
    own, beside = each[:4], each[4:]
    # How far each pixel of the cell lies above the one beside it, upright and level.
    slopes = greater(own[_OF_SLOPES], beside)
    slopes -= beside
    slopes = slopes.reshape(2, 2, 2, -1)
    crests = lesser(slopes[:, 0], slopes[:, 1])
    room = halved(greater(crests[:, 0], crests[:, 1]))
    most = greater(own[:2], own[2:])
    top = greater(most[0], most[1])
    held = lesser((found.view(np.int64) ^ turn) - top, room[0] + room[1])
    held += top
    held ^= turn
    return held.view(np.uint8)[:count]


def _words(values: U8, start: int, stop: int) -> Words:
    """Columns `start` to `stop` and two rows more at each end, like the outermost where there are none."""
    height, width, channels = values.shape
    words = np.empty((channels, height + 4, (stop - start) // BYTES), np.int64)
    wide = words.view(np.uint8)
    left, right = max(0, start), min(width, stop)
    for channel in range(channels):
        wide[channel, 2:-2, left - start : right - start] = values[:, left:right, channel]
    wide[:, 2:-2, : left - start] = wide[:, 2:-2, left - start, np.newaxis]
    wide[:, 2:-2, right - start :] = wide[:, 2:-2, right - start - 1, np.newaxis]
    wide[:, :2], wide[:, -2:] = wide[:, 2, np.newaxis], wide[:, -3, np.newaxis]
    return words
