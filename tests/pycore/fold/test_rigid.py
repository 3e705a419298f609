"""Rigid maps: what they keep and what they take where."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from pycore.fold.rigid import E1, E2, E3, ORIGIN, Rigid, about, from_rays

Floats = npt.NDArray[np.float64]

ANGLES = st.floats(-2 * np.pi, 2 * np.pi)
POINTS = st.tuples(*[st.floats(-500, 500)] * 3).map(np.array)
UNITS = (
    st.tuples(*[st.floats(-1, 1)] * 3)
    .map(np.array)
    .filter(lambda vector: np.linalg.norm(vector) > 0.1)
    .map(lambda vector: vector / np.linalg.norm(vector))
)


def assert_rotation(turn: Floats) -> None:
    assert turn @ turn.T == pytest.approx(np.eye(3), abs=1e-12)
    assert np.linalg.det(turn) == pytest.approx(1, abs=1e-12)


@pytest.mark.parametrize(
    ("axis", "start", "end"), [(E1, E2, E3), (E2, E3, E1), (E3, E1, E2)], ids=["e1", "e2", "e3"]
)
def test_a_quarter_turn_is_right_handed(axis: Floats, start: Floats, end: Floats) -> None:
    """Derived: about e1 it takes e2 to e3, and so on in a ring."""
    assert about(axis, ORIGIN, np.array([np.pi / 2])).direct(start)[0] == pytest.approx(end, abs=1e-15)


def test_many_angles_and_points_at_once() -> None:
    """Derived: about the line x = 10, z = 0 by 0, 90 and 180 degrees; e2 takes +z to +x and +x to -z."""
    mapped = about(E2, 10 * E1, np.array([0, np.pi / 2, np.pi])).apply(np.array([[13.0, 7, 0], [10, -5, 2]]))
    assert mapped.shape == (3, 2, 3)
    assert mapped[0] == pytest.approx(np.array([[13, 7, 0], [10, -5, 2]]), abs=1e-12)
    assert mapped[1] == pytest.approx(np.array([[10, 7, -3], [12, -5, 0]]), abs=1e-12)
    assert mapped[2] == pytest.approx(np.array([[7, 7, 0], [10, -5, -2]]), abs=1e-12)


@settings(max_examples=40, deadline=None)
@given(axis=UNITS, point=POINTS, angle=ANGLES, along=st.floats(-100, 100))
def test_turning_keeps_the_axis_and_lengths(axis: Floats, point: Floats, angle: float, along: float) -> None:
    rigid = about(axis, point, np.array([angle]))
    assert_rotation(rigid.turn[0])
    on_axis = point + along * axis
    assert rigid.apply(on_axis[np.newaxis])[0, 0] == pytest.approx(on_axis, abs=1e-9)
    # Published, Rodrigues: the trace of a rotation by a is 1 + 2 cos a.
    assert np.trace(rigid.turn[0]) == pytest.approx(1 + 2 * np.cos(angle), abs=1e-12)


@settings(max_examples=40, deadline=None)
@given(first=UNITS, second=UNITS, centre=POINTS, point=POINTS, angles=st.tuples(ANGLES, ANGLES))
def test_one_after_another_is_one_map(
    first: Floats, second: Floats, centre: Floats, point: Floats, angles: tuple[float, float]
) -> None:
    one = about(first, centre, np.array([angles[0]]))
    two = about(second, -centre, np.array([angles[1]]))
    stepwise = two.apply(one.apply(point[np.newaxis])[0])[0, 0]
    assert two.after(one).apply(point[np.newaxis])[0, 0] == pytest.approx(stepwise, abs=1e-9)
    assert two.after(one).direct(E1)[0] == pytest.approx(two.turn[0] @ one.turn[0] @ E1, abs=1e-12)


@settings(max_examples=40, deadline=None)
@given(axis=UNITS, centre=POINTS, vertex=POINTS, angle=ANGLES, sector=st.floats(0.1, 3.0), spin=UNITS)
def test_rays_find_back_the_map_that_moved_them(
    axis: Floats, centre: Floats, vertex: Floats, angle: float, sector: float, spin: Floats
) -> None:
    first = spin
    upright = np.cross(first, E1 if abs(first[0]) < 0.7 else E2)
    upright = upright / np.linalg.norm(upright)
    second = np.cos(sector) * first + np.sin(sector) * upright
    made = about(axis, centre, np.array([angle]))
    found = from_rays(
        vertex,
        (first, second),
        made.apply(vertex[np.newaxis])[:, 0],
        (made.direct(first), made.direct(second)),
    )
    assert_rotation(found.turn[0])
    assert found.turn[0] == pytest.approx(made.turn[0], abs=1e-11)
    assert found.shift[0] == pytest.approx(made.shift[0], abs=1e-7)


@settings(max_examples=40, deadline=None)
@given(first=UNITS, second=UNITS)
def test_swapped_images_turn_the_sheet_over(first: Floats, second: Floats) -> None:
    """The test above can fail: images given in the wrong order flip the normal."""
    normal: Floats = np.cross(first, second).astype(np.float64)
    assume(np.linalg.norm(normal) > 0.1)
    place = np.zeros((1, 3))
    rays = (first, second)
    kept = from_rays(ORIGIN, rays, place, (first[np.newaxis], second[np.newaxis]))
    swapped = from_rays(ORIGIN, rays, place, (second[np.newaxis], first[np.newaxis]))
    assert kept.direct(normal)[0] == pytest.approx(normal, abs=1e-12)
    assert swapped.direct(normal)[0] == pytest.approx(-normal, abs=1e-12)
    assert isinstance(swapped, Rigid)
