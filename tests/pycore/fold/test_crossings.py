"""No facet goes through the bar or through another facet on the way: `motion` and `stages` together."""

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
from pycore.fold.kinds import Kind
from pycore.fold.spec import FoldSpec
from pycore.fold.stages import Angles, angles_at, stages_of

#: tests/parity finds these numbers to be the same inside Pyodide.
pytestmark = pytest.mark.once

Floats = npt.NDArray[np.float64]
Fold = Callable[..., Any]
Worked = Callable[..., FoldSpec]
Specs = st.SearchStrategy[FoldSpec]

TUCKED, LAPPED, TRIMMED = Finish.TUCKED, Finish.LAPPED, Finish.TRIMMED
CUT_BACK = {"corners": Corners.CUT_BACK}

#: Nearer than this, in mm, is touching.
TOUCH_MM = 1e-6
#: A crossing shorter than this, in mm, is none: its ends are found to about 1e-12 / TOUCH_MM of an edge.
SHORT_MM = 1e-3


def polygons(folded: Any, moment: int) -> Floats:
    """All facets at one moment, (n, 5, 3), the last corner repeated where there are fewer."""
    padded = [np.pad(f.flat, ((0, 5 - len(f.flat)), (0, 0)), mode="edge") for f in folded.facets]
    return np.array([folded.place(index, flat)[moment] for index, flat in enumerate(padded)])


def chord(polygon: Floats, height: Floats, line: Floats) -> tuple[float, float]:
    """Where a convex polygon meets a plane that it straddles, as an interval along their common line."""
    after, beyond = np.roll(polygon, -1, axis=0), np.roll(height, -1)
    points = [
        a + (b - a) * (here / (here - there))
        for a, b, here, there in zip(polygon, after, height, beyond, strict=True)
        if here * there < 0
    ]
    points += list(polygon[height == 0])
    places = np.array(points) @ line
    return float(places.min()), float(places.max())


def crossings(folded: Any, moment: int) -> set[frozenset[Kind]]:
    """The kinds of facets that go through one another properly.

    Two facets do when each has corners on both sides of the other's plane and their chords on the planes'
    common line overlap. Facets that touch, share a crease or lie in one plane do not; for the last, the
    layers' order is checked by itself.
    """
    corners = polygons(folded, moment)
    normals = np.array([rigid.turn[moment, :, 2] for rigid in folded.maps])
    offsets = np.einsum("ik,ik->i", normals, corners[:, 0])
    heights = np.einsum("ijk,mk->imj", corners, normals) - offsets[np.newaxis, :, np.newaxis]
    straddles = (heights.min(axis=2) < -TOUCH_MM) & (heights.max(axis=2) > TOUCH_MM)
    low, high = corners.min(axis=1), corners.max(axis=1)
    near = np.all(low[:, np.newaxis] < high + TOUCH_MM, axis=2)
    found = set()
    for one, other in np.argwhere(straddles & straddles.T & near & near.T):
        if one > other:
            continue
        line = np.cross(normals[one], normals[other])
        line = line / np.linalg.norm(line)
        first = chord(corners[one], heights[one, other], line)
        second = chord(corners[other], heights[other, one], line)
        if min(first[1], second[1]) - max(first[0], second[0]) > SHORT_MM:
            found.add(frozenset((folded.facets[one].kind, folded.facets[other].kind)))
    return found


def enters_bar(folded: Any, moment: int) -> set[Kind]:
    """The kinds of facets with any point in the open box of the bars: what is left when it clips them."""
    spec = folded.spec
    low = np.array([0, 0, -spec.depth_mm]) + TOUCH_MM
    high = np.array([spec.width_mm, spec.height_mm, 0]) - TOUCH_MM
    found = set()
    for facet, polygon in zip(folded.facets, polygons(folded, moment), strict=True):
        left = polygon[: len(facet.flat)]
        # Most lie wholly on the far side of one of the box's planes.
        if (left.max(axis=0) <= low).any() or (left.min(axis=0) >= high).any():
            continue
        for axis in range(3):
            for bound, way in ((low[axis], 1), (high[axis], -1)):
                height = (left[:, axis] - bound) * way
                kept = []
                for a, b, here, there in zip(
                    left, np.roll(left, -1, axis=0), height, np.roll(height, -1), strict=True
                ):
                    if here > 0:
                        kept.append(a)
                    if here * there < 0:
                        kept.append(a + (b - a) * (here / (here - there)))
                left = np.array(kept).reshape(-1, 3)
                if not len(left):
                    break
            if not len(left):
                break
        if len(left):
            found.add(facet.kind)
    return found


def inside_stages(spec: FoldSpec, shares: list[float]) -> list[float]:
    """One moment in each stage."""
    stages = stages_of(spec)
    return [
        stage.start + share * (stage.end - stage.start)
        for stage, share in zip(stages, shares[: len(stages)], strict=True)
    ]


SHARES = st.lists(st.floats(0.001, 0.999), min_size=5, max_size=5)
#: Derived: whole lapped corners have no rigid way to lay their turn-overs; these pairs go through each other.
THROUGH = {
    frozenset((Kind.UNDER_TURNOVER, Kind.OVER_TURNOVER)),
    frozenset((Kind.UNDER_TURNOVER, Kind.BACK_OVER)),
}


@settings(max_examples=40, deadline=None)
@given(data=st.data(), shares=SHARES)
def test_facets_do_not_go_through_one_another(
    specs: Specs, fold: Fold, data: st.DataObject, shares: list[float]
) -> None:
    spec = data.draw(specs)
    moments = inside_stages(spec, shares)
    folded = fold(spec, 0.0, *moments, 1.0)
    for moment in range(len(moments) + 2):
        hidden = 0 < moment <= len(moments) and stages_of(spec)[moment - 1].hidden
        found = crossings(folded, moment)
        assert found <= (THROUGH if hidden else set()), (moment, found)


@settings(max_examples=40, deadline=None)
@given(data=st.data(), shares=SHARES)
def test_nothing_enters_the_bar(specs: Specs, fold: Fold, data: st.DataObject, shares: list[float]) -> None:
    spec = data.draw(specs)
    moments = inside_stages(spec, shares)
    folded = fold(spec, 0.0, *moments, 1.0)
    for moment in range(len(moments) + 2):
        assert enters_bar(folded, moment) == set(), moment


@pytest.mark.parametrize("share", [0.1, 0.5, 0.9])
@pytest.mark.parametrize("size", [{}, {"turnover_mm": 50}, {"depth_mm": 60, "turnover_mm": 12}])
def test_hidden_stage_is_hidden_for_a_reason(
    worked: Worked, fold: Fold, share: float, size: dict[str, Any]
) -> None:
    """Derived: in it exactly these pairs cross; so it is not declared in vain, and the check finds them."""
    spec = worked(finish=LAPPED, **size)
    last = stages_of(spec)[-1]
    assert last.hidden
    assert crossings(fold(spec, last.start + share * (last.end - last.start)), 0) == THROUGH


def changed(**factors: float) -> Callable[[FoldSpec, Floats], Angles]:
    """The true angles, some of them multiplied."""

    def angles(spec: FoldSpec, at: Floats) -> Angles:
        right = angles_at(spec, at)
        return dataclasses.replace(
            right, **{field: getattr(right, field) * factor for field, factor in factors.items()}
        )

    return angles


@pytest.mark.parametrize(
    ("fields", "factors", "entering"),
    [
        # Turn-overs bent the wrong way stand off the bar; sides turned too far cut into it.
        ({"finish": TRIMMED}, {"under": 1.05}, Kind.UNDER_SIDE),
        ({"finish": TRIMMED}, {"over_back": 1.05}, Kind.OVER_TURNOVER),
        # Lapped the gusset has to open outwards; inwards it goes through the bar.
        ({"finish": LAPPED} | CUT_BACK, {"gusset": -1.0}, Kind.GUSSET_OVER),
    ],
)
def test_a_wrong_angle_enters_the_bar(
    worked: Worked,
    fold: Fold,
    monkeypatch: pytest.MonkeyPatch,
    fields: dict[str, Any],
    factors: dict[str, float],
    entering: Kind,
) -> None:
    """Negative control of the check against the bar."""
    moments = np.linspace(0.02, 1, 50)
    assert not any(enters_bar(fold(worked(**fields), *moments), moment) for moment in range(50))
    monkeypatch.setattr("pycore.fold.motion.angles_at", changed(**factors))
    folded = fold(worked(**fields), *moments)
    assert entering in set().union(*(enters_bar(folded, moment) for moment in range(50)))


def test_a_wrong_order_crosses(worked: Worked, fold: Fold, monkeypatch: pytest.MonkeyPatch) -> None:
    """Negative control of the check between facets.

    Derived: turn-overs of trimmed corners that go in step meet on the corner's bisector, half way through
    one another.
    """
    spec = worked(finish=TRIMMED)
    moments = np.linspace(0.41, 0.59, 10)
    assert not any(crossings(fold(spec, *moments), moment) for moment in range(10))

    def in_step(spec: FoldSpec, at: Floats) -> Angles:
        right = angles_at(spec, at)
        return dataclasses.replace(right, over=right.under, over_back=right.under_back)

    monkeypatch.setattr("pycore.fold.motion.angles_at", in_step)
    folded = fold(spec, *moments)
    backs = {frozenset((Kind.UNDER_TURNOVER, Kind.OVER_TURNOVER))}
    assert all(crossings(folded, moment) == backs for moment in range(10))


def test_crossing_check_tells_through_from_touching() -> None:
    """Derived: a square stood through another's middle crosses; on its edge, beside it or flat on it not."""

    @dataclasses.dataclass
    class Sheet:
        flat: Floats
        kind: Kind

    @dataclasses.dataclass
    class Turned:
        turn: Floats

    @dataclasses.dataclass
    class Pair:
        facets: list[Sheet]
        maps: list[Turned]
        shift: Floats

        def place(self, index: int, flat: Floats) -> Floats:
            points = np.column_stack([flat, np.zeros(len(flat))]) @ self.maps[index].turn[0].T
            placed: Floats = (points + index * self.shift)[np.newaxis]
            return placed

    square = np.array([[0, 0], [4, 0], [4, 4], [0, 4]], float)
    upright = np.array([[[1, 0, 0], [0, 0, -1], [0, 1, 0]]], float)
    flat = np.eye(3)[np.newaxis]

    def crosses(turn: Floats, shift: tuple[float, float, float]) -> bool:
        sheets = [Sheet(square, Kind.FACE), Sheet(square, Kind.TAB)]
        return bool(crossings(Pair(sheets, [Turned(flat), Turned(turn)], np.array(shift)), 0))

    assert crosses(upright, (0, 2, -1))
    assert crosses(upright, (3.9, 2, -1))
    assert not crosses(upright, (0, 2, 0))
    assert not crosses(upright, (0, 0, -1))
    assert not crosses(upright, (4, 2, -1))
    assert not crosses(upright, (5, 2, -1))
    assert not crosses(flat, (1, 1, 0))
    assert not crosses(flat, (1, 1, 0.5))
