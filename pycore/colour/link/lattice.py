"""Tables of colours looked up in whole numbers, so that a pixel is the same on every machine.

A node holds up to four values of 16 bits in one 64-bit number. A product with a weight of 15 bits stays below
2^31, so two values at a time are multiplied and added in one such number without touching one another.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from pycore.colour.icc.interpolate import Interpolation
from pycore.colour.spaces.arrays import FloatArray

I32 = NDArray[np.int32]
U64 = NDArray[np.uint64]

#: Bits of a weight, and the weight 1.
WEIGHT_BITS: Final = 15
_ONE: Final = 1 << WEIGHT_BITS

#: The largest value of a node, and how many codes of 16 bits there are.
TOP: Final = 65535
CODES: Final = TOP + 1

#: The first and third of four values in a 64-bit number; the others after a shift.
_PAIR: Final = np.uint64(0x0000FFFF0000FFFF)
_NEXT: Final = np.uint64(16)

#: Values that a node has room for.
_LANES: Final = 4


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Lattice:
    """A table with a curve before each of its inputs.

    Attributes
    ----------
    nodes : (all nodes and more,) uint64
        Four values of 16 bits each, the first in the lowest bits; the last input varies fastest.
    places : tuple of (65536,) int32
        For each input where a code of 16 bits lies: the number of its cell, shifted up by `WEIGHT_BITS`, and
        the part of the cell before it.
    strides : tuple of int
        How far apart the neighbours along each input are.
    method : Interpolation
        For three and four inputs.
    """

    nodes: U64
    places: tuple[I32, ...]
    strides: tuple[int, ...]
    method: Interpolation

    def sums(self, codes: Sequence[NDArray[Any]]) -> Sums:
        """Look colours up.

        Parameters
        ----------
        codes : sequence of (n,) uint8, uint16 or int32
            One array for each input. Those of 8 bits stand for 257 times as much.

        Returns
        -------
        Sums
        """
        cells, parts = [], []
        for code, places, stride in zip(codes, self.places, self.strides, strict=True):
            table = places[::257] if code.dtype == np.uint8 else places
            place = table[code]
            cell = place >> WEIGHT_BITS
            cell *= stride
            cells.append(cell)
            place &= _ONE - 1
            parts.append(place)
        base = cells[0]
        for cell in cells[1:]:
            base += cell
        return self._added(self._corners(base, parts))

    def _corners(self, base: I32, parts: list[I32]) -> Iterator[tuple[I32, I32]]:
        """The nodes round each colour and their weights, which add up to 1."""
        if len(parts) == 1:
            yield base, _ONE - parts[0]
            yield base + self.strides[0], parts[0]
            return
        cell = _tetrahedron if self.method is Interpolation.TETRAHEDRAL else _box
        if len(parts) == 3:
            yield from cell(base, parts, self.strides)
            return
        # Four inputs are a pair of tables of the last three, joined along the first by a straight line.
        for corner, weight in cell(base, parts[1:], self.strides[1:]):
            high = _product(weight, parts[0])
            yield corner, weight - high
            yield corner + self.strides[0], high

    def _added(self, corners: Iterator[tuple[I32, I32]]) -> Sums:
        even = odd = None
        for corner, weight in corners:
            wide = weight.astype(np.uint64)
            found = self.nodes[corner]
            pair = found & _PAIR
            pair *= wide
            found >>= _NEXT
            found &= _PAIR
            found *= wide
            if even is None or odd is None:
                even, odd = pair, found
            else:
                even += pair
                odd += found
        if even is None or odd is None:
            raise ValueError("a table of one, three or four inputs")
        return Sums(even=even, odd=odd)


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Sums:
    """What a table gives: values of 16 bits with `WEIGHT_BITS` more behind the point.

    Attributes
    ----------
    even, odd : (n,) uint64
        The first and third, and the second and fourth value of each colour.
    """

    even: U64
    odd: U64

    def fixed(self, channel: int) -> NDArray[np.uint32]:
        """Take one channel as it stands in the sums.

        Parameters
        ----------
        channel : int

        Returns
        -------
        (n,) uint32
            With `WEIGHT_BITS` behind the point.
        """
        # Little-endian, as every machine is that Pillow's wheels and Pyodide run on; `pack` has the same
        # order.
        halves = (self.odd if channel & 1 else self.even).view(np.uint32)
        return halves[channel >> 1 :: 2]

    def codes(self, channel: int) -> I32:
        """Round one channel to 16 bits.

        Parameters
        ----------
        channel : int

        Returns
        -------
        (n,) int32
            0 to 65535.
        """
        rounded = self.fixed(channel) + np.uint32(_ONE >> 1)
        rounded >>= np.uint32(WEIGHT_BITS)
        return rounded.view(np.int32)


def every_code(inputs: int) -> FloatArray:
    """Full scale of every code of 16 bits, in all inputs.

    Parameters
    ----------
    inputs : int

    Returns
    -------
    (65536, inputs) float64
        0 to 1.
    """
    return np.repeat(np.linspace(0.0, 1.0, CODES)[:, None], inputs, axis=1)


def value_range(values: FloatArray) -> tuple[FloatArray, FloatArray]:
    """The least of each channel, and how far it is from there to the most, by which a table is scaled.

    Parameters
    ----------
    values : (..., channels) float64

    Returns
    -------
    low, span : (channels,) float64
        The span is above 0.
    """
    flat = values.reshape(-1, values.shape[-1])
    low = flat.min(axis=0)
    return low, np.maximum(flat.max(axis=0) - low, 1e-9)


def make_lattice(table: FloatArray, *, places: Sequence[FloatArray], method: Interpolation) -> Lattice:
    """Make a table ready.

    Parameters
    ----------
    table : (nodes, …, nodes, channels) float64
        One axis for each input, at most four channels; 0 to 1, held there.
    places : sequence of (65536,) float64
        For each input where a code of 16 bits lies among its nodes, 0 (the first) to 1 (the last).
    method : Interpolation
        For three and four inputs.

    Returns
    -------
    Lattice

    Examples
    --------
    >>> grey = np.linspace(0.0, 1.0, 3)[:, None]
    >>> evenly = [np.linspace(0.0, 1.0, CODES)]
    >>> lattice = make_lattice(grey, places=evenly, method=Interpolation.TETRAHEDRAL)
    >>> lattice.sums([np.array([0, 100, 65535], np.uint16)]).codes(0).tolist()
    [0, 100, 65535]
    """
    counts = table.shape[:-1]
    strides = tuple(int(np.prod(counts[axis + 1 :])) for axis in range(len(counts)))
    fixed = tuple(
        np.rint(np.clip(place, 0.0, 1.0) * ((count - 1) * _ONE)).astype(np.int32)
        for place, count in zip(places, counts, strict=True)
    )
    # A colour at the end of an axis has a neighbour past it, of weight 0, which may lie past all nodes.
    nodes = np.concatenate([pack(table), np.zeros(sum(strides), dtype=np.uint64)])
    return Lattice(nodes=nodes, places=fixed, strides=strides, method=method)


def pack(table: FloatArray) -> U64:
    """The nodes of a table as 64-bit numbers.

    Parameters
    ----------
    table : (..., channels) float64
        0 to 1, held there; at most four channels.

    Returns
    -------
    (all nodes,) uint64
    """
    flat = table.reshape(-1, table.shape[-1])
    lanes = np.zeros((len(flat), _LANES), dtype="<u2")
    lanes[:, : flat.shape[1]] = np.rint(np.clip(flat, 0.0, 1.0) * TOP)
    return lanes.view("<u8")[:, 0].astype(np.uint64)


#: Of the orders of three fractions: which axis is the largest, and which the smallest. The index has bit 0
#: where x >= y, bit 1 where y >= z, bit 2 where x >= z. On equal fractions the first axis counts as larger.
#: Two of the eight cannot be.
_LARGEST: Final = (2, 2, 1, 0, 0, 0, 1, 0)
_SMALLEST: Final = (0, 1, 0, 0, 0, 1, 2, 2)


def _tetrahedron(base: I32, parts: list[I32], strides: Sequence[int]) -> Iterator[tuple[I32, I32]]:
    """From the cell's first node to its last, along its edges in falling order of the fractions."""
    x, y, z = parts
    order = (x >= y).view(np.uint8)
    order |= (y >= z).view(np.uint8) << np.uint8(1)
    order |= (x >= z).view(np.uint8) << np.uint8(2)
    most, least = np.maximum(x, y), np.minimum(x, y)
    middle = np.maximum(np.minimum(most, z), least)
    np.maximum(most, z, out=most)
    np.minimum(least, z, out=least)
    far = sum(strides)
    steps = np.array([strides[axis] for axis in _LARGEST], dtype=np.int32)
    gaps = np.array([far - strides[axis] for axis in _SMALLEST], dtype=np.int32)
    yield base, _ONE - most
    yield base + steps[order], most - middle
    yield base + gaps[order], middle - least
    yield base + far, least


def _product(one: I32, other: I32) -> I32:
    """Two weights multiplied, rounded to a weight: below 2^31 on the way."""
    product = one * other
    product += _ONE >> 1
    product >>= WEIGHT_BITS
    return product


def _box(base: I32, parts: list[I32], strides: Sequence[int]) -> Iterator[tuple[I32, I32]]:
    """All eight nodes of the cell."""
    x, y, z = parts
    both = _product(x, y)
    for step, weight in (
        (0, _ONE - x - y + both),
        (strides[0], x - both),
        (strides[1], y - both),
        (strides[0] + strides[1], both),
    ):
        high = _product(weight, z)
        yield base + step, weight - high
        yield base + (step + strides[2]), high
