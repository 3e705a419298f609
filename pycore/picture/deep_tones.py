"""Tables between 16-bit values and linear light, the same everywhere.

Light is float32 here: whole numbers of 16 bits would leave the darkest thirteen values of sRGB in one step.
As for 8 bits, pixels meet table look-ups and +, -, x, / and square root alone.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pycore.picture.tones import F32, U8, U16, Light, Values

_TOP = 65535

#: What two mathematical libraries may differ by is far below these steps.
_STEP = 2.0**-40
_NODE_STEP = 2.0**-8


@dataclass(frozen=True, kw_only=True, eq=False)
class DeepTones:
    """Tables of one picture, channel by channel.

    Attributes
    ----------
    is_linear : bool
        Linear light by the profile's curves; False: the encoded values themselves, because it has none.
    light : (channels, 65536) float32
        Of every 16-bit value, 0 to 1.
    nodes : (channels, 65537) float32
        The 16-bit value, with a fraction, of the light whose fourth root, times 65535, is the index. Against
        the fourth root every usual tone curve is so smooth that a line between two nodes serves.
    """

    is_linear: bool
    light: F32
    nodes: F32

    @property
    def channels(self) -> int:
        """Channels of the picture."""
        return len(self.light)

    @property
    def top(self) -> int:
        """The highest value."""
        return _TOP

    def to_light(self, values: Values, channel: int) -> Light:
        """Linear light, float32, of values of one channel.

        Parameters
        ----------
        values : uint16 array
        channel : int

        Returns
        -------
        array of float32, 0 to 1
            Of the values' shape.
        """
        found: F32 = self.light[channel][values]
        return found

    def from_light(self, light: Light, channel: int) -> Values:
        """The 16-bit values nearest to light; beyond 0 and 1 it is cut.

        Parameters
        ----------
        light : array of float32, 0 to 1
            At least one axis.
        channel : int

        Returns
        -------
        uint16 array
            Of the light's shape.
        """
        nodes = self.nodes[channel]
        values = np.empty(light.shape, np.uint16)
        # Row by row, so that what is worked out on the way stays small.
        for row in range(len(light)):
            at = np.clip(light[row], np.float32(0.0), np.float32(1.0))
            np.sqrt(at, out=at)
            np.sqrt(at, out=at)
            at *= np.float32(_TOP)
            low = at.astype(np.int32)
            at -= low
            before = nodes.take(low)
            low += 1
            rise = nodes.take(low)
            rise -= before
            at *= rise
            at += before
            at += np.float32(0.5)
            values[row] = at
        return values

    def mean_light(self, area: Values, channel: int) -> np.float32:
        """The mean of an area of one channel in linear light; at least one pixel.

        Parameters
        ----------
        area : uint16 array
            Of one channel; at least one pixel.
        channel : int

        Returns
        -------
        numpy.float32
        """
        counts = np.bincount(area.ravel())
        values = np.flatnonzero(counts)
        counts = counts[values]
        # Whole numbers of 2**-40: their sum has no order. In halves, of which no sum is beyond 63 bits.
        units = (self.light[channel][values].astype(np.float64) / _STEP).astype(np.int64)
        total = (int(counts @ (units >> 20)) << 20) + int(counts @ (units & 0xFFFFF))
        return np.float32(total / area.size * _STEP)

    def running_means(self, rows: Values, channel: int) -> Iterator[Light]:
        """The mean of the first row, of the first two, and so on, down each column, in linear light.

        Parameters
        ----------
        rows : (rows, columns) uint16
            Of one channel.
        channel : int

        Yields
        ------
        (columns,) float32, 0 to 1
        """
        total = np.zeros(rows.shape[1], np.float64)
        for count, row in enumerate(rows, start=1):
            total += self.light[channel][row]
            yield (total / count).astype(np.float32)

    def resampled(self, light: F32, channel: int) -> Values:
        """The values nearest to resampled linear light, 0 to 1; what overshoots is cut.

        Parameters
        ----------
        light : (rows, columns) float32
            0 to 1; what overshoots is cut.
        channel : int

        Returns
        -------
        (rows, columns) uint16
        """
        return self.from_light(light, channel)


def deep_tones(linear: npt.NDArray[np.float64] | None, *, channels: int) -> DeepTones:
    """Make the tables.

    Parameters
    ----------
    linear : (channels, 65536) float64 or None
        Linear light of every 16-bit value, 0 to 1, never falling; None: work on the encoded values.
    channels : int
        Channels of the picture.

    Returns
    -------
    DeepTones
        Every 16-bit value comes back as itself through `to_light` and `from_light`, where `linear` rises from
        each value to the next by more than 2**-40.

    Examples
    --------
    >>> plain = deep_tones(None, channels=1)
    >>> values = np.array([[0, 1, 30000, 65535]], np.uint16)
    >>> plain.from_light(plain.to_light(values, 0), 0).tolist()
    [[0, 1, 30000, 65535]]
    """
    is_linear = linear is not None
    if linear is None:
        linear = np.tile(np.arange(_TOP + 1, dtype=np.float64) / _TOP, (channels, 1))
    exact = np.floor(linear / _STEP + 0.5) * _STEP
    roots = (np.arange(_TOP + 2) / _TOP) ** 2
    return DeepTones(
        is_linear=is_linear,
        light=exact.astype(np.float32),
        # Whole numbers of 2**-8 up to 65535: float32 has them all.
        nodes=np.stack([_values_at(roots * roots, row) for row in exact]).astype(np.float32),
    )


def _values_at(light: npt.NDArray[np.float64], row: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    # Where several values have the same light the first stands for them, but for the highest.
    levels, first = np.unique(row, return_index=True)
    values = first.astype(np.float64)
    values[-1] = _TOP
    found = np.interp(light, levels, values)
    nodes: npt.NDArray[np.float64] = np.floor(found / _NODE_STEP + 0.5) * _NODE_STEP
    return nodes


def widened(values: U8) -> U16:
    """8-bit values as 16-bit ones: 255 becomes 65535.

    Parameters
    ----------
    values : uint8 array

    Returns
    -------
    uint16 array
        Of the same shape.

    Examples
    --------
    >>> widened(np.array([0, 1, 255], np.uint8)).tolist()
    [0, 257, 65535]
    """
    return values * np.uint16(257)
