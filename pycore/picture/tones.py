"""Tables between 8-bit values and linear light, as whole numbers or exact fractions, the same everywhere.

Pixels only ever meet table look-ups and +, -, x, / and square root, which IEEE 754 defines to the last bit.
What could differ between two platforms' mathematical libraries (the profile's curves) is computed once per
table and then rounded so coarsely that a last-bit difference has no effect.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Protocol

import numpy as np
import numpy.typing as npt

from pycore.workers import IN_WEBASSEMBLY

U8 = npt.NDArray[np.uint8]
U16 = npt.NDArray[np.uint16]
F32 = npt.NDArray[np.float32]

#: A picture's values, uint8 or uint16: what is given decides what comes out.
Values = npt.NDArray[Any]

#: Linear light: uint16, 0 to 65535, with values of 8 bits; float32, 0 to 1, with values of 16.
Light = npt.NDArray[Any]

#: Linear light is kept as multiples of this step, which float32 represents exactly up to 1.
_STEP = 2.0**-24
_TOP = 65535

#: Square roots of light are looked up in half steps of 1 / 65535, overshoots among them: up to
#: (2 ** 18 - 1) / 131070, which is light of 4.
_HALVES = 2 * _TOP
_ROOTS = 2**18

#: Rounding down float32 below 2**19 by its bits. Added to this number, which is 2**19 less 2**-5, a value has
#: its whole part in the bits from 2**4 on. Derived: between 2**19 and 2**20 a step is 2**-4. Half a step less
#: is added, so a value under the next whole number stays under it, and a whole number, half-way between two
#: steps, goes to the even one, which is itself. What is next to 0 stays under 2**19: there the bits count on
#: from behind, and the last place stands for it.
_TO_FLOOR = np.float32(2.0**19 - 2.0**-5)
_FLOOR_SHIFT = 4

#: Values that are worked on at a time.
_CACHED = 131072


class AnyTones(Protocol):
    """What fills and resampling ask of a picture's tables, of 8 or of 16 bits."""

    @property
    def channels(self) -> int:
        """Channels of the picture."""

    @property
    def top(self) -> int:
        """The highest value: 255 or 65535."""

    @property
    def light(self) -> F32:
        """(channels, values): light of each value, 0 to 1."""

    def to_light(self, values: Values, channel: int) -> Light:
        """Linear light of values of one channel.

        Parameters
        ----------
        values : uint8 or uint16 array
        channel : int

        Returns
        -------
        array of uint16 or float32
            Of the values' shape.
        """

    def from_light(self, light: Light, channel: int) -> Values:
        """The values nearest to light as from `to_light`, of at least one axis.

        Parameters
        ----------
        light : array of uint16 or float32
            At least one axis.
        channel : int

        Returns
        -------
        uint8 or uint16 array
            Of the light's shape.
        """

    def mean_light(self, area: Values, channel: int) -> np.uint16 | np.float32:
        """The mean of an area of one channel in linear light; at least one pixel.

        Parameters
        ----------
        area : uint8 or uint16 array
            Of one channel; at least one pixel.
        channel : int

        Returns
        -------
        numpy.uint16 or numpy.float32
        """

    def row_means(self, rows: Values, channel: int) -> Light:
        """The mean of (rows, columns) of one channel down each column, in linear light.

        Parameters
        ----------
        rows : (rows, columns) uint8 or uint16
            Of one channel.
        channel : int

        Returns
        -------
        (columns,) uint16 or float32
        """

    def resampled(self, light: F32, channel: int) -> Values:
        """The values nearest to resampled linear light, 0 to 1; what overshoots is cut.

        Parameters
        ----------
        light : (rows, columns) float32
            0 to 1; what overshoots is cut.
        channel : int

        Returns
        -------
        (rows, columns) uint8 or uint16
        """


@dataclass(frozen=True, kw_only=True, eq=False)
class Tones:
    """Tables of one picture, channel by channel.

    Attributes
    ----------
    is_linear : bool
        Linear light by the profile's curves; False: the encoded values themselves, because it has none.
    light : (channels, 256) float32
        Of every 8-bit value, 0 to 1.
    light16 : (channels, 256) uint16
        The same, 0 to 65535.
    from_root : (channels, 262144) uint8
        The 8-bit value nearest to the light whose square root, times 131070, is the index, or the odd index
        before it. The square root spreads the dark values, of which a power of 2.2 would leave the first few
        in one step. Past 131070 lies what overshoots; the last is 0 once more.
    from_light16 : (channels, 65536) uint8
        The 8-bit value nearest to 16-bit light.
    """

    is_linear: bool
    light: F32
    light16: U16
    from_root: U8
    from_light16: U8

    @property
    def channels(self) -> int:
        """Channels of the picture."""
        return len(self.light)

    @property
    def top(self) -> int:
        """The highest value."""
        return 255

    def to_light(self, values: Values, channel: int) -> Light:
        """Linear light of values of one channel: uint16, 0 to 65535.

        Parameters
        ----------
        values : uint8 array
        channel : int

        Returns
        -------
        array of uint16, 0 to 65535
            Of the values' shape.
        """
        found: U16 = self.light16[channel][values]
        return found

    def from_light(self, light: Light, channel: int) -> Values:
        """The values nearest to light as from `to_light`.

        Parameters
        ----------
        light : array of uint16, 0 to 65535
            At least one axis.
        channel : int

        Returns
        -------
        uint8 array
            Of the light's shape.
        """
        found: U8 = self.from_light16[channel][light]
        return found

    def mean_light(self, area: Values, channel: int) -> np.uint16:
        """The mean of an area of one channel in linear light; at least one pixel.

        Parameters
        ----------
        area : uint8 array
            Of one channel; at least one pixel.
        channel : int

        Returns
        -------
        numpy.uint16
        """
        # Counting the 256 values first keeps the sum a sum of whole numbers, without a copy of the area.
        counts = np.bincount(area.ravel(), minlength=256)
        total = sum(
            int(count) * int(light) for count, light in zip(counts, self.light16[channel], strict=True)
        )
        return np.uint16((total + area.size // 2) // area.size)

    def row_means(self, rows: Values, channel: int) -> Light:
        """The mean of (rows, columns) of one channel down each column, in linear light.

        Parameters
        ----------
        rows : (rows, columns) uint8
            Of one channel.
        channel : int

        Returns
        -------
        (columns,) uint16, 0 to 65535
        """
        total = np.zeros(rows.shape[1], np.uint32)
        for row in rows:
            total += self.light16[channel][row]
        count = len(rows)
        return ((total + np.uint32(count // 2)) // np.uint32(count)).astype(np.uint16)

    def resampled(self, light: F32, channel: int) -> Values:
        """The values nearest to resampled linear light, 0 to 1; what overshoots is cut.

        Parameters
        ----------
        light : (rows, columns) float32
            0 to 1; what overshoots is cut.
        channel : int

        Returns
        -------
        (rows, columns) uint8
        """
        return encode(light, self.from_root[channel])


def tones(linear: npt.NDArray[np.float64] | None, *, channels: int) -> Tones:
    """Make the tables.

    Parameters
    ----------
    linear : (channels, 256) float64 or None
        Linear light of every 8-bit value, 0 to 1, never falling; None: work on the encoded values.
    channels : int
        Channels of the picture.

    Returns
    -------
    Tones
        Every 8-bit value comes back as itself through `light` and `from_root`, where `linear` rises from
        each value to the next.

    References
    ----------
    IEC 61966-2-1 for what an absent profile is taken to be, by the caller.

    Examples
    --------
    >>> plain = tones(None, channels=1)
    >>> int(plain.from_light16[0, plain.light16[0, 77]])
    77
    """
    is_linear = linear is not None
    if linear is None:
        linear = np.tile(np.arange(256, dtype=np.float64) / 255.0, (channels, 1))
    exact = np.floor(linear / _STEP + 0.5) * _STEP
    between = np.sqrt(np.stack([_between(row) for row in exact]))
    roots = np.arange(_ROOTS // 2 + 1) / _TOP
    roots16 = np.sqrt(roots[: _TOP + 1])
    # A half step is rounded up to the next whole one, which is looked up at two places so.
    from_root = np.stack([_nearest(row, roots).repeat(2)[1:-1] for row in between])
    from_root[:, -1] = from_root[:, 0]
    return Tones(
        is_linear=is_linear,
        light=exact.astype(np.float32),
        light16=np.floor(exact * _TOP + 0.5).astype(np.uint16),
        from_root=from_root,
        from_light16=np.stack([_nearest(row, roots16) for row in between]),
    )


def _between(light: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """The light half-way from each value to the next, by cubic interpolation of the curve; 255 of them."""
    # A parabola's next value at either end, so that the ends need no rule of their own.
    low, high = 3 * (light[0] - light[1]) + light[2], 3 * (light[-1] - light[-2]) + light[-3]
    curve = np.concatenate([[low], light, [high]])
    middle = (9 * (curve[1:-2] + curve[2:-1]) - curve[:-3] - curve[3:]) / 16
    # A curve with a kink must not throw a value's bound past the value itself.
    step = (light[1:] - light[:-1]) / 4
    bounds: npt.NDArray[np.float64] = np.clip(middle, light[:-1] + step, light[1:] - step)
    return bounds


def _nearest(between: npt.NDArray[np.float64], roots: npt.NDArray[np.float64]) -> U8:
    """The value (0 to 255) nearest to each root; a tie goes to the higher one, as in round half up."""
    # Both only rise, and there are far fewer bounds than roots: each bound is looked for among the roots.
    passed = np.searchsorted(roots, between, side="left")
    return np.repeat(np.arange(256, dtype=np.uint8), np.diff(passed, prepend=0, append=len(roots)))


def encode(light: F32, table: U8) -> U8:
    """Bring resampled linear light back to 8 bits.

    Parameters
    ----------
    light : (rows, columns) float32
        Linear light below 4; a filter's overshoot beyond 0 and 1 is cut.
    table : (262144,) uint8
        One channel's `Tones.from_root`.

    Returns
    -------
    (rows, columns) uint8

    Examples
    --------
    >>> encode(np.ones((1, 1), np.float32), tones(None, channels=1).from_root[0]).tolist()
    [[255]]
    """
    found = np.empty(light.shape, np.uint8)
    # A few rows at a time, so that what is worked out on the way stays in the processor's cache.
    rows = max(1, _CACHED // max(1, light.shape[-1]))
    # What is below 0 has no square root. The bits that would hold the whole part of one are 0.
    with np.errstate(invalid="ignore"):
        for first in range(0, len(light), rows):
            root = np.sqrt(light[first : first + rows])
            root *= np.float32(_HALVES)
            # An index of the machine's own size is looked up in half the time of a smaller one.
            if IN_WEBASSEMBLY:
                # Defined there for what is no number: it becomes 0.
                found[first : first + rows] = table[root.astype(np.intp)]
                continue
            root += _TO_FLOOR
            places = root.view(np.int32)
            places >>= _FLOOR_SHIFT
            places &= _ROOTS - 1
            found[first : first + rows] = table[places.astype(np.intp, copy=False)]
    return found
