"""Areas, points inside, and splitting by a line."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pycore.fold.polygons import NEAR_MM, area, inside, split

Floats = npt.NDArray[np.float64]

SQUARE = np.array([[0, 0], [4, 0], [4, 4], [0, 4]], float)


@st.composite
def convex(draw: st.DrawFn) -> Floats:
    """A polygon inscribed in an ellipse, counter-clockwise."""
    count = draw(st.integers(3, 7))
    steps = np.cumsum([draw(st.floats(0.2, 1)) for _ in range(count)])
    angles = 2 * np.pi * steps / steps[-1]
    centre = np.array([draw(st.floats(-300, 300)), draw(st.floats(-300, 300))])
    radii = np.array([draw(st.floats(1, 200)), draw(st.floats(1, 200))])
    outline: Floats = centre + radii * np.column_stack([np.cos(angles), np.sin(angles)])
    return outline


def test_area_of_known_shapes() -> None:
    # Derived: 4 x 4; the triangle (0, 0), (38, 0), (38, 38) is 38^2 / 2; clockwise counts negative.
    assert area(SQUARE) == 16
    assert area(np.array([[0, 0], [38, 0], [38, 38]], float)) == 722
    assert area(SQUARE[::-1]) == -16


@settings(max_examples=40, deadline=None)
@given(outline=convex(), shift=st.tuples(st.floats(-1000, 1000), st.floats(-1000, 1000)))
def test_area_does_not_depend_on_place_or_start(outline: Floats, shift: tuple[float, float]) -> None:
    assert area(outline + shift) == pytest.approx(area(outline), abs=1e-7)
    assert area(np.roll(outline, 2, axis=0)) == pytest.approx(area(outline), abs=1e-7)
    assert area(outline) > 0


@pytest.mark.parametrize(
    ("point", "within"),
    [
        ((2, 2), True),
        ((0, 0), True),
        ((4, 1), True),
        ((4 + NEAR_MM / 2, 1), True),
        ((4 + 2 * NEAR_MM, 1), False),
        ((2, -0.001), False),
        ((9, 2), False),
    ],
)
def test_inside_takes_in_the_edge_and_its_margin(point: tuple[float, float], within: bool) -> None:
    assert inside(SQUARE, np.array(point)) is within


def test_inside_margin_is_in_mm_however_long_the_edge() -> None:
    """Derived: 0.4 mm off the edge of squares 4 and 4000 mm wide: in with a margin of 0.5, out with 0.3."""
    for scale in (1, 1000):
        point = np.array([4 * scale + 0.4, scale])
        assert inside(SQUARE * scale, point, margin_mm=0.5)
        assert not inside(SQUARE * scale, point, margin_mm=0.3)
    assert not inside(SQUARE, np.array([3.9, 1]), margin_mm=-0.2)


@settings(max_examples=40, deadline=None)
@given(outline=convex(), weights=st.lists(st.floats(0.01, 1), min_size=7, max_size=7))
def test_inside_holds_every_mixture_of_corners_and_no_point_past_one(
    outline: Floats, weights: list[float]
) -> None:
    share = np.array(weights[: len(outline)])
    middle = share @ outline / share.sum()
    assert inside(outline, middle)
    for corner in outline:
        assert not inside(outline, middle + 1.01 * (corner - middle))


def test_split_gives_the_two_parts() -> None:
    """Derived: the square cut at x = 1 leaves 3 x 4 on the normal's side and 1 x 4 behind."""
    above, below = split(SQUARE, np.array([1.0, 0]), np.array([1.0, 0]))
    assert area(above) == pytest.approx(12, abs=1e-12)
    assert area(below) == pytest.approx(4, abs=1e-12)
    assert above[:, 0].min() == 1
    assert below[:, 0].max() == 1


def test_split_through_corners_repeats_no_point() -> None:
    """Derived: the diagonal of the square leaves two triangles of 8."""
    parts = split(SQUARE, np.zeros(2), np.array([1, -1]) / np.sqrt(2))
    assert [len(part) for part in parts] == [3, 3]
    assert [area(part) for part in parts] == pytest.approx([8, 8], abs=1e-12)


@pytest.mark.parametrize("x", [-1.0, 0.0, NEAR_MM / 2, 4.0, 5.0])
def test_split_leaves_a_polygon_that_the_line_misses_or_touches(x: float) -> None:
    parts = split(SQUARE, np.array([x, 0]), np.array([1.0, 0]))
    assert len(parts) == 1
    assert parts[0] == pytest.approx(SQUARE, abs=0)


@settings(max_examples=40, deadline=None)
@given(outline=convex(), x=st.floats(-500, 500), y=st.floats(-500, 500), angle=st.floats(0, 2 * np.pi))
def test_split_parts_fill_the_polygon_each_on_its_side(
    outline: Floats, x: float, y: float, angle: float
) -> None:
    before = outline.copy()
    through, normal = np.array([x, y]), np.array([np.cos(angle), np.sin(angle)])
    parts = split(outline, through, normal)
    assert np.array_equal(outline, before)
    assert sum(area(part) for part in parts) == pytest.approx(area(outline), abs=1e-3)
    if len(parts) == 2:
        assert ((parts[0] - through) @ normal).min() > -2 * NEAR_MM
        assert ((parts[1] - through) @ normal).max() < 2 * NEAR_MM
        assert all(area(part) > 0 for part in parts)
