"""Layers: ranks, a stack that does not cross itself, and how many lie where."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from itertools import pairwise, permutations
from typing import Any

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from pycore.contract.job import Corners, Finish
from pycore.fold.creases import find_creases
from pycore.fold.kinds import Kind
from pycore.fold.layers import bulk_of, layer_ranks
from pycore.fold.polygons import area, inside
from pycore.fold.spec import FoldSpec

#: tests/parity finds these numbers to be the same inside Pyodide.
pytestmark = pytest.mark.once

Floats = npt.NDArray[np.float64]
Fold = Callable[..., Any]
Worked = Callable[..., FoldSpec]
Specs = st.SearchStrategy[FoldSpec]
#: A facet's half beside a line: its direction in degrees, whether ranks grow with the angle, its kind.
Half = tuple[int, bool, Kind]

TUCKED, LAPPED, TRIMMED = Finish.TUCKED, Finish.LAPPED, Finish.TRIMMED
CUT_BACK = {"corners": Corners.CUT_BACK}
U, V, OS = Kind.GUSSET_UNDER, Kind.GUSSET_OVER, Kind.OVER_SIDE
UR, OR = Kind.UNDER_TURNOVER, Kind.OVER_TURNOVER
UA, UB, VR = Kind.BACK_UNDER, Kind.BACK_MIDDLE, Kind.BACK_OVER
T = Kind.TAB


# Derived: the only orders that do not cross for every turn-over; 1 lies on the bar.
@pytest.mark.parametrize(
    ("fields", "stacks"),
    [
        ({"finish": TUCKED}, ([U, V, OS], [UR, UA, UB, VR, OR])),
        ({"finish": LAPPED}, ([OS, V, U], [OR, VR, UB, UA, UR])),
        ({"finish": TUCKED} | CUT_BACK, ([U, V, OS], [UR, OR])),
        ({"finish": LAPPED} | CUT_BACK, ([OS, V, U], [OR, UR])),
        ({"finish": TRIMMED}, ([T, OS], [UR, OR])),
    ],
)
def test_ranks(worked: Worked, fields: dict[str, Any], stacks: tuple[list[Kind], list[Kind]]) -> None:
    ranks = layer_ranks(worked(**fields))
    for stack in stacks:
        assert [ranks[kind] for kind in stack] == list(range(1, len(stack) + 1))
    assert ranks[Kind.FACE] == ranks[Kind.UNDER_SIDE] == 1


def connections(folded: Any) -> list[list[tuple[Half, Half]]]:
    """At points of every crease of the folded piece: what joins what across the line there."""
    creases, _ = find_creases(folded.facets)
    up = np.array([0, 0, 1.0])
    spec = folded.spec
    middle = np.array([spec.width_mm / 2, spec.height_mm / 2, -spec.depth_mm / 2])
    found = []
    ends = np.array([folded.place(c.left, [c.start, c.end])[0] for c in creases])
    ways = ends[:, 1] - ends[:, 0]
    sizes = np.linalg.norm(ways, axis=1)
    turns = np.array([one.turn[0] for one in folded.maps])
    shifts = np.array([one.shift[0] for one in folded.maps])
    for start, end in ends:
        length = np.linalg.norm(end - start)
        if length < 1:
            continue
        line = (end - start) / length
        # Odd shares, so that no vertex of a facet is met.
        for share in (0.1373, 0.4127, 0.7719):
            point = start + share * (end - start)
            joined: list[tuple[Half, Half]] = []
            edges: set[int] = set()
            clear = True
            along = ((point - ends[:, 0]) * ways).sum(axis=1)
            places = np.clip(np.divide(along, sizes**2, out=np.zeros_like(sizes), where=sizes > 0), 0, 1)
            apart = np.linalg.norm(ends[:, 0] + places[:, np.newaxis] * ways - point, axis=1)
            for meets in np.flatnonzero(apart <= 1e-6).tolist():
                crease = creases[meets]
                is_along = np.linalg.norm(np.cross(ways[meets], line)) <= 1e-6 * sizes[meets]
                if not is_along or not 1e-6 < places[meets] < 1 - 1e-6:
                    clear = False
                    continue
                flat_way = (crease.end - crease.start) / np.linalg.norm(crease.end - crease.start)
                left = np.array([-flat_way[1], flat_way[0], 0])
                joined.append(
                    (
                        half(folded, crease.left, left, line, middle),
                        half(folded, crease.right, -left, line, middle),
                    )
                )
                edges |= {crease.left, crease.right}
            # The point in each facet's own plane, flat.
            flats = ((point - shifts)[:, np.newaxis] @ turns)[:, 0]
            for index in np.flatnonzero(np.abs(flats[:, 2]) <= 1e-6).tolist():
                shape, flat = folded.facets[index].flat, flats[index, :2]
                if index in edges or not inside(shape, flat, margin_mm=1e-6):
                    continue
                if not inside(shape, flat, margin_mm=-1e-6):
                    clear = False  # A cut edge or a corner: nothing goes on there.
                    continue
                across = np.cross(up, turns[index].T @ line)
                joined.append(
                    (
                        half(folded, index, across, line, middle),
                        half(folded, index, -across, line, middle),
                    )
                )
            if clear:
                found.append(joined)
    return found


def half(folded: Any, index: int, flat_way: Floats, line: Floats, middle: Floats) -> Half:
    """The part of a facet on one side of a line, as seen along the line."""
    way = folded.maps[index].turn[0] @ flat_way
    normal = folded.maps[index].turn[0, :, 2]
    centre = folded.place(index, folded.facets[index].flat.mean(axis=0))[0, 0]
    outward = normal if (centre - middle) @ normal > 0 else -normal
    first = np.cross(line, [0.36, 0.48, 0.8])
    second = np.cross(line, first)
    angle = round(float(np.degrees(np.arctan2(way @ second, way @ first)))) % 360
    return angle, bool(outward @ np.cross(line, way) > 0), folded.facets[index].kind


def crosses(places: list[list[tuple[Half, Half]]], ranks: dict[Kind, int]) -> bool:
    """Whether two connections interleave round any of the lines.

    References
    ----------
    Published (from memory): Justin 1986, the non-crossing conditions of folded layers.
    """
    for joined in places:
        ends = []
        for number, halves in enumerate(joined):
            for angle, rising, kind in halves:
                ends.append((angle, ranks[kind] if rising else -ranks[kind], number))
        open_connections: list[int] = []
        for _, _, number in sorted(ends):
            # Nested pairs close in the order in which they opened, last first.
            if number in open_connections:
                if open_connections.pop() != number:
                    return True
            else:
                open_connections.append(number)
    return False


@settings(max_examples=25, deadline=None)
@given(data=st.data())
def test_stack_does_not_cross_itself(specs: Specs, fold: Fold, data: st.DataObject) -> None:
    spec = data.draw(specs)
    places = connections(fold(spec, 1.0))
    assert len(places) > 10
    assert not crosses(places, layer_ranks(spec))


@pytest.mark.parametrize("fields", [{}, {"setback_mm": 1}, {"finish": LAPPED}, {"turnover_mm": 50}])
def test_a_swap_of_neighbouring_layers_crosses(worked: Worked, fold: Fold, fields: dict[str, Any]) -> None:
    """Negative control."""
    spec = worked(**fields)
    ranks = layer_ranks(spec)
    places = connections(fold(spec, 1.0))
    stacks = [sorted(stack, key=lambda kind: ranks[kind]) for stack in ((U, V, OS), (UR, UA, UB, VR, OR))]
    swaps = [swap for stack in stacks for swap in pairwise(stack)]
    assert len(swaps) == 6
    assert not crosses(places, ranks)
    for one, other in swaps:
        assert crosses(places, ranks | {one: ranks[other], other: ranks[one]}), (one, other)


# Derived: tucked and lapped; and, up to r = d, each with one other order of the back.
ORDERS = {
    ((U, V, OS), (UR, UA, UB, VR, OR)),
    ((OS, V, U), (OR, VR, UB, UA, UR)),
}
SHORT_ORDERS = ORDERS | {((U, V, OS), (UB, UA, UR, VR, OR)), ((OS, V, U), (OR, VR, UR, UA, UB))}


@pytest.mark.parametrize(("depth", "turnover", "expected"), [(38, 25, SHORT_ORDERS), (20, 30, ORDERS)])
def test_no_other_orders_exist(
    worked: Worked,
    fold: Fold,
    depth: float,
    turnover: float,
    expected: set[tuple[tuple[Kind, ...], tuple[Kind, ...]]],
) -> None:
    """All 6 x 120 orders of the over side's and the back's layers."""
    spec = worked(depth_mm=depth, turnover_mm=turnover)
    places = connections(fold(spec, 1.0))
    base = layer_ranks(spec)
    found = set()
    for side in permutations((U, V, OS)):
        ranks = base | {kind: rank for rank, kind in enumerate(side, 1)}
        for back in permutations((UR, UA, UB, VR, OR)):
            if not crosses(places, ranks | {kind: rank for rank, kind in enumerate(back, 1)}):
                found.add((side, back))
    assert found == expected


def layers_at(folded: Any, point: Floats) -> list[tuple[Kind, float]]:
    """The facets that hold a point of the folded piece, and how their print faces along the way out."""
    spec = folded.spec
    middle = np.array([spec.width_mm / 2, spec.height_mm / 2, -spec.depth_mm / 2])
    held = []
    for facet, rigid in zip(folded.facets, folded.maps, strict=True):
        flat = rigid.turn[0].T @ (point - rigid.shift[0])
        if abs(flat[2]) < 1e-6 and inside(facet.flat, flat[:2], margin_mm=0):
            normal = rigid.turn[0, :, 2]
            held.append((facet.kind, float(np.sign(normal @ (point - middle)))))
    return held


def expected_layers(spec: FoldSpec, place: str, a: float, b: float) -> int:
    """Derived, without a set-back: the layers at a and b from a corner of the back or of an over side.

    On the back a runs inwards from the under side and b from the over side; on an over side a runs from the
    front edge and b from the face.
    """
    d, r, t = spec.depth_mm, spec.turnover_mm, spec.tab_mm
    if place == "side":
        if spec.finish is TRIMMED:
            return 2 if a <= t and a <= b <= d - a else 1
        return 3 if a <= b else 1
    if not spec.whole:
        return int(a < r) + int(b < r)
    if a < b <= r:
        return 3
    if b <= a <= min(r, b + d):
        return 5
    if (r < a <= b + d and b <= r) or b + d < a <= r:
        return 3
    return int(a < r) + int(b < r)


@settings(max_examples=40, deadline=None)
@given(data=st.data(), seed=st.integers(0, 2**16))
def test_layers_counted_by_casting(specs: Specs, fold: Fold, data: st.DataObject, seed: int) -> None:
    """Counted at random points, against the closed form; and which way they are printed."""
    spec = dataclasses.replace(data.draw(specs), setback_mm=0.0)
    folded, ranks = fold(spec, 1.0), layer_ranks(spec)
    corner = folded.facets[-1].corner
    frame = np.eye(3)
    frame[:2, :2] = corner.axes
    # Half of the over side and a quarter of the back belong to one corner; a strip 2 d + r of them is full.
    widest = (spec.over_length_mm / 2, spec.under_length_mm / 2)
    shares = np.random.default_rng(seed).random((30, 2))
    for share in shares:
        a, b = share * [min(widest[0], 2 * spec.depth_mm + spec.turnover_mm), spec.depth_mm]
        c, e = share * [min(widest[0], 2 * spec.depth_mm + spec.turnover_mm), widest[1]]
        for place, x, y, local in (
            ("side", a, b, (-a, 0, -b)),
            ("back", c, e, (-c, -e, -spec.depth_mm)),
        ):
            point = frame @ np.array(local) + [*corner.origin, 0]
            held = layers_at(folded, point)
            assert len(held) == expected_layers(spec, place, x, y), (place, x, y)
            order = sorted(held, key=lambda layer: ranks[layer[0]])
            assert len({ranks[kind] for kind, _ in held}) == len(held), "two facets of one rank"
            if not held:
                continue
            assert order[-1][1] == 1, "the outermost layer is printed outwards"
            if spec.whole or place == "side":
                expected = len(held) if spec.finish is TRIMMED else 1
                assert sum(way for _, way in held) == expected


@settings(max_examples=40, deadline=None)
@given(setback=st.floats(0.1, 5), a=st.floats(0.001, 0.999), b=st.floats(0.01, 0.999))
def test_setback_bares_a_sliver(worked: Worked, fold: Fold, setback: float, a: float, b: float) -> None:
    """Derived: on the over side one layer up to the angle e from the edge, three to 45 deg + e, then one."""
    spec = worked(setback_mm=setback, turnover_mm=60)
    b *= spec.depth_mm
    a *= 2 * b
    angle = np.arctan2(a, b)
    bounds = np.array([spec.setback_rad, np.pi / 4 + spec.setback_rad])
    assume(np.abs(angle - bounds).min() > 1e-6)
    held = layers_at(fold(spec, 1.0), np.array([400 - a, 300, -b]))
    expected = {0: [U], 1: [U, V, OS], 2: [OS]}[int(np.sum(angle > bounds))]
    assert sorted((kind for kind, _ in held), key=lambda kind: layer_ranks(spec)[kind]) == expected


@pytest.mark.parametrize("fields", [{}, CUT_BACK, {"finish": LAPPED}, {"finish": TRIMMED}])
def test_outside_of_the_box_is_covered_once_outwards(
    worked: Worked, fold: Fold, fields: dict[str, Any]
) -> None:
    folded = fold(worked(**fields), 1.0)
    for point in ((200, 150, 0), (400, 150, -20), (0, 150, -20), (200, 300, -20), (200, 0, -20)):
        assert [way for _, way in layers_at(folded, np.array(point, float))] == [1]


@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_layers_times_area_is_the_sheet(specs: Specs, fold: Fold, data: st.DataObject) -> None:
    """Derived: the outside, W H + 2 d (W + H), and what lies under it.

    Two more layers on each gusset triangle d^2 / 2, or one on the tab, t (d - t); the four turn-overs; and
    where a whole corner lies over those, region by region.
    """
    spec = dataclasses.replace(data.draw(specs), setback_mm=0.0)
    w, h, d, r, t = spec.width_mm, spec.height_mm, spec.depth_mm, spec.turnover_mm, spec.tab_mm
    corner = t * (d - t) if spec.finish is TRIMMED else d**2
    if spec.whole:
        beyond = max(r - d, 0) ** 2 / 2  # b + d < a <= r: 3 layers, 2 of them the turn-overs
        upper = r**2 / 2  # a < b <= r: the same
        lower = r**2 / 2 - beyond  # b <= a <= min(r, b + d): 5, 2 of them the turn-overs
        outer = d * r - lower  # the rest of b <= a <= b + d, b <= r: 3, 1 of them a turn-over
        corner += beyond + upper + 3 * lower + 2 * outer
    total = w * h + 2 * (d + r) * (w + h) + 4 * corner
    assert sum(area(facet.flat) for facet in fold(spec, 1.0).facets) == pytest.approx(total, rel=1e-12)


def test_bulk_by_place(worked: Worked) -> None:
    # Derived: layers x 0.45 mm.
    whole = [("folded corner", 3, 1.35), ("back", 1, 0.45), ("back corner", 5, 2.25)]
    expected = {
        (TUCKED, Corners.WHOLE): whole,
        (LAPPED, Corners.WHOLE): [("flap", 3, 1.35), *whole[1:]],
        (TUCKED, Corners.CUT_BACK): [*whole[:2], ("back corner", 2, 0.9)],
        (LAPPED, Corners.CUT_BACK): [("flap", 3, 1.35), whole[1], ("back corner", 2, 0.9)],
        (TRIMMED, Corners.WHOLE): [("tab", 2, 0.9), whole[1], ("back corner", 2, 0.9)],
    }
    plain = [("face", 1, 0.45), ("under side", 1, 0.45), ("over side", 1, 0.45)]
    for (finish, corners), places in expected.items():
        bulk = bulk_of(worked(finish=finish, corners=corners))
        assert [(one.place, one.layers) for one in bulk] == [place[:2] for place in plain + places]
        thickness = [place[2] for place in plain + places]
        assert [one.thickness_mm for one in bulk] == pytest.approx(thickness, abs=1e-12)


@pytest.mark.parametrize(("thickness", "layers_mm"), [(0.40, 2.0), (0.45, 2.25), (0.50, 2.5)])
def test_bulk_grows_with_the_canvas(worked: Worked, thickness: float, layers_mm: float) -> None:
    """Derived: five layers at the back's corner."""
    assert bulk_of(worked(thickness_mm=thickness))[-1].thickness_mm == pytest.approx(layers_mm, abs=1e-12)


def test_no_turnover_no_back(worked: Worked) -> None:
    assert [one.place for one in bulk_of(worked(turnover_mm=0))] == [
        "face",
        "under side",
        "over side",
        "folded corner",
    ]


@settings(max_examples=25, deadline=None)
@given(data=st.data(), seed=st.integers(0, 2**16))
def test_bulk_is_what_lies_there(specs: Specs, fold: Fold, data: st.DataObject, seed: int) -> None:
    """Half a mm or less from the fold edge and from the back's corner lie as many layers as the bulk says."""
    spec = dataclasses.replace(data.draw(specs), setback_mm=0.0)
    folded = fold(spec, 1.0)
    bulk = {one.place: one.layers for one in bulk_of(spec)}
    corner = folded.facets[-1].corner
    frame = np.eye(3)
    frame[:2, :2] = corner.axes
    near = 0.01 + 0.2 * np.random.default_rng(seed).random()
    side = frame @ np.array([-near, 0, -spec.depth_mm / 2]) + [*corner.origin, 0]
    assert len(layers_at(folded, side)) == max(bulk.get(name, 0) for name in ("folded corner", "flap", "tab"))
    if spec.turnover_mm:
        back = frame @ np.array([-near, -near / 2, -spec.depth_mm]) + [*corner.origin, 0]
        assert len(layers_at(folded, back)) == bulk["back corner"]
