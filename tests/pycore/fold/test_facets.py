"""The flat facets: how many, of what shape, and that they make up the sheet."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from typing import Any

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pycore.contract.job import Corners, Finish, OverPair
from pycore.conventions import Side
from pycore.fold.facets import Facet, corners, flat_facets, on_sheet
from pycore.fold.kinds import Kind
from pycore.fold.polygons import area
from pycore.fold.spec import FoldSpec, is_over

Floats = npt.NDArray[np.float64]
Worked = Callable[..., FoldSpec]

CUT_BACK = {"corners": Corners.CUT_BACK}
D, R, S = 38.0, 25.0, 63.0


def sheet_area(spec: FoldSpec) -> float:
    """Derived: the rectangle less what is cut from its four corner squares of side s.

    Relieved: all but the d x d square at the face, and what a set-back's slant takes off the turn-over, from
    d tan e to s tan e wide. Trimmed: all but the tab, a trapezoid of long side d,
    short side d - 2 t and height t.
    """
    d, s, t = spec.depth_mm, spec.reach_mm, spec.tab_mm
    full = (spec.width_mm + 2 * s) * (spec.height_mm + 2 * s)
    if spec.finish is Finish.TRIMMED:
        return full - 4 * (s**2 - t * (d - t))
    return full if spec.whole else full - 4 * (s**2 - d**2) * (1 + np.tan(spec.setback_rad) / 2)


def same_polygon(got: Floats, expected: Floats) -> bool:
    """Equal but for the corner they start with."""
    return len(got) == len(expected) and any(
        np.abs(np.roll(got, step, axis=0) - expected).max() < 1e-9 for step in range(len(got))
    )


# Derived: face, 4 sides, 4 turn-overs; at each corner 2 gusset halves and 3 parts behind, or a tab.
@pytest.mark.parametrize(
    ("fields", "count"),
    [
        ({"finish": Finish.TUCKED}, 9 + 4 * 5),
        ({"finish": Finish.TUCKED, "setback_mm": 1}, 9 + 4 * 5),
        ({"finish": Finish.LAPPED}, 9 + 4 * 5),
        ({"finish": Finish.TUCKED} | CUT_BACK, 9 + 4 * 2),
        ({"finish": Finish.TUCKED, "setback_mm": 1} | CUT_BACK, 9 + 4 * 2),
        ({"finish": Finish.LAPPED} | CUT_BACK, 9 + 4 * 2),
        ({"finish": Finish.TRIMMED}, 9 + 4),
        ({"finish": Finish.LAPPED, "turnover_mm": 0}, 5 + 4 * 2),
        ({"finish": Finish.TRIMMED, "turnover_mm": 0}, 5 + 4),
    ],
)
@pytest.mark.parametrize("over", OverPair)
def test_number_of_facets(worked: Worked, fields: dict[str, Any], count: int, over: OverPair) -> None:
    facets = flat_facets(worked(over=over, **fields))
    assert len(facets) == count
    assert len({facet.name for facet in facets}) == count


# Derived: the facets of a corner square in its frame (p, q), for d 38, r 25, t 10.
WHOLE_CORNER = {
    Kind.GUSSET_UNDER: [(0, 0), (D, 0), (D, D)],
    Kind.GUSSET_OVER: [(0, 0), (D, D), (0, D)],
    Kind.BACK_MIDDLE: [(D, 0), (S, R), (S, S), (D, D)],
    Kind.BACK_UNDER: [(D, 0), (S, 0), (S, R)],
    Kind.BACK_OVER: [(0, D), (D, D), (S, S), (0, S)],
}
TAB = {Kind.TAB: [(0, 0), (D, 0), (D - 10, 10), (10, 10)]}


@pytest.mark.parametrize("over", OverPair)
@pytest.mark.parametrize(("finish", "shapes"), [(Finish.TUCKED, WHOLE_CORNER), (Finish.TRIMMED, TAB)])
def test_corner_square(
    worked: Worked, over: OverPair, finish: Finish, shapes: dict[Kind, list[tuple[float, float]]]
) -> None:
    spec = worked(over=over, finish=finish)
    found = [facet for facet in flat_facets(spec) if facet.kind in shapes]
    assert Counter(facet.kind for facet in found) == dict.fromkeys(shapes, 4)
    for facet in found:
        expected = on_sheet(facet.corner, np.array(shapes[facet.kind], float))
        assert same_polygon(facet.flat, expected), facet.name


def test_setback_turns_the_ridge_and_the_fold_edge_about_the_corner(worked: Worked) -> None:
    """Derived: d 38, set-back 1: tan e = 1 / 38, tan(45 deg + e) = 39 / 37.

    The over strips' ends lie on p = -q / 38.
    """
    spec = worked(setback_mm=1)
    by_name = {facet.name: facet for facet in flat_facets(spec)}
    rise = D * 39 / 37
    shapes = {
        "folded corner, under half": [(0, 0), (D, 0), (D, rise)],
        "folded corner, over half": [(0, 0), (D, rise), (-1, D)],
        "back folded corner, middle part": [(D, 0), (S, R), (S, S), (S * 37 / 39, S), (D, rise)],
        "back folded corner, over part": [(-1, D), (D, rise), (S * 37 / 39, S), (-S / D, S)],
    }
    for name, points in shapes.items():
        facet = by_name[f"top-right {name}"]
        assert same_polygon(facet.flat, on_sheet(facet.corner, np.array(points, float))), name
    top = by_name["top side"].flat
    assert same_polygon(top, np.array([(0, 300), (400, 300), (399, 338), (1, 338)], float))


def test_setback_of_cut_back_corners_stays_within_the_depth(worked: Worked) -> None:
    """Derived: the relief cuts at q = d, where the ridge ends: p = d / tan(45 deg + e) = 38 x 37 / 39."""
    by_name = {facet.name: facet for facet in flat_facets(worked(setback_mm=1, **CUT_BACK))}
    half = by_name["top-right folded corner, under half"]
    expected = np.array([(0, 0), (D, 0), (D, D), (D * 37 / 39, D)])
    assert same_polygon(half.flat, on_sheet(half.corner, expected))


# Derived: 526 x 426; less 4 (63^2 - 38^2), with a set-back x (1 + 1 / 76); less
# 4 (63^2 - 10 x 28).
@pytest.mark.parametrize(
    ("fields", "expected"),
    [
        ({}, 224076),
        ({"setback_mm": 1}, 224076),
        ({"finish": Finish.LAPPED}, 224076),
        (CUT_BACK, 213976),
        (CUT_BACK | {"setback_mm": 1}, 224076 - 10100 * 77 / 76),
        ({"finish": Finish.TRIMMED}, 209320),
    ],
)
def test_area_of_the_sheet(worked: Worked, fields: dict[str, Any], expected: float) -> None:
    spec = worked(**fields)
    assert sum(area(facet.flat) for facet in flat_facets(spec)) == pytest.approx(expected, abs=1e-6)
    assert sheet_area(spec) == pytest.approx(expected, abs=1e-6)


@pytest.mark.parametrize("over", OverPair)
def test_corner_frames_point_out_of_the_face(worked: Worked, over: OverPair) -> None:
    spec = worked(over=over)
    middle = np.array([spec.width_mm, spec.height_mm]) / 2
    frames = corners(spec)
    assert list(frames) == ["top-right", "top-left", "bottom-right", "bottom-left"]
    for corner in frames.values():
        outward = np.sign(corner.origin - middle)
        assert corner.axes.sum(axis=1) == pytest.approx(outward, abs=0)
        # q runs out of the over pair: up or down when that is top and bottom.
        assert abs(corner.axes[1 if over is OverPair.TOP_BOTTOM else 0, 1]) == 1
    assert [side for side in Side if is_over(side, spec.over)] == (
        [Side.TOP, Side.BOTTOM] if over is OverPair.TOP_BOTTOM else [Side.RIGHT, Side.LEFT]
    )


def edge_turns(facet: Facet) -> Floats:
    """Cross products of neighbouring edges, over the lengths: sines of the turns."""
    edges = np.roll(facet.flat, -1, axis=0) - facet.flat
    after = np.roll(edges, -1, axis=0)
    cross = edges[:, 0] * after[:, 1] - edges[:, 1] * after[:, 0]
    sines: Floats = cross / np.linalg.norm(edges, axis=1) / np.linalg.norm(after, axis=1)
    return sines


@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_facets_are_convex_and_counter_clockwise(
    specs: st.SearchStrategy[FoldSpec], data: st.DataObject
) -> None:
    for facet in flat_facets(data.draw(specs)):
        edges = np.linalg.norm(np.roll(facet.flat, -1, axis=0) - facet.flat, axis=1)
        # A strip between corners that just meet may have an end of no length.
        if edges.min() > 1e-6:
            assert edge_turns(facet).min() > -1e-9, facet.name
        assert area(facet.flat) > -1e-9, facet.name


@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_facets_make_up_the_sheet_without_overlap(
    specs: st.SearchStrategy[FoldSpec], data: st.DataObject
) -> None:
    """Equal areas and no point in two facets: nothing is missing and nothing is there twice."""
    spec = data.draw(specs)
    facets = flat_facets(spec)
    expected = sheet_area(spec)
    assert sum(area(facet.flat) for facet in facets) == pytest.approx(expected, rel=1e-12)
    full = (spec.width_mm + 2 * spec.reach_mm) * (spec.height_mm + 2 * spec.reach_mm)
    assert full - spec.cut_mm2 == pytest.approx(expected, rel=1e-12)
    share = np.random.default_rng(data.draw(st.integers(0, 2**16))).random((200, 2))
    points = share * [spec.width_mm + 2 * spec.reach_mm, spec.height_mm + 2 * spec.reach_mm] - spec.reach_mm
    holders = np.zeros(len(points), int)
    for facet in facets:
        start, end = facet.flat, np.roll(facet.flat, -1, axis=0)
        edge = end - start
        to_point = points[:, np.newaxis] - start
        cross = edge[:, 0] * to_point[:, :, 1] - edge[:, 1] * to_point[:, :, 0]
        holders += np.all(cross > 1e-9 * np.linalg.norm(edge, axis=1), axis=1)
    assert holders.max() <= 1
    if spec.whole:
        assert np.mean(holders) > 0.95


@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_swapping_the_pairs_and_the_sizes_transposes_the_sheet(
    specs: st.SearchStrategy[FoldSpec], data: st.DataObject, transposed: Callable[[FoldSpec], FoldSpec]
) -> None:
    spec = data.draw(specs)
    names = {"top": "right", "right": "top", "bottom": "left", "left": "bottom"}

    def swapped(name: str) -> str:
        if "-" in name.split()[0]:
            vertical, horizontal = name.split()[0].split("-")
            return f"{names[horizontal]}-{names[vertical]} {name.split(' ', 1)[1]}"
        return " ".join(names.get(word, word) for word in name.split())

    other = {facet.name: facet for facet in flat_facets(transposed(spec))}
    for facet in flat_facets(spec):
        mirrored = facet.flat[::-1, ::-1]
        twin = other[swapped(facet.name)]
        assert twin.kind is facet.kind
        assert same_polygon(mirrored, twin.flat), facet.name
