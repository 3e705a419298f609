"""Creases: how many, closed at every moment, folded by the closed forms, and the theorems at vertices."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from itertools import pairwise
from typing import Any

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pycore.contract.job import Corners, Finish
from pycore.fold.creases import Crease, find_creases
from pycore.fold.kinds import Kind
from pycore.fold.rigid import Rigid, about
from pycore.fold.spec import FoldSpec
from pycore.fold.stages import Angles, angles_at, stages_of

Floats = npt.NDArray[np.float64]
Fold = Callable[..., Any]
Worked = Callable[..., FoldSpec]
Specs = st.SearchStrategy[FoldSpec]
Pair = frozenset[Kind]

TUCKED, LAPPED, TRIMMED = Finish.TUCKED, Finish.LAPPED, Finish.TRIMMED
CUT_BACK = {"corners": Corners.CUT_BACK}
F, US, OS, UR, OR = (
    Kind.FACE,
    Kind.UNDER_SIDE,
    Kind.OVER_SIDE,
    Kind.UNDER_TURNOVER,
    Kind.OVER_TURNOVER,
)
U, V, UA, UB, VR, T = (
    Kind.GUSSET_UNDER,
    Kind.GUSSET_OVER,
    Kind.BACK_UNDER,
    Kind.BACK_MIDDLE,
    Kind.BACK_OVER,
    Kind.TAB,
)


def pair(one: Kind, other: Kind) -> Pair:
    return frozenset((one, other))


# Derived: a strip has 8 creases (face and back edge of 4 sides); a corner square 9 with its surroundings, or
# 3 cut-back, or 1 trimmed; without a turn-over only the strips' 4 face edges are left.
COUNTS = [
    ({}, 8 + 4 * 9),
    ({"setback_mm": 1}, 8 + 4 * 9),
    ({"finish": LAPPED}, 8 + 4 * 9),
    (CUT_BACK, 8 + 4 * 3),
    (CUT_BACK | {"setback_mm": 1}, 8 + 4 * 3),
    ({"finish": LAPPED} | CUT_BACK, 8 + 4 * 3),
    ({"finish": TRIMMED}, 8 + 4),
    ({"turnover_mm": 0}, 4 + 4 * 3),
    ({"turnover_mm": 1e-7}, 8 + 4 * 9),
]


@pytest.mark.parametrize(("fields", "count"), COUNTS)
def test_number_of_creases(worked: Worked, fold: Fold, fields: dict[str, Any], count: int) -> None:
    creases, _ = find_creases(fold(worked(**fields), 0.0).facets)
    assert len(creases) == count


@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_creases_and_cuts_are_all_edges_and_cuts_go_round_the_sheet(
    specs: Specs, fold: Fold, data: st.DataObject
) -> None:
    spec = data.draw(specs)
    facets = fold(spec, 0.0).facets
    creases, cuts = find_creases(facets)
    lengths = [np.linalg.norm(np.roll(f.flat, -1, axis=0) - f.flat, axis=1) for f in facets]
    if min(length.min() for length in lengths) > 1e-6:
        assert sum(len(length) for length in lengths) == 2 * len(creases) + len(cuts)
    # Shared ends are the same numbers on both facets, so no rounding can part them.
    for crease in creases:
        for index in (crease.left, crease.right):
            ends = facets[index].flat.tolist()
            assert crease.start.tolist() in ends
            assert crease.end.tolist() in ends
    for cut in cuts:
        assert cut.start.tolist() in facets[cut.facet].flat.tolist()
    turned = sum(cut.start[0] * cut.end[1] - cut.start[1] * cut.end[0] for cut in cuts) / 2
    area = sum(f.flat[:, 0] @ (np.roll(f.flat[:, 1], -1) - np.roll(f.flat[:, 1], 1)) for f in facets) / 2
    assert turned == pytest.approx(area, rel=1e-12)


def gap(folded: Any) -> float:
    """How far the two facets of any crease part, at the worst moment, mm."""
    creases, _ = find_creases(folded.facets)
    return max(
        float(np.abs(folded.place(c.left, [c.start, c.end]) - folded.place(c.right, [c.start, c.end])).max())
        for c in creases
    )


@settings(max_examples=40, deadline=None)
@given(data=st.data(), moments=st.lists(st.floats(0, 1), min_size=3, max_size=3))
def test_sheet_stays_whole(specs: Specs, fold: Fold, data: st.DataObject, moments: list[float]) -> None:
    assert gap(fold(data.draw(specs), 0.0, *moments, 1.0)) < 1e-9


@pytest.mark.parametrize("fields", [{}, CUT_BACK, {"finish": LAPPED}, {"setback_mm": 2}])
@pytest.mark.parametrize("field", ["over", "under", "gusset"])
def test_an_angle_a_little_off_opens_a_crease(
    worked: Worked, fold: Fold, monkeypatch: pytest.MonkeyPatch, fields: dict[str, Any], field: str
) -> None:
    """Negative control: a tenth of a percent in one angle must not pass for whole."""

    def wrong(spec: FoldSpec, at: Floats) -> Angles:
        right = angles_at(spec, at)
        return dataclasses.replace(right, **{field: getattr(right, field) * 1.001})

    moments = np.linspace(0.05, 0.95, 10)
    assert gap(fold(worked(**fields), *moments)) < 1e-9
    monkeypatch.setattr("pycore.fold.motion.angles_at", wrong)
    assert gap(fold(worked(**fields), *moments)) > 1e-3


# Derived: crease by crease at the end, mountain +, valley -; printed for tucked and lapped corners.
FINAL = {
    pair(F, US): (90, 90),
    pair(F, OS): (90, 90),
    pair(US, UR): (90, 90),
    pair(OS, OR): (90, 90),
    pair(US, U): (90, 90),
    pair(U, V): (-180, 180),
    pair(V, OS): (180, -180),
    pair(UB, VR): (-180, 180),
    pair(UA, UB): (180, -180),
    pair(UR, UA): (-180, 180),
    pair(VR, OR): (180, -180),
    pair(U, UB): (90, 90),
    pair(V, VR): (-90, -90),
    pair(US, T): (90, 90),
}


def kinds(folded: Any, crease: Crease) -> Pair:
    return pair(folded.facets[crease.left].kind, folded.facets[crease.right].kind)


@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_folded_angles(specs: Specs, fold: Fold, data: st.DataObject) -> None:
    """Sizes and signs; the sign of half a turn is the one from which it is reached."""
    spec = data.draw(specs)
    column = 1 if spec.finish is LAPPED else 0
    folded = fold(spec, *(stage.end - 1e-5 for stage in stages_of(spec)), 1.0)
    for crease in find_creases(folded.facets)[0]:
        *before, last = np.degrees(fold_angle(crease, folded.maps))
        expected = FINAL[kinds(folded, crease)][column]
        if abs(expected) == 90:
            assert last == pytest.approx(expected, abs=1e-9)
        else:
            assert abs(last) == pytest.approx(180, abs=1e-9)
            near = [angle for angle in before if 160 < abs(angle) < 180 - 1e-6]
            assert near
            assert {np.sign(angle) for angle in near} == {np.sign(expected)}, kinds(folded, crease)


def fold_angle(crease: Crease, maps: list[Rigid]) -> Floats:
    """How far a crease is folded at every moment, (n,) radians.

    Positive is a mountain (the print side is convex), negative a valley. At exactly half a turn the sign has
    no meaning.

    Parameters
    ----------
    crease : Crease
        A crease.
    maps : list of Rigid
        Of all facets, from `facet_maps`.

    Returns
    -------
    (n,) float64
        atan2((n_left x n_right) . e, n_left . n_right), with the crease's direction e in space.
    """
    left, right = maps[crease.left], maps[crease.right]
    along = left.direct(np.array([*(crease.end - crease.start), 0.0]))
    along = along / np.linalg.norm(along, axis=-1, keepdims=True)
    first, second = left.turn[:, :, 2], right.turn[:, :, 2]
    angle: Floats = np.arctan2(
        np.sum(np.cross(first, second) * along, axis=-1), np.sum(first * second, axis=-1)
    )
    return angle


def closed_forms(spec: FoldSpec, at: float) -> dict[Pair, float]:
    """Derived, degrees: the fold angle of every crease of a plain corner, from its vertices' equations."""
    names = [stage.name for stage in stages_of(spec)]
    f = dict.fromkeys(("under-back", "over-back", "backs"), 90 * at)
    f |= {name: 90 * float(np.clip(at * len(names) - i, 0, 1)) for i, name in enumerate(names)}

    def half(x: float) -> float:
        return float(90 - 2 * np.degrees(np.arctan(np.cos(np.radians(x)))))

    def diagonal(x: float, by: float) -> float:
        return float(2 * np.degrees(np.arctan(np.tan(np.radians(x)) * by)))

    root = np.sqrt(2)
    if spec.finish is TRIMMED:
        return {
            pair(F, US): f["under"],
            pair(US, T): f["tab"],
            pair(US, UR): f["under-back"],
            pair(F, OS): f["over"],
            pair(OS, OR): f["over-back"],
        }
    if spec.finish is TUCKED:
        psi, sigma = f["tuck"], f["over-back"]
        rho = 2 * np.degrees(np.arctan(np.sin(np.radians(psi)))) if spec.whole else f["under-back"]
        return {
            pair(F, US): f["under"],
            pair(V, OS): f["under"] + psi,
            pair(VR, OR): f["under"] + psi,
            pair(US, U): psi,
            pair(F, OS): half(psi),
            pair(U, V): -diagonal(psi, 1 / root),
            pair(UB, VR): -diagonal(psi, 1 / root),
            pair(US, UR): rho,
            pair(UA, UB): diagonal(psi, root),
            pair(UR, UA): -psi - sigma,
            pair(U, UB): sigma,
            pair(OS, OR): sigma,
            pair(V, VR): -sigma,
        }
    spread, wrap = f["under"], f["wrap"]
    sigma = f["backs"] if spec.whole else f["over-back"]
    round_edge = f["over"] - spread + wrap
    return {
        pair(F, OS): f["over"],
        pair(US, U): round_edge,
        pair(UR, UA): round_edge + (sigma if spec.whole else 0),
        pair(F, US): half(spread),
        pair(V, OS): -spread - wrap,
        pair(VR, OR): -spread - wrap,
        pair(U, V): diagonal(spread, 1 / root),
        pair(UB, VR): diagonal(spread, 1 / root),
        pair(U, UB): sigma,
        pair(OS, OR): sigma,
        pair(V, VR): -sigma,
        pair(US, UR): half(sigma) if spec.whole else f["under-back"],
        pair(UA, UB): -diagonal(sigma, 1 / root),
    }


@settings(max_examples=60, deadline=None)
@given(data=st.data(), at=st.floats(0, 1))
def test_fold_angles_follow_their_closed_forms(
    specs: Specs, fold: Fold, data: st.DataObject, at: float
) -> None:
    spec = dataclasses.replace(data.draw(specs), setback_mm=0.0)
    folded, expected = fold(spec, at), closed_forms(spec, at)
    for crease in find_creases(folded.facets)[0]:
        angle = np.degrees(fold_angle(crease, folded.maps)[0])
        apart = (angle - expected[kinds(folded, crease)] + 180) % 360 - 180
        assert abs(apart) < 1e-9, kinds(folded, crease)


def vertices(folded: Any) -> list[tuple[list[Kind], list[float], list[Crease], Floats]]:
    """Inner vertices: kinds, sectors in degrees and the crease after each, round about; and the point."""
    creases, _ = find_creases(folded.facets)
    at: dict[tuple[float, float], list[tuple[float, Crease]]] = {}
    for crease in creases:
        for here, there in ((crease.start, crease.end), (crease.end, crease.start)):
            way = there - here
            # The facets share their corners to the last digit.
            at.setdefault((here[0], here[1]), []).append((np.arctan2(way[1], way[0]), crease))
    found = []
    for point, rays in at.items():
        rays.sort(key=lambda ray: ray[0])
        ring, sectors, after = [], [], []
        for (angle, crease), (following, other) in pairwise([*rays, rays[0]]):
            shared = {crease.left, crease.right} & {other.left, other.right}
            if len(shared) != 1:
                break
            ring.append(folded.facets[shared.pop()].kind)
            sectors.append(float(np.degrees(following - angle) % 360))
            after.append(other)
        else:
            if len(rays) >= 4:
                found.append((ring, sectors, after, np.array(point)))
    return found


@settings(max_examples=25, deadline=None)
@given(data=st.data(), at=st.floats(0, 1))
def test_turns_round_a_vertex_cancel(specs: Specs, fold: Fold, data: st.DataObject, at: float) -> None:
    """Derived: going round, each crease turns by its fold angle about its flat line; the sheet closes."""
    spec = data.draw(specs)
    folded = fold(spec, at)
    found = vertices(folded)
    assert len(found) == (0 if spec.finish is TRIMMED else 16 if spec.whole else 4)
    for ring, sectors, after, point in found:
        assert sum(sectors) == pytest.approx(360, abs=1e-9)
        product = np.eye(3)
        for crease in after:
            ends = (crease.start, crease.end)
            far = max(ends, key=lambda end: float(np.linalg.norm(end - point)))
            ray = np.array([*(far - point), 0]) / np.linalg.norm(far - point)
            product = product @ about(ray, np.zeros(3), -fold_angle(crease, folded.maps)).turn[0]
        assert product == pytest.approx(np.eye(3), abs=1e-9), ring


@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_vertices_of_the_gusset_fold_flat_on_their_bend(
    specs: Specs, fold: Fold, data: st.DataObject
) -> None:
    """Kawasaki and Maekawa at Q and R; the fan rule at O and P, where the bar's corner leaves 90 degrees.

    Published (from memory): Justin 1986, Kawasaki 1989: a vertex folds flat if and only if its alternate
    sectors sum to 180 degrees; Maekawa, Justin 1986: mountains less valleys are then 2 or -2.
    """
    spec = data.draw(specs)
    column = 1 if spec.finish is LAPPED else 0
    fans = {pair(US, OS): (U, V, OS), pair(US, UR): (UB, UA, UR)}
    flat_folded = 0
    for ring, sectors, after, _ in vertices(fold(spec, 1.0)):
        by_kind = dict(zip(ring, sectors, strict=True))
        if len(ring) == 4:
            assert sectors[0] + sectors[2] == pytest.approx(180, abs=1e-6)
            assert sectors[1] + sectors[3] == pytest.approx(180, abs=1e-6)
            folds = [FINAL[pair(one, other)][column] for one, other in pairwise([*ring, ring[0]])]
            # Derived: R (with the under half) has one mountain less than valleys by two, Q the reverse.
            expected = -2 if U in ring else 2
            assert sum(np.sign(folds)) == (expected if column == 0 else -expected)
            flat_folded += 1
        else:
            first, second, third = fans[pair(US, OS if F in ring else UR)]
            assert by_kind[first] - by_kind[second] + by_kind[third] == pytest.approx(90, abs=1e-6)
            assert len(after) == 5
    assert flat_folded == (8 if spec.whole else 0)
