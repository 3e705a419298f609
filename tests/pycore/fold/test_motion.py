"""Where the facets are: worked points, the folded map, and what holds at every moment."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from typing import Any

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pycore.contract.job import Corners, Finish
from pycore.fold.facets import corners
from pycore.fold.kinds import Kind
from pycore.fold.motion import corner_maps
from pycore.fold.spec import FoldSpec
from pycore.fold.stages import stages_of

Floats = npt.NDArray[np.float64]
Fold = Callable[..., Any]
Worked = Callable[..., FoldSpec]
Specs = st.SearchStrategy[FoldSpec]

TUCKED, LAPPED, TRIMMED = Finish.TUCKED, Finish.LAPPED, Finish.TRIMMED
CUT_BACK = {"corners": Corners.CUT_BACK}
AT = st.floats(0, 1)

# Derived for W 400, H 300, d 38, r 25: each fold turns what lies past it by 90 degrees, a reflection in the
# gusset's ridge first. Tucked and lapped have the same map.
FOLDED = [
    ("face", (200, 150), (200, 150, 0)),
    ("right side", (420, 150), (400, 150, -20)),
    ("right turn-over", (450, 150), (388, 150, -38)),
    ("top side", (200, 320), (200, 300, -20)),
    ("top turn-over", (200, 350), (200, 288, -38)),
    ("top-right folded corner, under half", (430, 310), (390, 300, -30)),
    ("top-right folded corner, over half", (410, 330), (390, 300, -30)),
    ("top side", (390, 330), (390, 300, -30)),
    ("top-right back folded corner, middle part", (455, 330), (370, 283, -38)),
    ("top-right back folded corner, over part", (430, 355), (370, 283, -38)),
    ("top-right back folded corner, under part", (455, 310), (383, 290, -38)),
    ("bottom-left folded corner, over half", (-20, -30), (20, 0, -30)),
    ("top-right back folded corner, middle part", (463, 363), (337, 275, -38)),
    ("top-right back folded corner, over part", (463, 363), (337, 275, -38)),
]


@pytest.mark.parametrize("finish", [TUCKED, LAPPED])
@pytest.mark.parametrize(("name", "flat", "expected"), FOLDED)
def test_folded_points(
    worked: Worked,
    fold: Fold,
    finish: Finish,
    name: str,
    flat: tuple[float, float],
    expected: tuple[float, float, float],
) -> None:
    folded = fold(worked(finish=finish), 1.0)
    assert folded.place(folded.index(name), flat)[0, 0] == pytest.approx(expected, abs=1e-9)


# Derived (closed forms of the angles in test_stages): printed to a ten-thousandth of a mm.
GUSSET_UNDER, GUSSET_OVER = "top-right folded corner, under half", "top-right folded corner, over half"
PART_WAY = [
    ({}, 5 / 9, GUSSET_UNDER, (430, 310), (391.3397, 305, -30)),
    ({}, 5 / 9, GUSSET_OVER, (410, 330), (391.3397, 321, -22)),
    ({}, 5 / 9, "top side", (390, 330), (390, 324, -18)),
    ({}, 5 / 9, "top-right back folded corner, under part", (455, 310), (384.4115, 305, -49)),
    ({}, 5 / 9, "right turn-over", (450, 150), (388.1231, 150, -39.7143)),
    ({}, 5 / 6, "top-right back folded corner, middle part", (455, 330), (370, 287.9792, -50.0208)),
    ({"finish": LAPPED}, 3 / 8, GUSSET_UNDER, (430, 310), (425.9272, 307.0711, -16.6667)),
    ({"finish": LAPPED}, 3 / 8, GUSSET_OVER, (410, 330), (407.0711, 307.0711, -30)),
    ({"finish": LAPPED}, 5 / 8, GUSSET_UNDER, (430, 310), (392.9289, 307.0711, -30)),
    ({"finish": LAPPED}, 7 / 8, "right turn-over", (450, 150), (396, 150, -49.3137)),
    ({"finish": TRIMMED}, 1.0, "top-right tab", (420, 305), (395, 300, -20)),
    ({"setback_mm": 1}, 1.0, GUSSET_UNDER, (437, 300.5), (399.5, 300, -37)),
]


@pytest.mark.parametrize(("fields", "at", "name", "flat", "expected"), PART_WAY)
def test_points_part_way(
    worked: Worked,
    fold: Fold,
    fields: dict[str, Any],
    at: float,
    name: str,
    flat: tuple[float, float],
    expected: tuple[float, float, float],
) -> None:
    folded = fold(worked(**fields), at)
    assert folded.place(folded.index(name), flat)[0, 0] == pytest.approx(expected, abs=5e-5)


def folded_map(d: float, p: float, q: float) -> dict[Kind, tuple[tuple[float, float, float], int, int]]:
    """Derived: where (p, q) of each kind goes, and along which axis, to which side, its print faces."""
    return {
        Kind.FACE: ((p, q, 0), 2, 1),
        Kind.UNDER_SIDE: ((0, q, -p), 0, 1),
        Kind.OVER_SIDE: ((p, 0, -q), 1, 1),
        Kind.UNDER_TURNOVER: ((d - p, q, -d), 2, -1),
        Kind.OVER_TURNOVER: ((p, d - q, -d), 2, -1),
        Kind.GUSSET_UNDER: ((-q, 0, -p), 1, 1),
        Kind.GUSSET_OVER: ((-p, 0, -q), 1, -1),
        Kind.BACK_MIDDLE: ((-q, d - p, -d), 2, -1),
        Kind.BACK_UNDER: ((d - p, -q, -d), 2, 1),
        Kind.BACK_OVER: ((-p, d - q, -d), 2, 1),
        Kind.TAB: ((-q, 0, -p), 1, 1),
    }


@settings(max_examples=40, deadline=None)
@given(data=st.data(), p=st.floats(-100, 100), q=st.floats(-100, 100))
def test_folded_map_in_the_corner_frame(specs: Specs, data: st.DataObject, p: float, q: float) -> None:
    spec = dataclasses.replace(data.draw(specs), setback_mm=0.0)
    expected = folded_map(spec.depth_mm, p, q)
    for kind, rigid in corner_maps(spec, np.ones(1)).items():
        point, axis, way = expected[kind]
        assert rigid.apply(np.array([[p, q, 0]]))[0, 0] == pytest.approx(point, abs=1e-9), kind
        assert rigid.turn[0, axis, 2] == pytest.approx(way, abs=1e-12), kind


@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_setback_moves_the_over_half_by_a_reflection_in_its_ridge(specs: Specs, data: st.DataObject) -> None:
    """Derived: over half and back over part lie on the under half and middle part, mirrored in the ridge."""
    spec = dataclasses.replace(data.draw(specs), finish=TUCKED)
    k = np.pi / 4 + spec.setback_rad
    mirror = np.array([[np.cos(2 * k), np.sin(2 * k), 0], [np.sin(2 * k), -np.cos(2 * k), 0], [0, 0, 1]])
    maps = corner_maps(spec, np.ones(1))
    pairs = [(Kind.GUSSET_OVER, Kind.GUSSET_UNDER), (Kind.BACK_OVER, Kind.BACK_MIDDLE)]
    points = np.array([[0, 0, 0], [30.0, 0, 0], [0, 50, 0]])
    for one, other in pairs[: 2 if spec.whole else 1]:
        assert maps[one].apply(points) == pytest.approx(maps[other].apply(points @ mirror.T), abs=1e-9)


@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_flat_is_the_identity(specs: Specs, fold: Fold, data: st.DataObject) -> None:
    folded = fold(data.draw(specs), 0.0)
    for index, facet in enumerate(folded.facets):
        place = folded.place(index, facet.flat)[0]
        assert place[:, :2] == pytest.approx(facet.flat, abs=1e-9), facet.name
        assert place[:, 2] == pytest.approx(0, abs=1e-9), facet.name


@settings(max_examples=40, deadline=None)
@given(data=st.data(), at=AT)
def test_facets_stay_rigid(specs: Specs, fold: Fold, data: st.DataObject, at: float) -> None:
    folded = fold(data.draw(specs), at)
    for index, facet in enumerate(folded.facets):
        turn = folded.maps[index].turn[0]
        assert turn @ turn.T == pytest.approx(np.eye(3), abs=1e-11), facet.name
        assert np.linalg.det(turn) == pytest.approx(1, abs=1e-11), facet.name
        place = folded.place(index, facet.flat)[0]
        before = np.linalg.norm(facet.flat[:, np.newaxis] - facet.flat, axis=2)
        after = np.linalg.norm(place[:, np.newaxis] - place, axis=2)
        assert after == pytest.approx(before, abs=1e-9), facet.name


@settings(max_examples=40, deadline=None)
@given(data=st.data(), at=AT)
def test_strips_are_where_either_end_corner_puts_them(
    specs: Specs, fold: Fold, data: st.DataObject, at: float
) -> None:
    spec = data.draw(specs)
    folded = fold(spec, at)
    local = corner_maps(spec, np.array([at]))
    ends = {
        "top": ("top-right", "top-left"),
        "right": ("top-right", "bottom-right"),
        "bottom": ("bottom-right", "bottom-left"),
        "left": ("top-left", "bottom-left"),
    }
    frames = corners(spec)
    checked = 0
    for index, facet in enumerate(folded.facets):
        for name in ends.get(facet.name.split()[0], ()):
            corner = frames[name]
            inner = (facet.flat - corner.origin) @ corner.axes
            there = local[facet.kind].apply(np.column_stack([inner, np.zeros(len(inner))]))[0]
            there[:, :2] = there[:, :2] @ corner.axes.T + corner.origin
            assert folded.place(index, facet.flat)[0] == pytest.approx(there, abs=1e-9), facet.name
            checked += 1
    assert checked == (16 if spec.turnover_mm else 8)


@settings(max_examples=40, deadline=None)
@given(data=st.data(), at=AT)
def test_tucked_and_lapped_end_in_the_same_place(
    specs: Specs, fold: Fold, data: st.DataObject, at: float
) -> None:
    spec = dataclasses.replace(data.draw(specs), finish=TUCKED, setback_mm=0.0)
    # Both orders of folding need the room of a corner that is kept.
    need = 2 * (spec.reach_mm + 1)
    tucked = dataclasses.replace(spec, width_mm=max(spec.width_mm, need), height_mm=max(spec.height_mm, need))
    one, other = fold(tucked, at, 1.0), fold(dataclasses.replace(tucked, finish=LAPPED), at, 1.0)
    apart = 0.0
    for index, facet in enumerate(one.facets):
        assert other.facets[index].name == facet.name
        first, second = one.place(index, facet.flat), other.place(index, facet.flat)
        assert first[1] == pytest.approx(second[1], abs=1e-9), facet.name
        apart = max(apart, float(np.abs(first[0] - second[0]).max()))
    # Only the way there differs.
    assert not 0.1 < at < 0.6 or apart > 1


@settings(max_examples=40, deadline=None)
@given(data=st.data(), at=AT)
def test_corners_mirror_one_another(specs: Specs, fold: Fold, data: st.DataObject, at: float) -> None:
    spec = data.draw(specs)
    folded = fold(spec, at)
    for index, facet in enumerate(folded.facets):
        if not facet.name.startswith("top-right"):
            continue
        place = folded.place(index, facet.flat)[0]
        for name, across, up in (("top-left", 1, 0), ("bottom-right", 0, 1), ("bottom-left", 1, 1)):
            twin = folded.index(facet.name.replace("top-right", name))
            flat, mirrored = facet.flat.copy(), place.copy()
            if across:
                flat[:, 0], mirrored[:, 0] = spec.width_mm - flat[:, 0], spec.width_mm - mirrored[:, 0]
            if up:
                flat[:, 1], mirrored[:, 1] = spec.height_mm - flat[:, 1], spec.height_mm - mirrored[:, 1]
            assert folded.place(twin, flat)[0] == pytest.approx(mirrored, abs=1e-9), (facet.name, name)


@settings(max_examples=40, deadline=None)
@given(data=st.data(), at=AT)
def test_swapping_the_pairs_and_the_sizes_transposes_the_motion(
    specs: Specs,
    fold: Fold,
    transposed: Callable[[FoldSpec], FoldSpec],
    data: st.DataObject,
    at: float,
) -> None:
    spec = data.draw(specs)
    one, other = fold(spec, at), fold(transposed(spec), at)
    middles = np.array([facet.flat.mean(axis=0) for facet in other.facets])
    for index, facet in enumerate(one.facets):
        twin = int(np.argmin(np.linalg.norm(middles - facet.flat.mean(axis=0)[::-1], axis=1)))
        assert other.facets[twin].kind is facet.kind
        place = one.place(index, facet.flat)[0]
        assert other.place(twin, facet.flat[:, ::-1])[0] == pytest.approx(place[:, [1, 0, 2]], abs=1e-9)


# Derived: n equal stages, angles run at n 90 degrees per unit of `at`. The fastest point is the sheet's edge,
# s = d + r from its axis; theta_o (tucked), theta_u and rho (lapped) reach twice the rate of what drives them
# (d theta_o / d psi = 2 sin psi / (1 + cos^2 psi)): n pi s; trimmed, where all are independent, half of it.
# s 63: 593.8, 791.7, 791.7, 989.6, 494.8 mm.
SPEEDS = [
    ({}, 3 * np.pi * 63),
    (CUT_BACK, 4 * np.pi * 63),
    ({"finish": LAPPED}, 4 * np.pi * 63),
    ({"finish": LAPPED} | CUT_BACK, 5 * np.pi * 63),
    ({"finish": TRIMMED}, 5 * np.pi / 2 * 63),
]


@pytest.mark.parametrize(("fields", "most"), SPEEDS)
def test_motion_is_continuous_at_a_known_top_speed(
    worked: Worked, fold: Fold, fields: dict[str, Any], most: float
) -> None:
    moments = np.linspace(0, 1, 1201)
    folded = fold(worked(**fields), *moments)
    fastest = max(
        np.linalg.norm(np.diff(folded.place(index, facet.flat), axis=0), axis=2).max() * 1200
        for index, facet in enumerate(folded.facets)
    )
    assert 0.995 * most < fastest < most + 1e-6


@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_no_jump_between_stages(specs: Specs, fold: Fold, data: st.DataObject) -> None:
    """At every stage's start the moments just before and after are as near as that little time allows."""
    spec = data.draw(specs)
    step = 1e-9
    starts = [stage.start for stage in stages_of(spec)[1:]]
    folded = fold(spec, *[start + way * step for start in starts for way in (-1, 1)])
    # A set-back makes the angles steeper than the plain top speed, but no more than tenfold in a nanostep.
    bound = 2 * step * len(stages_of(spec)) * np.pi * spec.reach_mm * (10 if spec.setback_rad else 1.01)
    for index, facet in enumerate(folded.facets):
        place = folded.place(index, facet.flat)
        assert np.linalg.norm(place[1::2] - place[::2], axis=2).max() < bound, facet.name
