"""What is seen from outside: areas, shapes, and the printed point behind every place."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pycore.contract.job import Corners, Finish, OverPair
from pycore.conventions import Side
from pycore.errors import GeometryError
from pycore.fold.facets import flat_facets
from pycore.fold.kinds import Kind
from pycore.fold.layers import layer_ranks
from pycore.fold.polygons import area, inside
from pycore.fold.spec import FoldSpec
from pycore.fold.visible import printed_point, visible_parts

Floats = npt.NDArray[np.float64]
Fold = Callable[..., Any]
Worked = Callable[..., FoldSpec]
Specs = st.SearchStrategy[FoldSpec]

TUCKED, LAPPED, TRIMMED = Finish.TUCKED, Finish.LAPPED, Finish.TRIMMED
CUT_BACK = {"corners": Corners.CUT_BACK}


def seen_area(spec: FoldSpec) -> dict[Kind, float]:
    """What is seen of every kind of facet, mm2."""
    total: dict[Kind, float] = {}
    for facet in flat_facets(spec):
        total[facet.kind] = total.get(facet.kind, 0.0) + sum(area(p) for p in visible_parts(spec, facet))
    return {kind: value for kind, value in total.items() if value}


# Derived, W 400, H 300, d 38: face 120000, under sides 2 x 38 x 300, over sides 2 x 38 x 400. Lapped: each
# over side loses two triangles of 38^2 / 2 to the flaps. Set-back 1: four slivers of 38 x 1 / 2 come from the
# over sides.
AREAS = [
    ({}, {Kind.FACE: 120000, Kind.UNDER_SIDE: 22800, Kind.OVER_SIDE: 30400}),
    ({"finish": TRIMMED}, {Kind.FACE: 120000, Kind.UNDER_SIDE: 22800, Kind.OVER_SIDE: 30400}),
    (
        {"finish": LAPPED},
        {Kind.FACE: 120000, Kind.UNDER_SIDE: 22800, Kind.OVER_SIDE: 27512, Kind.GUSSET_UNDER: 2888},
    ),
    (
        {"setback_mm": 1},
        {Kind.FACE: 120000, Kind.UNDER_SIDE: 22800, Kind.OVER_SIDE: 30324, Kind.GUSSET_UNDER: 76},
    ),
]


@pytest.mark.parametrize(("fields", "expected"), AREAS)
@pytest.mark.parametrize("corners", Corners)
def test_worked_areas(
    worked: Worked, fields: dict[str, Any], expected: dict[Kind, float], corners: Corners
) -> None:
    found = seen_area(worked(corners=corners, **fields))
    assert found == pytest.approx(expected, abs=1e-6)
    assert sum(found.values()) == pytest.approx(173200, abs=1e-6)


def test_lapped_over_side_is_a_trapezoid(worked: Worked) -> None:
    """Derived: as long as the face at the face, 2 d shorter at the back: (0, 300) to (362, 338)."""
    spec = worked(finish=LAPPED)
    top = next(facet for facet in flat_facets(spec) if facet.name == "top side")
    (part,) = visible_parts(spec, top)
    expected = {(0, 300), (400, 300), (362, 338), (38, 338)}
    assert {(round(x, 9), round(y, 9)) for x, y in part.tolist()} == expected
    assert area(part) == pytest.approx(38 * (400 + 324) / 2, abs=1e-9)


def test_lapped_over_side_may_end_in_a_point(worked: Worked) -> None:
    """Derived: cut-back flaps of d 38 meet on an edge of 76 mm and leave a triangle of 76 x 38 / 2."""
    spec = worked(finish=LAPPED, width_mm=76, **CUT_BACK)
    top = next(facet for facet in flat_facets(spec) if facet.name == "top side")
    (part,) = visible_parts(spec, top)
    assert area(part) == pytest.approx(1444, abs=1e-9)


@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_all_that_is_seen_is_the_outside_of_the_box(specs: Specs, data: st.DataObject) -> None:
    """Derived: W H + 2 d (W + H), whatever the finish."""
    spec = data.draw(specs)
    box = spec.width_mm * spec.height_mm + 2 * spec.depth_mm * (spec.width_mm + spec.height_mm)
    assert sum(seen_area(spec).values()) == pytest.approx(box, rel=1e-12)


@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_what_is_seen_of_a_facet_is_a_convex_part_of_it(specs: Specs, data: st.DataObject) -> None:
    spec = data.draw(specs)
    for facet in flat_facets(spec):
        for part in visible_parts(spec, facet):
            assert all(inside(facet.flat, point, margin_mm=1e-6) for point in part), facet.name
            assert area(part) >= 0, facet.name
            assert all(inside(part, point, margin_mm=1e-6) for point in part), facet.name


# Derived: the folded points of test_motion that lie outside; on the corner's over side at (390, 300, -30) the
# tucked piece shows the over side, the lapped one its flap.
SEEN = [
    ({}, (200, 150, 0), "face", (200, 150)),
    ({}, (400, 150, -20), "right side", (420, 150)),
    ({}, (200, 300, -20), "top side", (200, 320)),
    ({}, (390, 300, -30), "top side", (390, 330)),
    ({"finish": LAPPED}, (390, 300, -30), "top-right folded corner, under half", (430, 310)),
    ({"finish": TRIMMED}, (390, 300, -30), "top side", (390, 330)),
    ({"setback_mm": 1}, (399.5, 300, -37), "top-right folded corner, under half", (437, 300.5)),
    ({"setback_mm": 1}, (398.5, 300, -37), "top side", (398.5, 337)),
    ({"finish": LAPPED}, (20, 0, -30), "bottom-left folded corner, under half", (-30, -20)),
    (
        {"finish": LAPPED, "over": OverPair.LEFT_RIGHT},
        (400, 290, -30),
        "top-right folded corner, under half",
        (410, 330),
    ),
]


@pytest.mark.parametrize(("fields", "seen", "name", "flat"), SEEN)
def test_worked_points(
    worked: Worked,
    fields: dict[str, Any],
    seen: tuple[float, float, float],
    name: str,
    flat: tuple[float, float],
) -> None:
    found, point = printed_point(worked(**fields), np.array(seen, float))
    assert found == name
    assert point == pytest.approx(flat, abs=1e-9)


@st.composite
def outside(draw: st.DrawFn, spec: FoldSpec) -> Floats:
    """A point of the face or a side, not on an edge of the box."""
    x, y, z = (draw(st.floats(0.001, 0.999)) for _ in range(3))
    place = draw(st.sampled_from(["face", *Side]))
    point = np.array([x * spec.width_mm, y * spec.height_mm, -z * spec.depth_mm])
    fixed = {
        "face": (2, 0.0),
        Side.TOP: (1, spec.height_mm),
        Side.RIGHT: (0, spec.width_mm),
        Side.BOTTOM: (1, 0.0),
        Side.LEFT: (0, 0.0),
    }
    axis, value = fixed[place]
    point[axis] = value
    return point


@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_every_outside_point_shows_one_printed_point_and_it_goes_back_there(
    specs: Specs, fold: Fold, data: st.DataObject
) -> None:
    """The printed point found comes to the place, is printed outwards there and lies on top of the layers."""
    spec = data.draw(specs)
    seen = data.draw(outside(spec))
    name, flat = printed_point(spec, seen)
    folded = fold(spec, 1.0)
    index = folded.index(name)
    assert folded.place(index, flat)[0, 0] == pytest.approx(seen, abs=1e-6)
    middle = np.array([spec.width_mm / 2, spec.height_mm / 2, -spec.depth_mm / 2])
    assert folded.maps[index].turn[0, :, 2] @ (seen - middle) > 0
    ranks = layer_ranks(spec)
    shown = 0
    for facet, rigid in zip(folded.facets, folded.maps, strict=True):
        local = rigid.turn[0].T @ (seen - rigid.shift[0])
        if abs(local[2]) > 1e-6:
            continue
        # Clear of edges by more than the search's margin, so that neighbours are not counted.
        if inside(facet.flat, local[:2], margin_mm=-1e-6):
            assert ranks[facet.kind] <= ranks[folded.facets[index].kind], facet.name
        shown += any(inside(part, local[:2], margin_mm=-1e-6) for part in visible_parts(spec, facet))
    assert shown <= 1


@settings(max_examples=40, deadline=None)
@given(data=st.data(), seed=st.integers(0, 2**16))
def test_visible_parts_agree_with_the_layers(
    specs: Specs, fold: Fold, data: st.DataObject, seed: int
) -> None:
    """A printed point is in a visible part if and only if it is outside and no higher layer covers it."""
    spec = data.draw(specs)
    folded, ranks = fold(spec, 1.0), layer_ranks(spec)
    random = np.random.default_rng(seed)
    middle = np.array([spec.width_mm / 2, spec.height_mm / 2, -spec.depth_mm / 2])
    for index, facet in enumerate(folded.facets):
        share = random.dirichlet(np.ones(len(facet.flat)))
        flat = share @ facet.flat
        place = folded.place(index, flat)[0, 0]
        on_back = place[2] < -spec.depth_mm + 1e-6
        covered, unsure = False, False
        for other, rigid in zip(folded.facets, folded.maps, strict=True):
            local = rigid.turn[0].T @ (place - rigid.shift[0])
            if abs(local[2]) > 1e-6 or not inside(other.flat, local[:2], margin_mm=1e-4):
                continue
            if other is not facet and not inside(other.flat, local[:2], margin_mm=-1e-4):
                unsure = True
            same_side = abs((rigid.turn[0, :, 2] @ folded.maps[index].turn[0, :, 2]) ** 2 - 1) < 1e-9
            covered |= same_side and ranks[other.kind] > ranks[facet.kind]
        if unsure or not inside(facet.flat, flat, margin_mm=-1e-4):
            continue
        seen = any(inside(part, flat) for part in visible_parts(spec, facet))
        assert seen == (not on_back and not covered), facet.name
        if seen:
            assert folded.maps[index].turn[0, :, 2] @ (place - middle) > 0, facet.name


@pytest.mark.parametrize("finish", [TUCKED, LAPPED])
def test_a_wrong_order_of_layers_disagrees(worked: Worked, fold: Fold, finish: Finish) -> None:
    """Negative control: with the other finish's order the point that printed_point finds is not on top."""
    spec = worked(finish=finish)
    other = worked(finish=LAPPED if finish is TUCKED else TUCKED)
    name, _ = printed_point(spec, np.array([390.0, 300, -30]))
    folded = fold(spec, 1.0)
    kind = folded.facets[folded.index(name)].kind
    over_side = {Kind.GUSSET_UNDER, Kind.GUSSET_OVER, Kind.OVER_SIDE}
    assert max(over_side, key=lambda one: layer_ranks(spec)[one]) is kind
    assert max(over_side, key=lambda one: layer_ranks(other)[one]) is not kind


@pytest.mark.parametrize("point", [(200, 150, -20), (388, 150, -38), (500, 150, -20), (200, 150, 5)])
def test_inside_behind_and_beside_are_refused(worked: Worked, point: tuple[float, float, float]) -> None:
    with pytest.raises(GeometryError, match="must be a point on the face or a side") as caught:
        printed_point(worked(), np.array(point, float))
    assert caught.value.field == "seen"
    assert caught.value.code == "geometry"
