"""How much chroma a gamut holds at each lightness and hue."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

import numpy as np

from pycore.colour.spaces.arrays import BoolArray, FloatArray

#: Steps of lightness (half a step of L* apart) and of hue (3 degrees apart, the first and the last the same).
#: A gamut's edge is sharpest along lightness: past its lightest yellow it loses eight of chroma with one of
#: L*.
LIGHTNESS_NODES: Final = 201
HUE_NODES: Final = 121

#: No printed or displayed colour of interest lies beyond this chroma.
_CHROMA_LIMIT: Final = 200.0

#: Colours further inside than one part in this are as good as grey.
_REACH_LIMIT: Final = 8.0

#: Halvings of these limits: 2^-12 of them is 0.05 of chroma, and 0.002 of a reach.
_HALVINGS: Final = 12


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class ChromaLimits:
    """The largest chroma, sampled.

    Attributes
    ----------
    chroma : (lightness nodes, hue nodes) float64
        Over L* 0 to 100 and hue -pi to pi; 0 where not even grey is inside.
    """

    chroma: FloatArray

    def __call__(self, lightness: FloatArray, hue_rad: FloatArray) -> FloatArray:
        """The largest chroma at lightness and hue, both (n,): (n,) float64."""
        return self._along(hue_rad)(lightness)

    def _along(self, hue_rad: FloatArray) -> Callable[[FloatArray], FloatArray]:
        """The largest chroma over lightness at hues that stay: where each lies is worked out once."""
        lightness_nodes, hue_nodes = self.chroma.shape
        from_hue = (np.mod(hue_rad + np.pi, 2 * np.pi) / (2 * np.pi)) * (hue_nodes - 1)
        column = np.minimum(from_hue.astype(np.intp), hue_nodes - 2)
        right = from_hue - column
        left = 1 - right
        chroma = self.chroma.ravel()

        def at(lightness: FloatArray) -> FloatArray:
            from_lightness = np.clip(lightness / 100.0, 0.0, 1.0) * (lightness_nodes - 1)
            row = np.minimum(from_lightness.astype(np.intp), lightness_nodes - 2)
            down = from_lightness - row
            place = row * hue_nodes + column
            upper = chroma[place] * left + chroma[place + 1] * right
            place += hue_nodes
            lower = chroma[place] * left + chroma[place + 1] * right
            result: FloatArray = upper * (1 - down) + lower * down
            return result

        return at

    def cusp(self, hue_rad: FloatArray) -> FloatArray:
        """Find the lightness at which a hue has most chroma.

        Parameters
        ----------
        hue_rad : (n,) float64
            Any angle.

        Returns
        -------
        (n,) float64
            L*, 0 to 100.
        """
        lightness_nodes, hue_nodes = self.chroma.shape
        lightness = np.argmax(self.chroma, axis=0) * (100.0 / (lightness_nodes - 1))
        result: FloatArray = np.interp(
            np.mod(hue_rad + np.pi, 2 * np.pi), np.linspace(0.0, 2 * np.pi, hue_nodes), lightness
        )
        return result

    def reach(
        self,
        *,
        anchor: FloatArray,
        anchor_chroma: FloatArray | float = 0.0,
        lightness: FloatArray,
        chroma: FloatArray,
        hue_rad: FloatArray,
    ) -> FloatArray:
        """How far a line from one colour through another of the same hue stays inside.

        Parameters
        ----------
        anchor, anchor_chroma : (n,) float64
            L* and chroma of the first, which lies inside; it is a grey where no chroma is given.
        lightness, chroma, hue_rad : (n,) float64
            The second.

        Returns
        -------
        (n,) float64
            1 where the colour lies on the boundary, above 1 inside, below 1 outside; at most 8.
        """
        low: FloatArray = np.zeros_like(lightness)
        high: FloatArray = np.full_like(lightness, _REACH_LIMIT)
        most = self._along(hue_rad)
        for _ in range(_HALVINGS):
            middle = (low + high) / 2.0
            there = anchor + middle * (lightness - anchor)
            held = (
                (there >= 0.0)
                & (there <= 100.0)
                & (anchor_chroma + middle * (chroma - anchor_chroma) <= most(there))
            )
            low, high = np.where(held, middle, low), np.where(held, high, middle)
        return low


def chroma_limits(
    inside: Callable[[FloatArray], BoolArray],
    *,
    lightness_nodes: int = LIGHTNESS_NODES,
    hue_nodes: int = HUE_NODES,
) -> ChromaLimits:
    """Find the largest chroma by halving, outward from the grey axis.

    Parameters
    ----------
    inside : callable
        Whether colours, (n, 3) float64, lie in a gamut that has no holes along its lines of constant
        lightness and hue: an `InsideTest` for CIELAB, or one that takes another space's lightness and
        opponent pair.
    lightness_nodes, hue_nodes : int
        How many steps of each; the first and the last hue are the same.

    Returns
    -------
    ChromaLimits
    """
    lightness = np.linspace(0.0, 100.0, lightness_nodes)
    hue_rad = np.linspace(-np.pi, np.pi, hue_nodes)
    rows, columns = (one.ravel() for one in np.meshgrid(lightness, hue_rad[:-1], indexing="ij"))
    low: FloatArray = np.zeros(len(rows))
    high: FloatArray = np.full(len(rows), _CHROMA_LIMIT)
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        hit = inside(np.stack([rows, middle * np.cos(columns), middle * np.sin(columns)], axis=1))
        low, high = np.where(hit, middle, low), np.where(hit, high, middle)
    chroma = low.reshape(lightness_nodes, hue_nodes - 1)
    return ChromaLimits(chroma=np.concatenate([chroma, chroma[:, :1]], axis=1))
