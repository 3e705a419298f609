"""Colours gathered by hue into a few groups, at the gaps between them."""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.colour.spaces.arrays import ByteArray, FloatArray, IndexArray
from pycore.colour.spaces.lab import chroma_hue
from pycore.speech import say

#: More groups than this no one looks through.
MOST_GROUPS: Final = 8

#: Below this chroma a colour has no hue to speak of. Common practice.
GREY_CHROMA: Final = 8.0

#: Steps of the hue circle, and over how many of them it is smoothed (the width of a Gaussian).
_STEPS: Final = 72
_SMOOTHING: Final = 2.0

#: Names of hues by the upper end of their range in CIELAB, degrees. Our own division, from memory of where
#: printed and displayed colours of these names lie.
_NAMES: Final = (
    (15, say("pink")),
    (45, say("red")),
    (70, say("orange")),
    (108, say("yellow")),
    (170, say("green")),
    (225, say("cyan")),
    (290, say("blue")),
    (325, say("violet")),
    (360, say("magenta")),
)


def hue_name(hue_deg: float) -> str:
    """The everyday name of a CIELAB hue.

    Parameters
    ----------
    hue_deg : float
        Any angle, in degrees.

    Returns
    -------
    str

    Examples
    --------
    >>> hue_name(40.0), hue_name(-80.0)
    ('red', 'blue')
    """
    return say(next(name for end, name in _NAMES if hue_deg % 360.0 < end))


def hue_groups(lab_d50: FloatArray, weights: FloatArray) -> ByteArray:
    """Gather colours into at most eight groups.

    Greys are one group. The others are cut where the hue circle holds least; the shallowest cuts are given up
    until few enough groups are left.

    Parameters
    ----------
    lab_d50 : (n, 3) float64
    weights : (n,) float64
        How much each colour counts; 0 leaves it out.

    Returns
    -------
    (n,) uint8
        0 for what was left out, else the number of the group from 1 on, the heaviest first.
    """
    chroma, hue = chroma_hue(lab_d50)
    counted = weights > 0.0
    grey = counted & (chroma < GREY_CHROMA)
    coloured = counted & ~grey
    step = np.floor(np.mod(hue, 2 * np.pi) / (2 * np.pi) * _STEPS).astype(np.intp) % _STEPS
    circle = np.bincount(step[coloured], weights=weights[coloured], minlength=_STEPS).astype(np.float64)
    most = MOST_GROUPS - int(grey.any())
    rough = np.zeros(len(lab_d50), dtype=np.intp)
    rough[coloured] = 1 + _segments(_cuts(_smoothed(circle), most))[step[coloured]]
    rough[grey] = 1 + _STEPS
    totals = np.bincount(rough, weights=np.where(counted, weights, 0.0), minlength=2 + _STEPS)
    totals[0] = 0.0
    order = np.argsort(-totals, kind="stable")
    number = np.zeros(2 + _STEPS, dtype=np.uint8)
    kept = order[totals[order] > 0.0]
    number[kept] = np.arange(1, len(kept) + 1)
    labels: ByteArray = number[rough]
    return labels


def _smoothed(circle: FloatArray) -> FloatArray:
    apart = np.minimum(np.arange(_STEPS), _STEPS - np.arange(_STEPS))
    kernel = np.exp(-0.5 * (apart / _SMOOTHING) ** 2)
    smooth: FloatArray = np.fft.irfft(np.fft.rfft(circle) * np.fft.rfft(kernel / kernel.sum()), n=_STEPS)
    return np.maximum(smooth, 0.0)


def _cuts(circle: FloatArray, most: int) -> list[int]:
    """The steps at which groups begin: the minima of the circle, the deepest `most` of them."""
    before, after = np.roll(circle, 1), np.roll(circle, -1)
    cuts = [int(one) for one in np.flatnonzero((circle < before) & (circle <= after))]
    while len(cuts) > most:
        # How little a cut stands below the lower of the two heights that it parts.
        peaks = [float(circle[_span(cuts, index)].max()) for index in range(len(cuts))]
        depth = [
            float(circle[cut]) / max(min(peaks[index - 1], peaks[index]), 1e-300)
            for index, cut in enumerate(cuts)
        ]
        del cuts[int(np.argmax(depth))]
    return cuts


def _span(cuts: list[int], index: int) -> IndexArray:
    start, stop = cuts[index], cuts[(index + 1) % len(cuts)]
    return np.arange(start, stop if stop > start else stop + _STEPS) % _STEPS


def _segments(cuts: list[int]) -> IndexArray:
    segment = np.zeros(_STEPS, dtype=np.intp)
    for index in range(len(cuts)):
        segment[_span(cuts, index)] = index
    return segment
