"""Whether a colour lies inside a gamut: exact, by upright lines through the boundary mesh."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
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
        self._sort_into_bins(flat, corners[:, :, 0])

    def _sort_into_bins(self, flat: FloatArray, lightness: FloatArray) -> None:
        first = self._bins(flat.min(axis=1))
        spans = self._bins(flat.max(axis=1)) - first + 1
        owner, place = _expand(spans[:, 0] * spans[:, 1])
        across = spans[owner, 1]
        bins = (first[owner, 0] + place // across) * _BINS + first[owner, 1] + place % across
        order = np.argsort(bins, kind="stable")
        self._members = owner[order]
        self._starts = np.searchsorted(bins[order], np.arange(_BINS * _BINS + 1))
        # Between which L* the triangles of a bin lie; of an empty one between none.
        filled = np.flatnonzero(np.diff(self._starts))
        self._least, self._most = np.full(_BINS * _BINS, np.inf), np.full(_BINS * _BINS, -np.inf)
        self._least[filled] = np.minimum.reduceat(lightness.min(axis=1)[self._members], self._starts[filled])
        self._most[filled] = np.maximum.reduceat(lightness.max(axis=1)[self._members], self._starts[filled])

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
        inside: BoolArray = np.zeros(len(lab_d50), np.bool_)
        for places, crossings in self._crossings(lab_d50):
            inside[places] = crossings.winding(lab_d50[places, 0]) != 0
        return inside

    def upright_distance(self, lab_d50: FloatArray, *, furthest: float) -> FloatArray:
        """Ask how far above or below the gamut colours lie.

        Parameters
        ----------
        lab_d50 : (n, 3) float64
        furthest : float
            L*; what lies further away need not be told apart.

        Returns
        -------
        (n,) float64
            L* to the nearest colour of the gamut with the same a* and b*: 0 inside, infinite where none has
            these or is as near as `furthest`.
        """
        result = np.full(len(lab_d50), np.inf)
        for places, crossings in self._crossings(lab_d50, reach=furthest):
            lightness = lab_d50[places, 0]
            distance = crossings.nearest(lightness)
            distance[crossings.winding(lightness) != 0] = 0.0
            distance[distance > furthest] = np.inf
            result[places] = distance
        return result

    def _crossings(
        self, lab_d50: FloatArray, *, reach: float = 0.0
    ) -> Iterator[tuple[IndexArray, _Crossings]]:
        """Places of colours so near to a bin's triangles, in L*, and where their lines cross these."""
        points = lab_d50[:, 1:] + np.array(_NUDGE)
        near = np.flatnonzero(np.all((points >= self._low) & (points <= self._high), axis=1))
        cells = self._bins(points[near])
        bins = cells[:, 0] * _BINS + cells[:, 1]
        lightness = lab_d50[near, 0]
        high = np.flatnonzero(
            (lightness >= self._least[bins] - reach) & (lightness <= self._most[bins] + reach)
        )
        near, points, bins = near[high], points[near[high]], bins[high]
        counts = self._starts[bins + 1] - self._starts[bins]
        ends = np.cumsum(counts)
        start = 0
        while start < len(near):
            before = int(ends[start - 1]) if start else 0
            stop = max(int(np.searchsorted(ends, before + _PAIRS, side="right")), start + 1)
            part = slice(start, stop)
            yield near[part], self._crossed(points[part], bins[part], counts[part])
            start = stop

    def _crossed(self, points: FloatArray, bins: IndexArray, counts: IndexArray) -> _Crossings:
        owner, place = _expand(counts)
        triangle = self._members[np.repeat(self._starts[bins], counts) + place]
        x, y = points[:, 0][owner], points[:, 1][owner]
        # Most pairs fall out at the first of the two barycentric coordinates, and need no second.
        u = self._u[0][triangle] * x + self._u[1][triangle] * y + self._u[2][triangle]
        held = np.flatnonzero((u >= 0.0) & (u <= 1.0))
        u, x, y, triangle, owner = u[held], x[held], y[held], triangle[held], owner[held]
        v = self._v[0][triangle] * x + self._v[1][triangle] * y + self._v[2][triangle]
        height = self._height[triangle] + u * self._rise[0][triangle] + v * self._rise[1][triangle]
        hit = (v >= 0.0) & (u + v <= 1.0)
        return _Crossings(owner=owner[hit], height=height[hit], turn=self._turn[triangle[hit]])


@dataclass(frozen=True, kw_only=True, slots=True)
class _Crossings:
    """Where upright lines cross the boundary.

    Attributes
    ----------
    owner : (n,) int
        The line's number, never falling.
    height : (n,) float64
        L*.
    turn : (n,) int
        1 or -1: which way the boundary faces there.
    """

    owner: IndexArray
    height: FloatArray
    turn: IndexArray

    def winding(self, lightness: FloatArray) -> IndexArray:
        """How often the boundary winds round the points at these L* on the lines."""
        above = self.height > lightness[self.owner]
        turns = np.bincount(self.owner[above], weights=self.turn[above], minlength=len(lightness))
        return np.rint(turns).astype(np.intp)

    def nearest(self, lightness: FloatArray) -> FloatArray:
        """How far from these L* on the lines the nearest crossing is; infinite where there is none."""
        result = np.full(len(lightness), np.inf)
        if len(self.owner):
            first = np.flatnonzero(np.diff(self.owner, prepend=-1))
            away = np.abs(self.height - lightness[self.owner])
            result[self.owner[first]] = np.minimum.reduceat(away, first)
        return result


def _plane(by_x: FloatArray, by_y: FloatArray, zero: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
    """The slopes of a plane, and its height at the origin when it is 0 at `zero`."""
    return by_x, by_y, -(by_x * zero[:, 0] + by_y * zero[:, 1])


def _expand(counts: IndexArray) -> tuple[IndexArray, IndexArray]:
    """For counts (2, 0, 3): the owners 0 0 2 2 2 and the places 0 1 0 1 2."""
    owner = np.repeat(np.arange(len(counts)), counts)
    place = np.arange(len(owner)) - np.repeat(np.cumsum(counts) - counts, counts)
    return owner, place
