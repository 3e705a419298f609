"""One-dimensional curves of ICC profiles: `curv` and `para`, read, evaluated and turned round."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.colour.icc.block import Block
from pycore.colour.spaces.arrays import FloatArray
from pycore.colour.spaces.power_curve import PowerCurve
from pycore.speech import say

#: A `curv` table has no limit in the specification; larger ones than 16-bit values need are refused.
MAX_CURVE_ENTRIES: Final = 65536

#: How many parameters each function of `para` has (ICC.1:2022, table 68).
_PARAMETER_COUNTS: Final = (1, 3, 4, 5, 7)


@dataclass(frozen=True, kw_only=True, slots=True)
class SampledCurve:
    """Equally spaced samples over 0 to 1, joined by straight lines; constant outside.

    Attributes
    ----------
    samples : (n,) float64
        At least two.
    """

    samples: FloatArray

    def __call__(self, values: FloatArray) -> FloatArray:
        """The curve at `values`, any shape."""
        last = len(self.samples) - 1
        place = np.clip(values, 0.0, 1.0) * last
        left = np.minimum(place.astype(np.intp), last - 1)
        low = self.samples[left]
        result: FloatArray = low + (self.samples[left + 1] - low) * (place - left)
        return result

    def inverse(self, values: FloatArray) -> FloatArray:
        """Find where the curve reaches `values`; a flat stretch gives its middle.

        A curve that is not monotonic is first made so, by its running maximum (or minimum).

        Parameters
        ----------
        values : (n,) float64

        Returns
        -------
        (n,) float64
            Places, 0 to 1.
        """
        rising = bool(self.samples[-1] >= self.samples[0])
        samples = self.samples if rising else self.samples[::-1]
        steps = np.maximum.accumulate(samples)
        places = np.linspace(0.0, 1.0, len(steps))
        levels, first, counts = np.unique(steps, return_index=True, return_counts=True)
        if len(levels) == 1:
            return np.full_like(values, 0.5)
        last = first + counts - 1
        # A flat stretch at an end gives its inner edge, so that the inverse has no jump there.
        middle = (places[first] + places[last]) / 2
        middle[0], middle[-1] = places[last[0]], places[first[-1]]
        result: FloatArray = np.interp(values, levels, middle)
        return result if rising else 1.0 - result


Curve = SampledCurve | PowerCurve

IDENTITY: Final = PowerCurve(g=1.0)


def read_curve(block: Block) -> tuple[Curve, int]:
    """Read a `curv` or `para` curve from the start of a block.

    Parameters
    ----------
    block : Block
        May be longer than the curve.

    Returns
    -------
    tuple of Curve and int
        The curve and the bytes it took, without padding.

    Raises
    ------
    ProfileError
        Of another type, longer than the block, or with parameters that give no finite curve.

    References
    ----------
    ICC.1:2022, 10.6 (curveType) and 10.18 (parametricCurveType).

    Examples
    --------
    >>> gamma = b"curv" + bytes(4) + (1).to_bytes(4, "big") + (2 * 256).to_bytes(2, "big")
    >>> curve, size = read_curve(Block(name="tag rTRC", data=memoryview(gamma)))
    >>> curve(np.array([0.5])).tolist(), size
    ([0.25], 14)
    """
    if block.require_type("curv", "para") == "para":
        return _read_parametric(block)
    count = block.u32(8)
    if count > MAX_CURVE_ENTRIES:
        raise block.wrong(
            expected=say(
                "at most {max_curve_entries} entries in the curve", max_curve_entries=MAX_CURVE_ENTRIES
            ),
            got=str(count),
        )
    if count == 0:
        return IDENTITY, 12
    if count == 1:
        gamma = block.u16(12) / 256.0  # u8Fixed8Number
        if gamma <= 0.0:
            raise block.wrong(expected=say("a gamma above 0"), got=f"{gamma:g}")
        return PowerCurve(g=gamma), 14
    return SampledCurve(samples=block.u16s(12, count)), 12 + 2 * count


def _read_parametric(block: Block) -> tuple[Curve, int]:
    kind = block.u16(8)
    if kind >= len(_PARAMETER_COUNTS):
        raise block.wrong(expected=say("function type 0 to 4"), got=str(kind))
    count = _PARAMETER_COUNTS[kind]
    parameters = np.zeros(7)
    parameters[:count] = block.fixeds(12, count)
    g, a, b, c, d, e, f = (float(one) for one in parameters)
    if g <= 0.0:
        raise block.wrong(expected=say("an exponent above 0"), got=f"{g:g}")
    if kind > 0 and a <= 0.0:
        raise block.wrong(expected=say("a parameter a above 0"), got=f"{a:g}")
    size = 12 + 4 * count
    if kind == 0:
        return PowerCurve(g=g), size
    if kind == 1:
        return PowerCurve(g=g, a=a, b=b, d=-b / a), size
    if kind == 2:
        # In types 1 and 2 the joint stands where the base of the power becomes zero.
        return PowerCurve(g=g, a=a, b=b, d=-b / a, e=c, f=c), size
    return PowerCurve(g=g, a=a, b=b, c=c, d=d, e=e, f=f), size
