"""The bounds of `cell_bounds` for 8 bits, by words of eight bytes; see `byte_lanes`.

A row of the picture is a row of words with the channels side by side as they are, so that the next column
lies some bytes further on. Of a slope between two neighbours the size and the direction are kept.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

from pycore.picture.tones import U8
from pycore.render.byte_lanes import (
    Words,
    compared,
    exceeding,
    greater,
    greater_of_7_bits,
    halved,
    lesser_of_7_bits,
    moved,
    raised,
)
from pycore.render.cell_bounds import BESIDE, SOFT, STRETCH, Block, CellBounds, near_hard_edges, runs

#: Bytes of the picture that are worked on at a time: a dozen times as many stay in the processor's cache.
_CACHED: Final = 2**19

#: Columns before and after those of a piece that its cells and the hard edges near them rest on. Eight
#: columns are as many words as there are channels, and a cell is found two columns before its own.
_BEFORE, _AFTER = 10, 2


def bounds_by_words(values: U8, blocks: Sequence[Block]) -> Iterator[CellBounds]:
    """Work out the bounds of the cells near hard edges.

    Parameters
    ----------
    values : (rows, columns, channels) uint8
        Encoded values; at most 4 channels.
    blocks : sequence of Block
        From top to bottom; their cells rest on rows that they are made from.

    Yields
    ------
    CellBounds

    Examples
    --------
    >>> edge = np.array([[[40], [40], [40], [200], [200], [200]]], np.uint8)
    >>> block = Block(found=slice(0, 1), source=slice(0, 1), cells=np.array([0]))
    >>> [bounds] = bounds_by_words(edge, [block])
    >>> bounds.least[0, :7, 0].tolist(), bounds.greatest[0, :7, 0].tolist()
    ([40, 40, 40, 40, 200, 200, 200], [40, 40, 40, 200, 200, 200, 200])
    """
    height, width, channels = values.shape
    stretches = max(1, _CACHED // (height * STRETCH * channels))
    for first in range(0, width // STRETCH + 1, stretches):
        yield from _piece(values, blocks, first, min(first + stretches, width // STRETCH + 1))


def _piece(values: U8, blocks: Sequence[Block], first: int, last: int) -> Iterator[CellBounds]:
    """The bounds in some stretches."""
    channels = values.shape[2]
    here = _words(values, first * STRETCH - _BEFORE, last * STRETCH + _AFTER)
    beside = moved(here, channels)
    most, least, falls = compared(here[1:-1], beside[1:-1])
    across = _Slopes(size=most - least, falls=falls)
    upper, lower, falls = compared(beside[:-1], beside[1:])
    down = _Slopes(size=upper - lower, falls=falls)
    nears = _near_hard_edges(across, down, blocks, last - first, channels)
    top, end = blocks[0].first, blocks[-1].end
    for begin, stop in runs(np.logical_or.reduce(nears, axis=0)):
        # Eight columns are a word of each channel. What is moved comes from one word more.
        cut = slice((8 * begin + 1) * channels, (8 * stop + 1) * channels + 1)
        two, three = slice(top, end + 1), slice(top, end + 2)
        lowest, highest = _bounds(
            across.halves(two, cut), down.halves(three, cut), most[two, cut], least[two, cut], channels
        )
        cells = (stop - begin) * STRETCH
        for block, near in zip(blocks, nears, strict=True):
            rows = slice(block.first - top, block.end - top)
            yield CellBounds(
                block=block,
                column=(first + begin) * STRETCH,
                least=_bytes(lowest[rows], cells, channels),
                greatest=_bytes(highest[rows], cells, channels),
                near=near[begin:stop],
            )


def _near_hard_edges(
    across: _Slopes, down: _Slopes, blocks: Sequence[Block], stretches: int, channels: int
) -> list[npt.NDArray[np.bool_]]:
    """What `near_hard_edges` gives for each block."""
    along, below = exceeding(across.size, SOFT), exceeding(down.size, SOFT)
    # A slope is found one column before the one that it leads to.
    start = (_BEFORE - 1 - BESIDE[0]) * channels
    count = stretches * STRETCH + sum(BESIDE)
    found = []
    for block in blocks:
        first, end = block.source.start, block.source.stop
        hard = np.bitwise_or.reduce(along[first + 1 : end + 1], axis=0)
        hard |= np.bitwise_or.reduce(below[first + 2 : end + 1], axis=0)
        flags = hard.view(np.uint8)[start : start + count * channels] > 127
        found.append(near_hard_edges(flags.reshape(count, channels)))
    return found


@dataclass(frozen=True, kw_only=True, eq=False)
class _Slopes:
    """From one pixel to the next: by how much they differ, and 255 where the next is not greater."""

    size: Words
    falls: Words

    def halves(self, rows: slice, columns: slice) -> tuple[Words, Words]:
        """Half the size, and where it falls, of a part."""
        return halved(self.size[rows, columns].copy()), self.falls[rows, columns].copy()


def _bounds(
    across: tuple[Words, Words], down: tuple[Words, Words], most: Words, least: Words, channels: int
) -> tuple[Words, Words]:
    """The least and the greatest values of cells, of which the last row and the last word mean nothing."""
    # Across: a cell has two rows, and of the two the greater counts.
    size, falls = across
    crest, trough = _turns(size, falls, moved(size, 2 * channels), moved(falls, 2 * channels))
    rise, fall = (greater_of_7_bits(one[:-1], one[1:]) for one in (crest, trough))
    # Down: two columns, likewise. Two halves below 128 have room in a byte.
    size, falls = down
    crest, trough = _turns(size[:-2], falls[:-2], size[2:], falls[2:])
    rise += greater_of_7_bits(crest, moved(crest, channels))
    fall += greater_of_7_bits(trough, moved(trough, channels))
    # A rise is half of one up to a pixel of the cell, or of two: the greatest pixel is at least as much. For
    # the least everything is seen from 255 down.
    most, least = moved(most, channels), ~moved(least, channels)
    greatest = raised(greater(most[:-1], most[1:]), rise)
    return ~raised(greater(least[:-1], least[1:]), fall), greatest


def _turns(size: Words, falls: Words, next_size: Words, next_falls: Words) -> tuple[Words, Words]:
    """The lesser of two slopes where they meet in a crest, and where in a trough."""
    lesser = lesser_of_7_bits(size, next_size)
    lesser &= falls ^ next_falls
    crest = lesser & next_falls
    lesser ^= crest
    return crest, lesser


def _words(values: U8, start: int, stop: int) -> Words:
    """Columns `start` to `stop` and two rows more at each end, like the outermost where there are none."""
    height, width, channels = values.shape
    words = np.empty((height + 4, -(-(stop - start) * channels // 8)), np.int64)
    wide = words.view(np.uint8)[:, : (stop - start) * channels].reshape(height + 4, stop - start, channels)
    left, right = max(0, start), min(width, stop)
    wide[2:-2, left - start : right - start] = values[:, left:right]
    wide[2:-2, : left - start], wide[2:-2, right - start :] = values[:, :1], values[:, -1:]
    wide[:2], wide[-2:] = wide[2], wide[-3]
    return words


def _bytes(words: Words, cells: int, channels: int) -> U8:
    return words.view(np.uint8)[:, : cells * channels].reshape(len(words), cells, channels)
