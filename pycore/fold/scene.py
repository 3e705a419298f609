"""One corner of a canvas on its bars at a moment of the folding, as polygons from back to front."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np
import numpy.typing as npt

from pycore.fold.facets import Corner, corners, flat_facets, local
from pycore.fold.heights import FACING_IN
from pycore.fold.kinds import Kind
from pycore.fold.layers import layer_ranks
from pycore.fold.motion import corner_maps, facet_maps
from pycore.fold.polygons import area, beyond, intersection, split
from pycore.fold.spec import FoldSpec

Floats = npt.NDArray[np.float64]

#: Depths that differ by less are equal, and the layer decides.
_SAME_MM: Final = 0.02

_CORNER: Final = "top-right"


@dataclass(frozen=True, kw_only=True)
class View:
    """From where a corner is seen.

    Attributes
    ----------
    towards : (3,) float64
        From the canvas to the eye.
    up : (3,) float64
        What stands upright in the drawing.
    """

    towards: Floats
    up: Floats

    @cached_property
    def axes(self) -> Floats:
        """Rows: right, down, towards the eye."""
        out = self.towards / np.linalg.norm(self.towards)
        up = self.up - (self.up @ out) * out
        up /= np.linalg.norm(up)
        axes: Floats = np.array([np.cross(up, out), -up, out])
        return axes


#: The canvas lies face down on the table, the corner towards the reader.
BENCH: Final = View(towards=np.array([0.5, 0.86, -1.05]), up=np.array([0.0, 0.0, -1.0]))
#: The piece hangs, seen from its upper right.
WALL: Final = View(towards=np.array([0.62, 0.66, 1.0]), up=np.array([0.0, 1.0, 0.0]))
#: The back of the piece, seen nearly straight.
BACK: Final = View(towards=np.array([0.24, 0.3, -1.0]), up=np.array([0.0, 1.0, 0.0]))


@dataclass(frozen=True, kw_only=True)
class Polygon:
    """A flat part of the scene.

    Attributes
    ----------
    space : (n, 3) float64
        mm.
    seen : (n, 3) float64
        Right, down and towards the eye.
    paint : str
    shade : int
    layer : int
        0 the wood; among coplanar parts the higher lies further from the bars.
    outward : (3,) float64
        Away from the bars.
    open_edges : tuple of int
        Edges at which the drawing ends, not the thing; they are not drawn.
    """

    space: Floats
    seen: Floats
    paint: str
    shade: int
    layer: int
    outward: Floats
    open_edges: tuple[int, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Look:
    """What is painted how.

    Attributes
    ----------
    ink_over_mm : float
        How far the ink runs past the back edge.
    shown_mm : float
        How far the drawing reaches from the corner along the face.
    bar_mm : float
        How wide a bar is.
    lit : kinds that stand out.
    lit_where : function, optional
        Of these kinds only the parts whose middle, in the corner's frame, it takes.
    """

    ink_over_mm: float = 6.0
    shown_mm: float = 72.0
    bar_mm: float = 34.0
    lit: frozenset[Kind] = frozenset()
    lit_where: Callable[[Floats], bool] | None = None


def scene(spec: FoldSpec, at: float, view: View, look: Look) -> list[Polygon]:
    """The corner's polygons, the furthest first.

    Parameters
    ----------
    spec : FoldSpec
        A checked canvas, larger than what is shown.
    at : float
        0 flat to 1 folded.
    view : View
    look : Look

    Returns
    -------
    list of Polygon
    """
    facets = flat_facets(spec)
    maps = facet_maps(spec, facets, np.array([at]))
    ranks = layer_ranks(spec)
    corner = corners(spec)[_CORNER]
    found = []
    for facet, rigid in zip(facets, maps, strict=True):
        outside = rigid.turn[0][:, 2] * (-1.0 if facet.kind in FACING_IN else 1.0)
        for flat in _pieces(spec, corner, facet.flat, look):
            middle = flat.mean(axis=0)
            inked = _past_mm(corner, middle) <= spec.depth_mm + look.ink_over_mm
            space = rigid.apply(np.column_stack([flat, np.zeros(len(flat))]))[0]
            seen = space @ view.axes.T
            shows_print = float(rigid.turn[0][:, 2] @ view.axes[2]) > 0
            lit = facet.kind in look.lit and (look.lit_where is None or look.lit_where(local(corner, middle)))
            paint = "lit" if lit else "print" if shows_print and inked else "bare"
            normal = rigid.turn[0][:, 2] * (1 if shows_print else -1)
            found.append(
                Polygon(
                    space=space,
                    seen=seen,
                    paint=paint,
                    shade=_shade(normal, view),
                    layer=ranks[facet.kind],
                    outward=outside,
                    open_edges=_open_edges(facet.flat, flat),
                )
            )
    found += _bars(spec, view, look)
    return _from_the_back(found, view)


def moved(spec: FoldSpec, kind: Kind, local: tuple[float, float], at: Sequence[float], view: View) -> Floats:
    """Where a point of the corner's frame is seen at given moments.

    Parameters
    ----------
    spec : FoldSpec
        A checked canvas.
    kind : Kind
        Of the facet that the point moves with.
    local : (p, q)
        The point, mm.
    at : sequence of float
        Each 0 flat to 1 folded.
    view : View

    Returns
    -------
    (n, 2) float64
        Right and down, mm.
    """
    corner = corners(spec)[_CORNER]
    frame = np.eye(3)
    frame[:2, :2] = corner.axes
    places = corner_maps(spec, np.array(at))[kind].apply(np.array([[*local, 0.0]]))[:, 0]
    space = places @ frame.T + np.array([*corner.origin, 0.0])
    seen: Floats = (space @ view.axes.T)[:, :2]
    return seen


def seen_points(points: Floats, view: View) -> Floats:
    """Points of space as they are seen.

    Parameters
    ----------
    points : (n, 3) float64
        mm.
    view : View

    Returns
    -------
    (n, 2) float64
        Right and down, mm.
    """
    seen: Floats = (points @ view.axes.T)[:, :2]
    return seen


def box_of(polygons: Sequence[Polygon], *, extra: Sequence[Floats] = (), margin: float = 6.0) -> Floats:
    """The box round polygons and further points.

    Parameters
    ----------
    polygons : sequence of Polygon
    extra : sequence of (n, 2) float64
        Further points.
    margin : float
        Round them, mm.

    Returns
    -------
    (4,) float64
        x, y, width and height, mm.
    """
    points = np.vstack([*(one.seen[:, :2] for one in polygons), *extra])
    low, high = points.min(axis=0) - margin, points.max(axis=0) + margin
    return np.array([*low, *(high - low)])


def _pieces(spec: FoldSpec, corner: Corner, outline: Floats, look: Look) -> list[Floats]:
    """The part of a facet that is shown, cut where the ink ends."""
    pieces = [outline]
    inked = spec.depth_mm + look.ink_over_mm
    for axis in (0, 1):
        normal = corner.axes[:, axis]
        pieces = beyond(pieces, corner.origin - normal * look.shown_mm, normal)
        pieces = [part for piece in pieces for part in split(piece, corner.origin + normal * inked, normal)]
    return pieces


def _open_edges(whole: Floats, part: Floats) -> tuple[int, ...]:
    """The edges of a part that are none of its facet's."""
    found = []
    for at, start in enumerate(part):
        end = part[(at + 1) % len(part)]
        middle = (start + end) / 2
        edge = np.roll(whole, -1, axis=0) - whole
        to_point = middle - whole
        off = np.abs(edge[:, 0] * to_point[:, 1] - edge[:, 1] * to_point[:, 0]) / np.linalg.norm(edge, axis=1)
        if float(off.min()) > 1e-6:
            found.append(at)
    return tuple(found)


def _past_mm(corner: Corner, point: Floats) -> float:
    """How far a point of the flat sheet lies past the face."""
    return float(max(local(corner, point).max(), 0.0))


def _bars(spec: FoldSpec, view: View, look: Look) -> list[Polygon]:
    """Two mitred bars, shown as far as the canvas is."""
    w, h, d, b, m = spec.width_mm, spec.height_mm, spec.depth_mm, look.bar_mm, look.shown_mm
    # Along the right bar at x and along the top bar at y.
    back = [
        ([(w - b, h - m), (w, h - m), (w, h), (w - b, h - b)], (0,)),
        ([(w - m, h - b), (w - b, h - b), (w, h), (w - m, h)], (3,)),
    ]
    found = []
    for outline, cut in back:
        space = np.array([(x, y, -d) for x, y in outline], float)
        found.append(_wood(space, np.array([0.0, 0.0, -1.0]), view, cut))
    walls: list[tuple[tuple[float, float], tuple[float, float], tuple[int, int], tuple[int, ...]]] = [
        ((w - b, h - m), (w - b, h - b), (-1, 0), (3,)),
        ((w - m, h - b), (w - b, h - b), (0, -1), (3,)),
        ((w, h - m), (w, h), (1, 0), (3,)),
        ((w - m, h), (w, h), (0, 1), (3,)),
        ((w - b, h - m), (w, h - m), (0, -1), ()),
        ((w - m, h - b), (w - m, h), (-1, 0), ()),
    ]
    for start, end, out, ends in walls:
        space = np.array([(*start, 0), (*end, 0), (*end, -d), (*start, -d)], float)
        found.append(_wood(space, np.array([*out, 0.0], float), view, ends))
    return [one for one in found if float(one.outward @ view.axes[2]) > 1e-6]


def _wood(space: Floats, outward: Floats, view: View, cut: tuple[int, ...]) -> Polygon:
    return Polygon(
        space=space,
        seen=space @ view.axes.T,
        paint="wood",
        shade=_shade(outward, view),
        layer=0,
        outward=outward,
        open_edges=cut,
    )


def _shade(normal: Floats, view: View) -> int:
    """0 to 3: the light comes from the upper left, behind the reader."""
    light = np.array([-0.35, -0.6, 0.72]) @ view.axes
    facing = float(normal @ light / np.linalg.norm(light))
    return int(np.clip(round((1 - facing) * 2.2), 0, 3))


def _from_the_back(polygons: list[Polygon], view: View) -> list[Polygon]:
    """Sort so that whatever lies before another comes after it."""
    parts = [
        _Part.of(one, number)
        for number, one in enumerate(one for one in polygons if abs(area(one.seen[:, :2])) > 0.05)
    ]
    before: list[set[int]] = [set() for _ in parts]
    for first in parts:
        for second in parts[: first.number]:
            order = _order(first, second, view)
            if order > 0:
                before[first.number].add(second.number)
            elif order < 0:
                before[second.number].add(first.number)
    left = set(range(len(parts)))
    done: list[Polygon] = []
    while left:
        free = [one for one in left if not before[one] & left]
        # Parts that lie round one another in a circle: the furthest first.
        chosen = min(free or left, key=lambda one: (float(parts[one].middle[2]), one))
        left.remove(chosen)
        done.append(parts[chosen].polygon)
    return done


@dataclass(frozen=True, kw_only=True)
class _Part:
    """A polygon with what is asked of it again and again while all are sorted.

    Attributes
    ----------
    polygon : Polygon
    number : int
        Its place in the list.
    box : left, top, right and bottom
        As seen.
    middle, normal : (3,) float64
        A point of its plane, and what stands upright on it, as seen.
    """

    polygon: Polygon
    number: int
    box: tuple[float, float, float, float]
    middle: Floats
    normal: Floats

    @classmethod
    def of(cls, polygon: Polygon, number: int) -> _Part:
        """That polygon's."""
        seen = polygon.seen
        left, top, _ = seen.min(axis=0).tolist()
        right, bottom, _ = seen.max(axis=0).tolist()
        middle = seen.mean(axis=0)
        normal = np.linalg.svd(seen - middle)[2][2]
        return cls(
            polygon=polygon, number=number, box=(left, top, right, bottom), middle=middle, normal=normal
        )

    def may_meet(self, other: _Part) -> bool:
        """Whether their boxes do."""
        one, two = self.box, other.box
        return one[0] < two[2] and two[0] < one[2] and one[1] < two[3] and two[1] < one[3]

    def depth(self, point: Floats) -> float:
        """How near to the eye the plane is at a point of the drawing."""
        middle, normal = self.middle, self.normal
        return float(middle[2] - (normal[:2] @ (point - middle[:2])) / normal[2])


def _order(first: _Part, second: _Part, view: View) -> int:
    """1 where the first lies before the second, -1 behind, 0 where they do not meet in the drawing."""
    if not first.may_meet(second):
        return 0
    one, other = first.polygon, second.polygon
    common = intersection(one.seen[:, :2], other.seen[:, :2])
    if len(common) < 3 or abs(area(common)) < 0.05:
        return 0
    point = common.mean(axis=0)
    gap = first.depth(point) - second.depth(point)
    if abs(gap) > _SAME_MM:
        return 1 if gap > 0 else -1
    outward = one if one.layer else other
    sense = 1 if float(outward.outward @ view.axes[2]) > 0 else -1
    return sense * int(np.sign(one.layer - other.layer))
