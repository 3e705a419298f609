"""Cubic convolution down the columns of a picture as Pillow does it in mode F, to the last bit, by numpy.

WebAssembly takes Pillow's sums value by value, at almost twice the price of sums of whole rows, as long as
few rows are summed: where a picture shrinks much, Pillow's cost less. The coefficients and the order of the
sums are Pillow's: in double precision, rounded to single at the end. A processor that multiplies and adds in
one step may round differently; WebAssembly has no such step, and natively Pillow itself is used.

References
----------
R. G. Keys, Cubic convolution interpolation for digital image processing, IEEE Trans. ASSP 29 (1981).
"""

from __future__ import annotations

import functools
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

from pycore.picture.tones import F32

F64 = npt.NDArray[np.float64]
_Places = npt.NDArray[np.intp]

#: Pillow's BICUBIC reaches so many source pixels, times the scale when shrinking (Keys, equation 15).
REACH: Final = 2.0

#: The filter's a.
_A: Final = -0.5

#: Values of the result that are best made at a time: they stay in the processor's cache.
_CACHED: Final = 2**17


@dataclass(frozen=True, kw_only=True)
class Span:
    """Rows that Pillow would resample in one step.

    Attributes
    ----------
    first : int
        Where they begin in the source.
    size : int
        Rows of the source.
    start, stop : float
        The part of these that is resampled; taken as single precision, as Pillow does.
    count : int
        Rows of the result.
    """

    first: int
    size: int
    start: float
    stop: float
    count: int


@dataclass(frozen=True, kw_only=True, eq=False)
class Taps:
    """What each row of a result is the sum of.

    Attributes
    ----------
    first : (count,) int
        The first row of the source.
    weights : (count, taps) float64
        Of this row and those after it.
    """

    first: _Places
    weights: F64

    def parts(self, width: int) -> list[tuple[slice, Taps]]:
        """The same in parts of as many rows as are best made at a time where they have so many values.

        Parameters
        ----------
        width : int

        Returns
        -------
        list of (slice, Taps)
            Rows of the result, and what they are the sums of.
        """
        rows = max(1, _CACHED // width)
        cuts = [slice(first, first + rows) for first in range(0, len(self.first), rows)]
        return [(cut, Taps(first=self.first[cut], weights=self.weights[cut])) for cut in cuts]

    @functools.cached_property
    def series(self) -> list[tuple[slice | _Places, slice | _Places]]:
        """Rows of the result that begin at rising rows of the source, each of which begins one of them.

        Counted from the first row of the source. Few rows follow one another here, and of so few a list is
        quicker than an array.
        """
        firsts: list[int] = self.first.tolist()
        series: list[list[int]] = []
        number, before = 0, None
        for row, first in enumerate(firsts):
            number = number + 1 if first == before else 0
            if number == len(series):
                series.append([])
            series[number].append(row)
            before = first
        return [(_even(rows), _even([firsts[row] - firsts[0] for row in rows])) for rows in series]


def _even(places: list[int]) -> slice | _Places:
    """Places at even steps as a slice, which numpy passes through more quickly."""
    if len(places) > 1:
        steps = range(places[0], places[-1] + 1, places[1] - places[0])
        if places == list(steps):
            return slice(steps.start, steps.stop, steps.step)
    return np.array(places, np.intp)


def taps(spans: Sequence[Span]) -> Taps:
    """Work out the coefficients of spans that follow one another.

    Parameters
    ----------
    spans : sequence of Span

    Returns
    -------
    Taps
        Of the rows of all of them.

    Examples
    --------
    >>> twice = taps([Span(first=0, size=8, start=2, stop=6, count=8)])
    >>> twice.first.tolist()
    [0, 1, 1, 2, 2, 3, 3, 4]
    >>> twice.weights[1].tolist()
    [-0.0703125, 0.8671875, 0.2265625, -0.0234375]
    """
    starts = np.array([span.start for span in spans], np.float32)
    stops = np.array([span.stop for span in spans], np.float32)
    counts = np.array([span.count for span in spans])
    each = np.repeat(np.arange(len(spans)), counts)
    begin, scale = starts.astype(np.float64)[each], ((stops - starts) / counts.astype(np.float64))[each]
    size = np.array([span.size for span in spans])[each]
    number = np.concatenate([np.arange(span.count) for span in spans])
    widened = np.maximum(scale, 1.0)
    centre, reach = begin + (number + 0.5) * scale, REACH * widened
    first = np.maximum((centre - reach + 0.5).astype(np.intp), 0)
    last = np.minimum((centre + reach + 0.5).astype(np.intp), size)
    used = int((last - first).max())
    places = first[:, np.newaxis] + np.arange(used)
    weights = _filter((places - centre[:, np.newaxis] + 0.5) * (1.0 / widened)[:, np.newaxis])
    weights[places >= last[:, np.newaxis]] = 0.0
    # One after another, as Pillow adds them: `sum` would take them in pairs.
    weights /= functools.reduce(np.add, weights.T)[:, np.newaxis]
    # Every row has as many taps: those that the source ends before have no weight, and stand first.
    over = np.maximum(first + used - size, 0)
    for row in np.flatnonzero(over).tolist():
        weights[row] = np.roll(weights[row], over[row])
    first += np.array([span.first for span in spans])[each] - over
    return Taps(first=first, weights=weights)


def _filter(x: F64) -> F64:
    x = np.abs(x)
    near = ((_A + 2.0) * x - (_A + 3.0)) * x * x + 1
    far = (((x - 5) * x + 8) * x - 4) * _A
    return np.where(x < 1.0, near, np.where(x < 2.0, far, 0.0))


def resampled_down(light: F32, rows: Taps) -> F32:
    """Resample columns.

    Parameters
    ----------
    light : (size, columns) float32
    rows : Taps

    Returns
    -------
    (count, columns) float32

    Examples
    --------
    >>> light = np.array([[0.0], [0.0], [1.0], [1.0]], np.float32)
    >>> resampled_down(light, taps([Span(first=0, size=4, start=0, stop=4, count=8)])).ravel().tolist()[3:5]
    [0.203125, 0.796875]
    """
    count, each = rows.weights.shape
    top = int(rows.first[0])
    wide = light[top : int(rows.first[-1]) + each].astype(np.float64)
    found = np.empty((count, light.shape[1]), np.float32)
    for places, begins in rows.series:
        taken = _taken(wide, begins, each)
        found[places] = np.einsum("rk,rkc->rc", rows.weights[places], taken)
    return found


def _taken(light: F64, begins: slice | _Places, each: int) -> F64:
    """So many rows from each of these on, (rows, each, columns); a view where they begin at even steps."""
    if isinstance(begins, slice):
        count = len(range(begins.start, begins.stop, begins.step))
        down, across = light.strides
        shape, strides = (count, each, light.shape[1]), (begins.step * down, down, across)
        return np.ndarray(shape, np.float64, light, begins.start * down, strides)
    return light[begins[:, np.newaxis] + np.arange(each)]
