"""At which lightness a gamut comes nearest to a colour of the same hue, as a table without jumps."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.colour.gamut.chroma_limit import ChromaLimits
from pycore.colour.icc.interpolate import Interpolation, interpolate
from pycore.colour.spaces.arrays import FloatArray
from pycore.colour.spaces.ipt import lpt_to_lab
from pycore.colour.spaces.lab import chroma_hue

#: Nodes of the table over hue, L* and chroma, and how many L* are compared for each.
_HUES: Final = 49
_LIGHTNESSES: Final = 34
_CHROMAS: Final = 33
_COMPARED: Final = 49

#: The table goes so many times as far as the gamut's largest chroma; what lies beyond is as its last node.
_FURTHEST: Final = 2.2

#: How much a difference of lightness counts beside one of chroma, which counts as in CIEDE2000. Our own
#: choice: with 1, which is CIEDE2000's, lime and green lose more chroma, as no colour comes quite so near as
#: this table says.
_LIGHTNESS_WEIGHT: Final = 0.8

#: Where two L* are about as near, the result lies between them: what is so much further away, in CIEDE2000,
#: counts by 1 / e of the nearest. With less, colours of a gradient part where its boundary is hollow.
_SOFTNESS_DE: Final = 1.0

#: By how much further away an L* counts at which a gamut holds not even grey, in CIEDE2000.
_NO_GREY_DE: Final = 3.0


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class NearestLightness:
    """How far the L* at which a gamut comes nearest lies from a colour's own.

    Attributes
    ----------
    change : (hue nodes, lightness nodes, chroma nodes) float64
        Of L*, over hue -pi to pi, L* 0 to 100 and chroma 0 to `furthest`.
    furthest : float
        Chroma of the last node.
    """

    change: FloatArray
    furthest: float

    def __call__(self, lightness: FloatArray, chroma: FloatArray, hue_rad: FloatArray) -> FloatArray:
        """The change of L* for colours, all (n,): (n,) float64, between the nodes along straight lines."""
        shares = (
            np.mod(hue_rad + np.pi, 2.0 * np.pi) / (2.0 * np.pi),
            lightness / 100.0,
            chroma / self.furthest,
        )
        table, places = self.change[..., None], np.stack(shares, axis=1)
        return interpolate(table, places, method=Interpolation.TRILINEAR)[:, 0]


def nearest_lightness(limits: ChromaLimits) -> NearestLightness:
    """Compare, for colours of every hue, what a gamut holds at each L*.

    A colour that the gamut holds stays at its own. Of one that it does not hold, L* and chroma change
    together by as little as the eye sees. The nearest L* alone would jump where the boundary is hollow, so
    those that are about as near are averaged.

    Parameters
    ----------
    limits : ChromaLimits
        Over L* of CIELAB and the hue of IPT.

    Returns
    -------
    NearestLightness
    """
    # A printer of greys alone has no chroma.
    furthest = max(_FURTHEST * float(limits.chroma.max()), 1.0)
    hues = np.linspace(-np.pi, np.pi, _HUES, dtype=np.float64)
    lightness = np.linspace(0.0, 100.0, _LIGHTNESSES, dtype=np.float64)
    compared = np.linspace(0.0, 100.0, _COMPARED, dtype=np.float64)
    asked_l, asked_c = np.meshgrid(lightness, np.linspace(0.0, furthest, _CHROMAS), indexing="ij")
    # CIEDE2000 weighs lightness by the mean of both colours'.
    middle = (lightness[:, None] + compared) / 2.0 - 50.0
    unit = 1.0 + 0.015 * middle**2 / np.sqrt(20.0 + middle**2)
    apart = (_LIGHTNESS_WEIGHT * (lightness[:, None] - compared) / unit)[:, None]
    change = np.empty((_HUES, _LIGHTNESSES, _CHROMAS))
    for index, hue in enumerate(hues):
        most = limits(compared, np.full(_COMPARED, hue))
        asked = _lab_chroma(asked_l.ravel(), asked_c.ravel(), hue).reshape(asked_l.shape)[..., None]
        held = np.minimum(_lab_chroma(compared, most, hue), asked)
        paler = (asked - held) / (1.0 + 0.045 * (asked + held) / 2.0)
        away = np.sqrt(apart**2 + paler**2) + np.where(most > 0.0, 0.0, _NO_GREY_DE)
        weight = np.exp((away.min(axis=2, keepdims=True) - away) / _SOFTNESS_DE)
        change[index] = (weight * compared).sum(axis=2) / weight.sum(axis=2) - asked_l
    # The first and the last hue are the same.
    change[-1] = change[0]
    return NearestLightness(change=change, furthest=furthest)


def _lab_chroma(lightness: FloatArray, chroma: FloatArray, hue_rad: float) -> FloatArray:
    """Chroma of CIELAB of colours with chroma and hue of IPT, all (n,)."""
    lpt = np.stack([lightness, chroma * np.cos(hue_rad), chroma * np.sin(hue_rad)], axis=1)
    found, _ = chroma_hue(lpt_to_lab(lpt))
    return found
