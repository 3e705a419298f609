"""Corners and references that cannot be, each with its sentence."""

from __future__ import annotations

import pytest

from pycore.errors import FieldError
from pycore.wall.corners import check_corners
from pycore.wall.reference import Corners, reference_sizes


@pytest.mark.parametrize(
    ("corners", "said"),
    [
        (((10, 10), (90, 90), (90, 10), (10, 90)), "edges that cross"),
        (((10, 10), (50, 10), (90, 10), (50, 90)), "three corners in one line"),
        # Derived: the middle one stands 0.3 pixels off a line of 80, under a hundredth.
        (((10, 10), (50, 9.7), (90, 10), (50, 90)), r"three corners in one line \(upper right"),
        (((10, 10), (90, 10), (90, 11), (10, 90)), "upper right and lower right in one place"),
        (((10, 50), (90, 50), (90, 53.5), (10, 53.5)), "seen edge-on"),
        (((10, 10), (10, 90), (90, 90), (90, 10)), "corners in another order"),
        (((10, 10), (190, 10), (190, 90), (10, 90)), "upper right at 190,10"),
        (((10, 10), (90, 10), (30, 30), (10, 90)), "one lies inside the others"),
    ],
)
def test_what_is_no_rectangle_is_named(corners: Corners, said: str) -> None:
    with pytest.raises(FieldError, match=said) as wrong:
        check_corners(corners, width_px=100, height_px=100)
    assert wrong.value.field == "corners"


@pytest.mark.parametrize("size", ["0x297", "a3", "210", "210x0", "99999x10"])
def test_a_reference_of_no_size_is_refused(size: str) -> None:
    with pytest.raises(FieldError) as wrong:
        reference_sizes(size)
    assert wrong.value.field == "reference"
