"""Tables between 8-bit values and linear light, as whole numbers or exact fractions, the same everywhere.

Pixels only ever meet table look-ups and +, -, x, / and square root, which IEEE 754 defines to the last bit.
What could differ between two platforms' mathematical libraries (the profile's curves) is computed once per
table and then rounded so coarsely that a last-bit difference has no effect.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Protocol

import numpy as np
import numpy.typing as npt

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

#: Resampled light is looked up by the highest bits of its float32: sign, exponent and the first 12 bits after
#: the point, in steps of 2**-12 of the light or less. So what lies within 0.015 of the middle between two
#: values of sRGB, or 0.031 between two of a linear curve, may be rounded the other way.
_BITS_CUT = 11

#: Places for light below 4, and in all: light below 0 has its sign as the highest bit and counts from behind.
_LIGHT_PLACES = 0x40800000 >> _BITS_CUT
_PLACES = (2**31 >> _BITS_CUT) + _LIGHT_PLACES

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

    def running_means(self, rows: Values, channel: int) -> Iterator[Light]:
        """The mean of the first row, of the first two, and so on, down each column, in linear light.

        Parameters
        ----------
        rows : (rows, columns) uint8 or uint16
            Of one channel.
        channel : int

        Yields
        ------
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
    from_bits : (channels, 1576960) uint8
        The 8-bit value nearest to light below 4, by the highest bits of its float32, less the last 11: steps
        of a share of the light are as fine for dark values as for light ones. The places after those are of
        light below 0, and hold 0.
    from_light16 : (channels, 65536) uint8
        The 8-bit value nearest to 16-bit light.
    """

    is_linear: bool
    light: F32
    light16: U16
    from_bits: U8
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

    def running_means(self, rows: Values, channel: int) -> Iterator[Light]:
        """The mean of the first row, of the first two, and so on, down each column, in linear light.

        Parameters
        ----------
        rows : (rows, columns) uint8
            Of one channel.
        channel : int

        Yields
        ------
        (columns,) uint16, 0 to 65535
        """
        total = np.zeros(rows.shape[1], np.uint32)
        for count, row in enumerate(rows, start=1):
            total += self.light16[channel][row]
            yield ((total + np.uint32(count // 2)) // np.uint32(count)).astype(np.uint16)

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
        return encode(light, self.from_bits[channel])


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
        Every 8-bit value comes back as itself through `light` and `from_bits`, where `linear` rises from
        each value to the next by more than a thousandth of itself.

    References
    ----------
    IEC 61966-2-1 for what an absent profile is taken to be, by the caller.

    Examples
    --------
    >>> plain = tones(None, channels=1)
    >>> int(plain.from_light16[0, plain.light16[0, 77]])
    77
    """
    return _made(None if linear is None else np.ascontiguousarray(linear, np.float64).tobytes(), channels)


@lru_cache(maxsize=2)
def _made(linear: bytes | None, channels: int) -> Tones:
    """The tables; a job's picture keeps its own through look, detail and print."""
    if linear is None:
        light = np.tile(np.arange(256, dtype=np.float64) / 255.0, (channels, 1))
    else:
        light = np.frombuffer(linear, np.float64).reshape(channels, 256)
    exact = np.floor(light / _STEP + 0.5) * _STEP
    roots16 = np.sqrt(np.arange(_TOP + 1) / _TOP)
    from_bits, from_light16 = {}, {}
    # Channels mostly have the same curve.
    for row in {row.tobytes(): row for row in exact}.values():
        between = _between(row)
        from_bits[row.tobytes()] = _by_bits(between)
        from_light16[row.tobytes()] = _nearest(np.sqrt(between), roots16)
    made = Tones(
        is_linear=linear is not None,
        light=exact.astype(np.float32),
        light16=np.floor(exact * _TOP + 0.5).astype(np.uint16),
        from_bits=np.stack([from_bits[row.tobytes()] for row in exact]),
        from_light16=np.stack([from_light16[row.tobytes()] for row in exact]),
    )
    for table in (made.light, made.light16, made.from_bits, made.from_light16):
        table.flags.writeable = False
    return made


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


def _by_bits(between: npt.NDArray[np.float64]) -> U8:
    """The value (0 to 255) nearest to the middle of the light that each place stands for."""
    bounds = np.maximum(between, 0.0).astype(np.float32).view(np.int32).astype(np.intp)
    half = 1 << (_BITS_CUT - 1)
    # The first place whose middle is not below the bound.
    passed = np.maximum(bounds + half - 1 >> _BITS_CUT, 0)
    found = np.zeros(_PLACES, np.uint8)
    found[:_LIGHT_PLACES] = np.repeat(
        np.arange(256, dtype=np.uint8), np.diff(passed, prepend=0, append=_LIGHT_PLACES)
    )
    return found


def encode(light: F32, table: U8) -> U8:
    """Bring resampled linear light back to 8 bits.

    Parameters
    ----------
    light : (rows, columns) float32
        Linear light below 4, whose rows are whole in memory; a filter's overshoot beyond 0 and 1 is cut.
    table : (1576960,) uint8
        One channel's `Tones.from_bits`.

    Returns
    -------
    (rows, columns) uint8

    Examples
    --------
    >>> encode(np.ones((1, 1), np.float32), tones(None, channels=1).from_bits[0]).tolist()
    [[255]]
    """
    found = np.empty(light.shape, np.uint8)
    # A few rows at a time, so that what is worked out on the way stays in the processor's cache.
    rows = max(1, _CACHED // max(1, light.shape[-1]))
    for first in range(0, len(light), rows):
        places = light[first : first + rows].view(np.int32) >> _BITS_CUT
        # An index of the machine's own size is looked up in half the time of a smaller one.
        found[first : first + rows] = table[places.astype(np.intp, copy=False)]
    return found
