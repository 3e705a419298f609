"""The window on the picture: shape, shares, pixels per inch."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pycore.errors import FieldError
from pycore.layout.window import picture_window

from ..worked import worked_job


def window(width_px: int, height_px: int, **parts: Any) -> Any:
    return picture_window(worked_job(**parts), width_px=width_px, height_px=height_px)


THIN: dict[str, Any] = {"thickness_mm": 0}


def test_same_shape_takes_the_whole_picture() -> None:
    """Derived: 4 : 3 on 400 x 300 with no take-up: nothing is cut; 4000 / (400 / 25.4) = 254 ppi."""
    use = window(4000, 3000, canvas=THIN)
    assert (use.window.x, use.window.y, use.window.width, use.window.height) == pytest.approx((0, 0, 1, 1))
    assert use.effective_ppi == pytest.approx(254, abs=1e-9)
    assert use.cut_away_share == pytest.approx(0, abs=1e-12)


def test_three_by_two_loses_a_ninth() -> None:
    """Derived: 3 : 2 on 4 : 3 keeps (4/3) / (3/2) = 8/9 of the width; 1/9 is cut away, half a side."""
    use = window(6000, 4000, canvas=THIN)
    assert use.cut_away_share == pytest.approx(1 / 9, abs=1e-12)
    assert use.window.x == pytest.approx(1 / 18, abs=1e-12)


def test_run_on_takes_the_sides_from_the_picture() -> None:
    """Derived: 400 x 300 with 38 mm running on all round is 476 x 376 mm.

    A 4760 x 3760 picture gives 10 px a mm = 254 ppi; 1 - (400 x 300) / (476 x 376) goes round.
    """
    use = window(4760, 3760, canvas=THIN, sides={"fill": "run-on"})
    assert use.effective_ppi == pytest.approx(254, abs=1e-9)
    assert use.run_on_share == pytest.approx(1 - 120000 / 178976, abs=1e-12)
    assert use.face.x == pytest.approx(38 / 476, abs=1e-12)


def test_one_side_that_runs_on_widens_the_window_there_only() -> None:
    use = window(4380, 3000, canvas=THIN, sides={"left": {"fill": "run-on"}})
    # Derived: 438 x 300 mm needed; face starts 38 / 438 in from the left and reaches the right edge.
    assert use.face.x == pytest.approx(38 / 438, abs=1e-12)
    assert use.face.x + use.face.width == pytest.approx(1, abs=1e-12)
    assert use.face.height == pytest.approx(1, abs=1e-12)


def test_a_top_that_runs_on_moves_the_face_down() -> None:
    use = window(4000, 3380, canvas=THIN, sides={"top": {"fill": "run-on"}})
    # Derived: 400 x 338 mm needed; the face starts 38 / 338 down and reaches the bottom edge.
    assert use.face.y == pytest.approx(38 / 338, abs=1e-12)
    assert use.face.y + use.face.height == pytest.approx(1, abs=1e-12)
    assert use.face.width == pytest.approx(1, abs=1e-12)


def test_a_turned_picture_swaps_its_sides() -> None:
    use = window(3000, 4000, canvas=THIN, picture={"turn": 90})
    assert use.effective_ppi == pytest.approx(254, abs=1e-9)


def test_a_crop_of_another_shape_is_reported() -> None:
    crop = {"x": 0, "y": 0, "width": 1, "height": 0.5}
    use = window(4000, 3000, canvas=THIN, picture={"crop": crop})
    assert use.reshaped
    # Derived: half the height is 1500 px high, so 2000 px wide: half the width, in the middle.
    assert (use.window.x, use.window.width, use.window.height) == pytest.approx((0.25, 0.5, 0.5))


def test_a_window_under_one_pixel_is_refused() -> None:
    crop = {"x": 0, "y": 0, "width": 1e-6, "height": 1e-6}
    with pytest.raises(FieldError, match="at least one picture pixel wide") as caught:
        window(4000, 3000, picture={"crop": crop})
    assert caught.value.field == "picture.crop"


@settings(max_examples=80)
@given(
    st.integers(200, 12000),
    st.integers(200, 12000),
    st.floats(50, 2000),
    st.floats(50, 2000),
    st.sampled_from(["run-on", "mirror"]),
    st.sampled_from([0, 90, 180, 270]),
)
def test_shares_add_up(width_px: int, height_px: int, w: float, h: float, fill: str, turn: int) -> None:
    use = window(
        width_px,
        height_px,
        face={"width_mm": w, "height_mm": h},
        sides={"fill": fill},
        picture={"turn": turn},
    )
    face = use.face.width * use.face.height
    assert face + use.run_on_share + use.cut_away_share == pytest.approx(1, abs=1e-9)
    assert use.window.x >= -1e-12
    assert use.window.x + use.window.width <= 1 + 1e-12
    assert use.window.y + use.window.height <= 1 + 1e-12
    assert max(use.window.width, use.window.height) == pytest.approx(1, abs=1e-9)


def test_a_picture_of_one_pixel_s_width_is_not_told_to_take_a_larger_crop() -> None:
    """Derived: of 1 x 20000 pixels at 4 : 3 a crop is 1 pixel wide and 0.75 high."""
    with pytest.raises(FieldError) as caught:
        window(1, 20000, canvas=THIN)
    assert caught.value.field == "picture.crop"
    assert str(caught.value) == (
        "The picture of 1 x 20000 pixels is too narrow for this face: in the face's shape, less than one "
        "pixel of it is left. Use a picture of another shape, or a face of nearly its shape."
    )
