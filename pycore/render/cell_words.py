"""The bounds of `cell_bounds` for 8 bits, by words of eight bytes; see `byte_lanes`.

Of an enlarged photograph one value in a hundred lies outside the range of the four pixels around it, of hard
grain one in eight. So all values are compared with that range, and only where one lies outside it is worked
out how far it may. Channels are worked on one by one: eight bytes of a word follow one another in a row.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from typing import Final

import numpy as np
import numpy.typing as npt

from pycore.picture.tones import U8
from pycore.render.byte_lanes import Words, compared, greater, halved, lesser, moved, reaching
from pycore.render.cell_bounds import DRAWN, MOST_CREST, STRETCH, Block, Cells, runs
from pycore.render.hard_words import BYTES, near_by_words

#: Bytes of a channel that are worked on at a time: what is worked out on the way stays in the processor's
#: cache.
_CACHED: Final = 2**19

#: Columns that are spread at a time.
_TURNED: Final = 512

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
    at_once = max(1, _CACHED // (height * STRETCH))
    for channel in range(channels):
        for first in range(0, count, at_once):
            piece = _Piece(values[..., channel], blocks, first, min(first + at_once, count))
            piece.hold(found[..., channel], columns)


class _Piece:
    """Some stretches of cells of a channel, with the greater and the lesser of every two pixels side by side.

    A word's bytes are pixels of one row; rows before and after the picture's own are like the outermost.
    """

    def __init__(self, values: U8, blocks: Sequence[Block], first: int, last: int) -> None:
        self._start, self._blocks = first * STRETCH, blocks
        self._words = _words(values, self._start - _BEFORE, last * STRETCH + _AFTER)
        beside = moved(self._words, 1)
        self._pairs = compared(self._words[1:-1], beside[1:-1])
        self._near = near_by_words(beside, self._pairs, blocks)
        #: In which cells each row of the result lies.
        self._rows = np.concatenate([block.cells for block in blocks])

    def hold(self, found: U8, columns: Cells) -> None:
        """Bring enlarged values into the bounds of these cells, in place."""
        for begin, stop in runs(self._near):
            cells = self._start + begin * STRETCH, self._start + stop * STRETCH
            left, right = (int(one) for one in np.searchsorted(columns, cells))
            if left < right:
                self._hold_run(found[:, left:right], columns[left:right] - cells[0], begin, stop)

    def _hold_run(self, found: U8, cells: Cells, begin: int, stop: int) -> None:
        """Hold columns that lie in the cells of some stretches, counted from the first of these."""
        values = np.ascontiguousarray(found)
        least, span = (_spread(one, cells)[self._rows - self._rows[0]] for one in self._ranges(begin, stop))
        # What lies below the least wraps round to more than any span.
        places = np.flatnonzero(values - least > span)
        width = len(cells)
        counts = np.diff(np.searchsorted(places, width * np.arange(len(values))), append=len(places))
        row = np.repeat(np.arange(len(values)), counts)
        cell = cells[places - width * row]
        near = self._near[begin:stop]
        if not near.all():
            block = np.repeat(np.arange(len(self._blocks)), [len(one.cells) for one in self._blocks])
            here = near[cell // STRETCH, block[row]]
            places, row, cell = places[here], row[here], cell[here]
        if len(places) == 0:
            return
        # The corner of the 16 pixels around a cell: the cell's own four begin one row and column later.
        in_row = BYTES * self._words.shape[1]
        corners = (in_row * self._rows)[row] + (cell + STRETCH * begin + BYTES - 1)
        each = values.reshape(-1)
        each[places] = _held(each[places], self._words.reshape(-1).view(np.uint8), corners, in_row)
        found[...] = values

    def _ranges(self, begin: int, stop: int) -> tuple[U8, U8]:
        """The least pixel of the four of each cell of some stretches, and how far the greatest is above."""
        first, last = int(self._rows[0]), int(self._rows[-1])
        upper, lower = slice(first, last + 1), slice(first + 1, last + 2)
        inside = slice(STRETCH // BYTES * begin + 1, STRETCH // BYTES * stop + 1)
        # Whole rows, which follow one another in memory, take less than most of each.
        cut = inside if 2 * (stop - begin) < len(self._near) else slice(0, self._words.shape[1])
        most, least = (one[:, cut] for one in self._pairs)
        low = lesser(least[upper], least[lower])
        span = greater(most[upper], most[lower])
        span -= low
        own = slice(BYTES * (inside.start - cut.start), BYTES * (inside.stop - cut.start))
        return low.view(np.uint8)[:, own], span.view(np.uint8)[:, own]


def _spread(bounds: U8, cells: Cells) -> U8:
    """The bytes of the cells in which columns lie, (rows, columns)."""
    # Where the picture is hardly enlarged most columns lie in the cell after the one of the column before.
    breaks = [0, *(np.flatnonzero(np.diff(cells) != 1) + 1).tolist(), len(cells)]
    if len(breaks) * BYTES < len(cells):
        parts = itertools.pairwise(breaks)
        return np.concatenate([bounds[:, cells[begin] : cells[end - 1] + 1] for begin, end in parts], axis=1)
    # Picked columns follow one another in memory: so many are turned into rows as the cache holds.
    found = np.empty((len(bounds), len(cells)), np.uint8)
    for begin in range(0, len(cells), _TURNED):
        part = slice(begin, begin + _TURNED)
        found[:, part] = bounds[:, cells[part]]
    return found


#: The pixels on which a cell's bounds rest, as rows and columns of the 16 around it: its own four, then those
#: above, below, to the left and to the right.
_AROUND: Final = (
    *((1, 1), (1, 2), (2, 1), (2, 2)),
    *((0, 1), (0, 2), (3, 1), (3, 2)),
    *((1, 0), (2, 0), (1, 3), (2, 3)),
)
#: Beside which of a cell's own pixels the other eight lie.
_OF_SLOPES: Final = [0, 1, 2, 3, 0, 2, 1, 3]


def _held(values: U8, pixels: U8, corners: _Places, in_row: int) -> U8:
    """Values outside the range of their cells' four pixels, held.

    Parameters
    ----------
    values : (count,) uint8
    pixels : (bytes,) uint8
        Of the picture.
    corners : (count,) int
        Where in them the 16 pixels around each cell begin.
    in_row : int
        Bytes of a row.
    """
    count = len(values)
    # Whole words: what is past the last value is 0.
    lanes = np.zeros((1 + len(_AROUND), -(-count // BYTES) * BYTES), np.uint8)
    lanes[0, :count] = values
    for lane, (down, across) in zip(lanes[1:], _AROUND, strict=True):
        lane[:count] = pixels[down * in_row + across :][corners]
    # Where a value lies below the range, all is seen from 255 down.
    turn = ((lanes[0] < lanes[1]) * np.uint8(255)).view(np.int64)
    each = lanes.view(np.int64)
    each ^= turn
    found, own, beside = each[0], each[1:5], each[5:]
    # How far each pixel of the cell lies above the one beside it, upright and level.
    slopes = greater(own[_OF_SLOPES], beside)
    slopes -= beside
    slopes = slopes.reshape(2, 2, 2, -1)
    crests = lesser(slopes[:, 0], slopes[:, 1])
    crest = greater(crests[:, 0], crests[:, 1])
    room = _room(halved(crest))
    most = greater(own[:2], own[2:])
    top = greater(most[0], most[1])
    held = lesser(found - top, room[0] + room[1])
    held += top
    held ^= turn
    return held.view(np.uint8)[:count]


def _room(half: Words) -> Words:
    """How far values may leave the range, by half of the rise towards it, which is overwritten."""
    high, drawn = reaching(half, MOST_CREST), reaching(half, DRAWN // 2)
    half &= ~(high * np.int64(255))
    high -= drawn
    high *= np.int64(MOST_CREST)
    half += high
    return half


def _words(values: U8, start: int, stop: int) -> Words:
    """Columns `start` to `stop` and two rows more at each end, like the outermost where there are none."""
    height, width = values.shape
    words = np.empty((height + 4, (stop - start) // BYTES), np.int64)
    wide = words.view(np.uint8)
    left, right = max(0, start), min(width, stop)
    wide[2:-2, left - start : right - start] = values[:, left:right]
    wide[2:-2, : left - start] = wide[2:-2, left - start, np.newaxis]
    wide[2:-2, right - start :] = wide[2:-2, right - start - 1, np.newaxis]
    wide[:2], wide[-2:] = wide[2], wide[-3]
    return words
