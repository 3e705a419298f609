"""Whether a colour lies inside a gamut: exact, by upright lines through the boundary mesh."""

from __future__ import annotations

from typing import Final

import numpy as np

from pycore.colour.gamut.mesh import GamutMesh
from pycore.colour.spaces.arrays import BoolArray, FloatArray, IndexArray

#: Bins along a* and along b*; a bin then holds a few of the mesh's triangles.
_BINS: Final = 128

#: Pairs of a colour and a triangle that are looked at together, to bound the memory.
_PAIRS: Final = 1_000_000

#: Lines are moved by this much in a* and b*, so that none runs through an edge of the mesh.
_NUDGE: Final = (3.1e-7, 1.7e-7)


class InsideTest:
    """A boundary mesh made ready for many questions.

    A colour is inside when an upright line (along L*) from it leaves the closed mesh a different number of
    times than it enters: the winding number, which bears folds in the mesh where counting alone would not.

    Parameters
    ----------
    mesh : GamutMesh

    References
    ----------
    Sunday, "Inclusion of a point in a polygon" (2001), one dimension up.
    """

    def __init__(self, mesh: GamutMesh) -> None:
        corners = mesh.lab_d50[mesh.triangles]
        flat = corners[:, :, 1:]
        low, high = flat.min(axis=(0, 1)), flat.max(axis=(0, 1))
        self._low, self._high = low, high
        self._scale = _BINS / np.maximum(high - low, 1e-9)
        edge_1, edge_2 = flat[:, 1] - flat[:, 0], flat[:, 2] - flat[:, 0]
        area = edge_1[:, 0] * edge_2[:, 1] - edge_1[:, 1] * edge_2[:, 0]
        seen = np.abs(area) > 1e-12
        corners, flat, edge_1, edge_2, area = (one[seen] for one in (corners, flat, edge_1, edge_2, area))
        # The two barycentric coordinates of a point (x, y) are rows of three numbers times (x, y, 1).
        self._u = _plane(edge_2[:, 1] / area, -edge_2[:, 0] / area, flat[:, 0])
        self._v = _plane(-edge_1[:, 1] / area, edge_1[:, 0] / area, flat[:, 0])
        self._height = corners[:, 0, 0]
        self._rise = (corners[:, 1, 0] - corners[:, 0, 0], corners[:, 2, 0] - corners[:, 0, 0])
        self._turn = np.sign(area).astype(np.intp)
        self._sort_into_bins(flat)

    def _sort_into_bins(self, flat: FloatArray) -> None:
        first = self._bins(flat.min(axis=1))
        spans = self._bins(flat.max(axis=1)) - first + 1
        owner, place = _expand(spans[:, 0] * spans[:, 1])
        across = spans[owner, 1]
        bins = (first[owner, 0] + place // across) * _BINS + first[owner, 1] + place % across
        order = np.argsort(bins, kind="stable")
        self._members = owner[order]
        self._starts = np.searchsorted(bins[order], np.arange(_BINS * _BINS + 1))

    def _bins(self, points: FloatArray) -> IndexArray:
        bins: IndexArray = np.clip((points - self._low) * self._scale, 0.0, _BINS - 1.0).astype(np.intp)
        return bins

    def __call__(self, lab_d50: FloatArray) -> BoolArray:
        """Ask for colours.

        Parameters
        ----------
        lab_d50 : (n, 3) float64

        Returns
        -------
        (n,) bool
            True inside.
        """
        points = lab_d50[:, 1:] + np.array(_NUDGE)
        near = np.flatnonzero(np.all((points >= self._low) & (points <= self._high), axis=1))
        winding = np.zeros(len(lab_d50), dtype=np.intp)
        cells = self._bins(points[near])
        bins = cells[:, 0] * _BINS + cells[:, 1]
        counts = self._starts[bins + 1] - self._starts[bins]
        ends = np.cumsum(counts)
        start = 0
        while start < len(near):
            before = int(ends[start - 1]) if start else 0
            stop = max(int(np.searchsorted(ends, before + _PAIRS, side="right")), start + 1)
            part = slice(start, stop)
            winding[near[part]] = self._wind(
                points[near[part]], lab_d50[near[part], 0], bins[part], counts[part]
            )
            start = stop
        inside: BoolArray = winding != 0
        return inside

    def _wind(
        self, points: FloatArray, lightness: FloatArray, bins: IndexArray, counts: IndexArray
    ) -> IndexArray:
        owner, place = _expand(counts)
        triangle = self._members[np.repeat(self._starts[bins], counts) + place]
        x, y = points[:, 0][owner], points[:, 1][owner]
        # Most pairs fall out at the first of the two barycentric coordinates, and need no second.
        u = self._u[0][triangle] * x + self._u[1][triangle] * y + self._u[2][triangle]
        held = np.flatnonzero((u >= 0.0) & (u <= 1.0))
        u, x, y, triangle, owner = u[held], x[held], y[held], triangle[held], owner[held]
        v = self._v[0][triangle] * x + self._v[1][triangle] * y + self._v[2][triangle]
        height = self._height[triangle] + u * self._rise[0][triangle] + v * self._rise[1][triangle]
        hit = (v >= 0.0) & (u + v <= 1.0) & (height > lightness[owner])
        turns = np.bincount(owner[hit], weights=self._turn[triangle[hit]], minlength=len(points))
        return np.rint(turns).astype(np.intp)


def _plane(by_x: FloatArray, by_y: FloatArray, zero: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
    """The slopes of a plane, and its height at the origin when it is 0 at `zero`."""
    return by_x, by_y, -(by_x * zero[:, 0] + by_y * zero[:, 1])


def _expand(counts: IndexArray) -> tuple[IndexArray, IndexArray]:
    """For counts (2, 0, 3): the owners 0 0 2 2 2 and the places 0 1 0 1 2."""
    owner = np.repeat(np.arange(len(counts)), counts)
    place = np.arange(len(owner)) - np.repeat(np.cumsum(counts) - counts, counts)
    return owner, place
