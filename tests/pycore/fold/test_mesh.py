"""The mesh: watertight, flat at the start, layers in order, texture on the creases."""

from __future__ import annotations

import dataclasses
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from pycore.fold.facets import flat_facets
from pycore.fold.kinds import Kind
from pycore.fold.layers import layer_ranks
from pycore.fold.mesh import FoldMesh, fold_mesh
from pycore.fold.motion import facet_maps
from pycore.fold.spec import FoldSpec, fold_spec
from pycore.fold.stages import stages_of

from ..worked import worked_job

#: The mesh holds single precision, the flat sheet double.
Points = NDArray[np.floating[Any]]

WRAPS: list[dict[str, Any]] = [
    {"finish": "tucked"},
    {"finish": "tucked", "setback_mm": 1},
    {"finish": "tucked", "corners": "cut-back"},
    {"finish": "lapped"},
    {"finish": "lapped", "corners": "cut-back"},
    {"finish": "trimmed"},
    {"finish": "trimmed", "tab_mm": 19},
    {"finish": "tucked", "turnover_mm": 0, "ink_over_mm": 0},
]
COLUMNS, ROWS = (0.0, 0.12, 0.88, 1.0), (0.0, 0.15, 0.85, 1.0)


def spec_of(wrap: dict[str, Any], **parts: Any) -> FoldSpec:
    return fold_spec(worked_job(wrap=wrap, **parts))


def mesh_of(spec: FoldSpec, frames: int = 4) -> FoldMesh:
    return fold_mesh(spec, columns=COLUMNS, rows=ROWS, frames_per_stage=frames)


@pytest.fixture(params=WRAPS, ids=lambda wrap: "-".join(str(value) for value in wrap.values()))
def spec(request: pytest.FixtureRequest) -> FoldSpec:
    return spec_of(request.param)


def triangle_areas(mesh: FoldMesh, points: Points) -> Points:
    a, b, c = (points[mesh.triangles[:, k]] for k in range(3))
    if points.shape[1] == 2:
        areas: Points = ((b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0]) / 2
    else:
        areas = np.linalg.norm(np.cross(b - a, c - a), axis=1) / 2
    return areas


def test_starts_as_the_flat_sheet(spec: FoldSpec) -> None:
    mesh = mesh_of(spec)
    # float32 at 500 mm resolves 3e-5 mm.
    assert np.abs(mesh.positions[0][:, :2] - mesh.flat_mm).max() <= 3e-5
    assert np.all(mesh.positions[0][:, 2] == 0)


def test_triangles_cover_the_sheet_once_and_face_the_print_side(spec: FoldSpec) -> None:
    mesh = mesh_of(spec)
    areas = triangle_areas(mesh, mesh.flat_mm)
    assert np.all(areas > 0)
    s = spec.reach_mm
    whole = (spec.width_mm + 2 * s) * (spec.height_mm + 2 * s)
    # Derived: cut-back sheets lose s^2 - d^2 at each corner, trimmed ones s^2 - t (d - t).
    if spec.finish.value == "trimmed":
        whole -= 4 * (s * s - spec.tab_mm * (spec.depth_mm - spec.tab_mm))
    elif not spec.whole:
        whole -= 4 * (s * s - spec.depth_mm**2)
    assert areas.sum() == pytest.approx(whole, abs=1e-6)


def test_no_crack_opens_in_any_frame(spec: FoldSpec) -> None:
    mesh = mesh_of(spec)
    places: dict[tuple[float, float], list[int]] = {}
    for vertex, point in enumerate(mesh.flat_mm):
        places.setdefault((round(point[0], 5), round(point[1], 5)), []).append(vertex)
    shared = [group for group in places.values() if len(group) > 1]
    assert len(shared) >= 16
    for group in shared:
        gap = np.ptp(mesh.positions[:, group], axis=1).max()
        assert gap <= 1e-4, mesh.flat_mm[group[0]]


@pytest.mark.parametrize("face", [(240, 180), (900, 600), (3000, 100)])
def test_no_triangle_is_turned_over_once_folded(spec: FoldSpec, face: tuple[float, float]) -> None:
    """A triangle that is turned over lies on its neighbours, and shows its dark side through the picture."""
    sized = dataclasses.replace(spec, width_mm=face[0], height_mm=face[1])
    mesh = mesh_of(sized, frames=1)
    corners = mesh.positions[-1].astype(float)[mesh.triangles]
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    of_facet = mesh.facet[mesh.triangles[:, 0]]
    for facet in range(len(mesh.names)):
        own = normals[of_facet == facet]
        assert np.all(own @ own.sum(axis=0) > 0), mesh.names[facet]


def test_nothing_stretches_more_on_its_way_than_once_folded(spec: FoldSpec) -> None:
    """Layers move a point by their thickness alone, which is greatest when all of them lie on the back."""
    mesh = mesh_of(spec, frames=16)
    ends, beside = mesh.triangles, np.roll(mesh.triangles, 1, axis=1)
    lengths = np.linalg.norm(mesh.positions[:, ends] - mesh.positions[:, beside], axis=-1)
    flat = np.linalg.norm(mesh.flat_mm[ends] - mesh.flat_mm[beside], axis=-1)
    changes = np.abs(lengths - flat).max(axis=(1, 2))
    assert changes.max() <= changes[-1] + 0.05 * spec.thickness_mm, mesh.at[changes.argmax()]


@pytest.mark.parametrize("finish", ["tucked", "lapped"])
def test_only_the_last_stage_brings_the_layers_of_the_back(finish: str) -> None:
    """Derived: when it begins three layers lie on the side, so the highest stands 2.5 thicknesses off it.

    The tolerance is what shared points are held back while planes nearly coincide.
    """
    spec = spec_of({"finish": finish})
    mesh = mesh_of(spec, frames=1)
    begins = np.array([stages_of(spec)[-1].start])
    maps = facet_maps(spec, flat_facets(spec), begins)
    flat = np.column_stack([mesh.flat_mm, np.zeros(len(mesh.flat_mm))])
    rigid = np.array(
        [maps[facet].apply(point[np.newaxis])[0, 0] for facet, point in zip(mesh.facet, flat, strict=True)]
    )
    frame = int(np.flatnonzero(mesh.at < begins[0] + 1e-9)[-1])
    off = np.abs(mesh.positions[frame] - rigid).max()
    assert off == pytest.approx(2.5 * spec.thickness_mm, abs=0.1 * spec.thickness_mm)


def test_neighbours_have_the_same_points_on_their_crease(spec: FoldSpec) -> None:
    """A vertex in the middle of a neighbour's edge would open a crack as soon as the edge bends there."""
    mesh = mesh_of(spec)
    edges: dict[tuple[tuple[float, ...], ...], int] = {}
    for triangle in mesh.triangles:
        corners = [tuple(np.round(mesh.flat_mm[index], 5).tolist()) for index in triangle]
        for start, end in zip(corners, corners[1:] + corners[:1], strict=True):
            edges[(start, end)] = edges.get((start, end), 0) + 1
    assert all(count == 1 for count in edges.values())
    rim = sum(
        float(np.hypot(end[0] - start[0], end[1] - start[1]))
        for (start, end) in edges
        if (end, start) not in edges
    )
    # Derived: the edges without a partner are the sheet's outline and nothing else.
    s, d, t, r = spec.reach_mm, spec.depth_mm, spec.tab_mm, spec.turnover_mm
    outline = 2 * (spec.width_mm + spec.height_mm + 4 * s)
    if spec.finish.value == "trimmed":
        tab = 2 * t * np.sqrt(2) + (d - 2 * t)
        outline += 4 * (tab + s + r - 2 * s)
    elif not spec.whole:
        outline += 4 * (2 * r + 2 * d - 2 * s)
    assert rim == pytest.approx(outline, abs=1e-3)


def test_stands_off_the_plane_by_half_its_thickness(spec: FoldSpec) -> None:
    """Derived: the canvas's middle is half a thickness out from the bars; the mitre at the edge, too."""
    folded = mesh_of(spec).positions[-1]
    half = spec.thickness_mm / 2
    assert folded[:, 0].min() == pytest.approx(-half, abs=1e-4)
    assert folded[:, 0].max() == pytest.approx(spec.width_mm + half, abs=1e-4)
    assert folded[:, 2].max() == pytest.approx(half, abs=1e-4)
    most = max(layer_ranks(spec)[Kind.OVER_SIDE], 1) - 0.5
    if spec.finish.value == "lapped":
        most = 2.5
    assert folded[:, 1].max() <= spec.height_mm + most * spec.thickness_mm + 1e-4


def at_points(mesh: FoldMesh, spec: FoldSpec, kind: Kind, points: Points) -> dict[int, float]:
    """Height above its plane of the top-right facet of a kind, at outside points (a, b) that it covers."""
    facets = flat_facets(spec)
    index = next(
        k for k, facet in enumerate(facets) if facet.kind is kind and facet.corner.name == "top-right"
    )
    rigid = facet_maps(spec, facets, np.ones(1))[index]
    axis = 1 if kind in (Kind.OVER_SIDE, Kind.GUSSET_UNDER, Kind.GUSSET_OVER) else 2
    found: dict[int, float] = {}
    for number, point in enumerate(points):
        flat = (rigid.turn[0].T @ (point - rigid.shift[0]))[:2]
        for triangle in mesh.triangles[mesh.facet[mesh.triangles[:, 0]] == index]:
            corners = mesh.flat_mm[triangle]
            weights = np.linalg.solve(np.vstack([corners.T, np.ones(3)]), np.array([*flat, 1.0]))
            if np.all(weights > 1e-6):
                height = weights @ mesh.positions[-1][triangle, axis].astype(float)
                base = spec.height_mm if axis == 1 else -spec.depth_mm
                found[number] = (height - base) * (1 if axis == 1 else -1)
                break
    return found


@pytest.mark.parametrize("wrap", [wrap for wrap in WRAPS if wrap["finish"] != "trimmed"][:5])
def test_layers_keep_their_order_over_the_gusset(wrap: dict[str, Any]) -> None:
    spec = spec_of(wrap)
    mesh = mesh_of(spec)
    rng = np.random.default_rng(7)
    depth = rng.uniform(2, spec.depth_mm - 2, 40)
    away = depth * rng.uniform(0.1, 0.9, 40)
    points = np.column_stack([spec.width_mm - away, np.full(40, spec.height_mm), -depth])
    kinds = sorted(
        (Kind.OVER_SIDE, Kind.GUSSET_UNDER, Kind.GUSSET_OVER), key=lambda kind: layer_ranks(spec)[kind]
    )
    heights = [at_points(mesh, spec, kind, points) for kind in kinds]
    both = set(heights[0]) & set(heights[1]) & set(heights[2])
    assert len(both) >= 20
    for number in both:
        low, middle, high = (one[number] for one in heights)
        assert low < middle < high, points[number]


def test_texture_runs_from_edge_to_edge_and_turns_at_the_edge(spec: FoldSpec) -> None:
    mesh = mesh_of(spec)
    for flat, fraction in ((-spec.reach_mm, 0.0), (0.0, 0.12), (spec.width_mm, 0.88)):
        at = np.abs(mesh.flat_mm[:, 0] - flat) < 1e-6
        assert at.any()
        assert mesh.uv[at, 0] == pytest.approx(fraction, abs=1e-7)
    # Rows run from the top, y from the bottom.
    top = np.abs(mesh.flat_mm[:, 1] - spec.height_mm) < 1e-6
    assert mesh.uv[top, 1] == pytest.approx(0.15, abs=1e-7)


def test_frames_hit_every_stage_boundary(spec: FoldSpec) -> None:
    mesh = mesh_of(spec, frames=3)
    assert np.all(np.diff(mesh.at) > 0)
    assert (mesh.at[0], mesh.at[-1]) == (0, 1)
    for stage in stages_of(spec):
        if not stage.hidden:
            assert np.abs(mesh.at - stage.start).min() < 1e-12


def test_a_hidden_stage_is_a_cut() -> None:
    spec = spec_of({"finish": "lapped"})
    mesh = mesh_of(spec, frames=4)
    within = np.flatnonzero(mesh.at > 0.75 + 1e-9)
    # Derived: the stage runs from 0.75 to 1; until its middle 0.875 nothing moves, then all is laid.
    assert np.abs(mesh.positions[within[0]] - mesh.positions[within[0] - 1]).max() < 1e-3
    assert np.abs(mesh.positions[within[1]] - mesh.positions[-1]).max() < 1e-3
    assert np.abs(mesh.positions[within[1]] - mesh.positions[within[0]]).max() > 10


def test_outlines_name_creases_first(spec: FoldSpec) -> None:
    mesh = mesh_of(spec)
    start, end = mesh.flat_mm[mesh.outlines[:, 0]], mesh.flat_mm[mesh.outlines[:, 1]]
    s = spec.reach_mm
    on_rim = np.zeros(len(start), bool)
    for axis, size in ((0, spec.width_mm), (1, spec.height_mm)):
        for edge in (-s, size + s):
            on_rim |= (np.abs(start[:, axis] - edge) < 1e-6) & (np.abs(end[:, axis] - edge) < 1e-6)
    assert not on_rim[: mesh.crease_count].any()
    assert on_rim[mesh.crease_count :].any()


@settings(max_examples=25)
@given(
    st.sampled_from(WRAPS),
    st.sampled_from(["top-bottom", "left-right"]),
    st.floats(8, 60),
    st.floats(0, 2),
    st.floats(140, 900),
    st.floats(140, 900),
)
def test_any_size_makes_a_closed_mesh(
    wrap: dict[str, Any], over: str, depth: float, thickness: float, width: float, height: float
) -> None:
    turnover = wrap.get("turnover_mm", min(25.0, depth))
    full = {**wrap, "over": over, "turnover_mm": turnover, "tab_mm": min(10.0, depth / 2)}
    full["ink_over_mm"] = 0
    reach = depth + turnover
    sizes = {"width_mm": max(width, 2.02 * reach), "height_mm": max(height, 2.02 * reach)}
    spec = spec_of(full, face=sizes, bars={"depth_mm": depth}, canvas={"thickness_mm": thickness})
    mesh = mesh_of(spec, frames=2)
    assert np.isfinite(mesh.positions).all()
    assert np.all(triangle_areas(mesh, mesh.flat_mm) > 0)
    # Thickness moves a vertex by a few layers at most, so no triangle can grow by more than that.
    edges = mesh.positions[-1][mesh.triangles] - mesh.positions[-1][np.roll(mesh.triangles, 1, axis=1)]
    flat = mesh.flat_mm[mesh.triangles] - mesh.flat_mm[np.roll(mesh.triangles, 1, axis=1)]
    grown = np.linalg.norm(edges, axis=-1) - np.linalg.norm(flat, axis=-1)
    assert np.abs(grown).max() <= 10 * thickness + 1e-3
