"""From the pixels of one space to those of another: one or two tables and a last curve, in whole numbers."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from pycore.colour.link.dither import HALF, STEPS, codes_of, thresholds
from pycore.colour.link.lattice import Lattice, Sums
from pycore.colour.link.seen_colours import SeenColours
from pycore.colour.spaces.arrays import ByteArray, FloatArray
from pycore.workers import in_blocks

U16 = NDArray[np.uint16]

#: Pixels that are worked on together: few enough for the processor's cache.
_PIXELS: Final = 16384


#: The same where most of them were met before, so that the few others are still many at a time.
_SEEN_PIXELS: Final = 131072


class PixelMap:
    """Pixels looked up strip by strip; several threads may use it at once.

    Parameters
    ----------
    lattices : sequence of Lattice
        Run one after the other; the first takes the pixels' channels.
    ends : (65536, channels) float64
        The result, 0 to 1 and held there, for each code of 16 bits that the last table gives.
    """

    def __init__(self, lattices: Sequence[Lattice], ends: FloatArray) -> None:
        held = np.clip(ends, 0.0, 1.0)
        self.channels = ends.shape[1]
        self._lattices = tuple(lattices)
        self._seen = SeenColours()
        self._words = [np.rint(one * 65535.0).astype(np.uint16) for one in held.T]
        self._steps = [np.rint(one * (255.0 * STEPS)).astype(np.uint16) for one in held.T]

    def to_bytes(self, pixels: NDArray[Any], *, row: int, column: int) -> ByteArray:
        """Look pixels up in 8 bits.

        Parameters
        ----------
        pixels : (rows, columns, inputs) uint8, uint16 or float32
        row, column : int
            Where on the canvas the first pixel lies. Pixels of more than 8 bits are dithered by a pattern
            that depends on the place alone; those of 8 bits are rounded.

        Returns
        -------
        (rows, columns, channels) uint8
        """
        codes = codes_of(pixels)
        result = np.empty((*codes.shape[:2], self.channels), dtype=np.uint8)

        def dithered(top: int, bottom: int) -> None:
            part, out = codes[top:bottom], result[top:bottom]
            sums = self._sums(channels_of(part))
            for channel in range(self.channels):
                steps = self._steps[channel][sums.codes(channel)].reshape(part.shape[:2])
                steps += thresholds(part.shape[:2], row=row + top, column=column, channel=channel)
                steps >>= np.uint16(8)
                out[..., channel] = steps

        def rounded(top: int, bottom: int) -> None:
            part, out = codes[top:bottom], result[top:bottom]
            colours = part[..., 0].ravel().astype(np.uint32)
            for channel in range(1, part.shape[2]):
                colours |= part[..., channel].ravel().astype(np.uint32) << np.uint32(8 * channel)
            found = self._seen.results(colours, self._rounded)
            for channel in range(self.channels):
                out[..., channel] = found[:, channel].reshape(part.shape[:2])

        if codes.dtype == np.uint8:
            in_blocks(rounded, blocks_of(codes.shape, pixels=_SEEN_PIXELS))
        else:
            in_blocks(dithered, blocks_of(codes.shape))
        return result

    def _rounded(self, colours: ByteArray) -> ByteArray:
        """(n, 4) uint8 to the same; channels that there are not count for nothing, and come out as 0."""
        results = np.zeros((len(colours), 4), dtype=np.uint8)
        sums = self._sums(channels_of(colours[:, : len(self._lattices[0].places)]))
        for channel in range(self.channels):
            steps = self._steps[channel][sums.codes(channel)]
            steps += np.uint16(HALF)
            steps >>= np.uint16(8)
            results[:, channel] = steps
        return results

    def to_words(self, pixels: NDArray[Any]) -> U16:
        """Look pixels up in 16 bits, without a pattern.

        Parameters
        ----------
        pixels : (rows, columns, inputs) uint8, uint16 or float32
            As for `to_bytes`.

        Returns
        -------
        (rows, columns, channels) uint16
        """
        codes = codes_of(pixels)
        result = np.empty((*codes.shape[:2], self.channels), dtype=np.uint16)

        def work(top: int, bottom: int) -> None:
            part, out = codes[top:bottom], result[top:bottom]
            sums = self._sums(channels_of(part))
            for channel in range(self.channels):
                words = self._words[channel][sums.codes(channel)]
                out[..., channel] = words.reshape(part.shape[:2])

        in_blocks(work, blocks_of(codes.shape))
        return result

    def _sums(self, codes: Sequence[NDArray[Any]]) -> Sums:
        sums = self._lattices[0].sums(codes)
        for lattice in self._lattices[1:]:
            sums = lattice.sums([sums.codes(index) for index in range(len(lattice.places))])
        return sums


def channels_of(pixels: NDArray[Any]) -> list[NDArray[Any]]:
    """Take the channels apart.

    Parameters
    ----------
    pixels : (..., channels) of numbers

    Returns
    -------
    list of (n,) arrays
        One a channel, its pixels in one row.
    """
    return [pixels[..., index].ravel() for index in range(pixels.shape[-1])]


def blocks_of(shape: tuple[int, ...], *, pixels: int = _PIXELS) -> list[tuple[int, int]]:
    """Cut rows into blocks that a processor's cache holds.

    Parameters
    ----------
    shape : tuple of int
        (rows, columns, ...).
    pixels : int
        About how many a block has.

    Returns
    -------
    list of (int, int)
        The first row of each block and the one behind its last.
    """
    rows = max(pixels // max(shape[1], 1), 1)
    return [(top, min(top + rows, shape[0])) for top in range(0, shape[0], rows)]
