"""The flat layout against worked examples and its own definition."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pycore.layout.flat import flat_sizes

from ..worked import worked_job


def test_worked_example() -> None:
    """Derived: W 400, H 300, d 38, r 25, p 6, t 0.45.

    Face zone 400 + 0.9 by 300 + 0.9; inked adds 2 (38 + 6) = 88; canvas adds 2 (38 + 25) = 126.
    """
    sizes = flat_sizes(worked_job())
    assert sizes.face_zone_mm == pytest.approx((400.9, 300.9), abs=1e-9)
    assert sizes.inked_mm == pytest.approx((488.9, 388.9), abs=1e-9)
    assert sizes.canvas_mm == pytest.approx((526.9, 426.9), abs=1e-9)


def test_lines_run_in_order_of_the_bench() -> None:
    """Derived: dry strip 25 - 6 = 19; front edge at 25 + 38 = 63; the rest mirrors it; back edge at 25."""
    sizes = flat_sizes(worked_job())
    assert sizes.columns_mm == pytest.approx((0, 19, 63, 463.9, 507.9, 526.9), abs=1e-9)
    assert sizes.rows_mm == pytest.approx((0, 19, 63, 363.9, 407.9, 426.9), abs=1e-9)
    assert sizes.back_columns_mm == pytest.approx((25, 501.9), abs=1e-9)


def test_stretch_divides_each_axis() -> None:
    """Derived: 1 percent across, 2.5 down: 526.9 / 1.01 = 521.683..., 426.9 / 1.025 = 416.487..."""
    sizes = flat_sizes(worked_job(canvas={"stretch_percent": [1, 2.5]}))
    assert sizes.canvas_mm == pytest.approx((521.6832, 416.4878), abs=5e-5)
    assert sizes.face_zone_mm == pytest.approx((400.9 / 1.01, 300.9 / 1.025), abs=1e-9)
    assert sizes.back_columns_mm == pytest.approx((25 / 1.01, 501.9 / 1.01), abs=1e-9)
    assert sizes.back_rows_mm == pytest.approx((25 / 1.025, 401.9 / 1.025), abs=1e-9)


SIZES = st.fixed_dictionaries(
    {
        "face": st.fixed_dictionaries({"width_mm": st.floats(50, 5000), "height_mm": st.floats(50, 5000)}),
        "bars": st.fixed_dictionaries({"depth_mm": st.floats(6, 100)}),
        "wrap": st.tuples(st.floats(0, 150), st.floats(0, 1)).map(
            lambda pair: {"turnover_mm": pair[0], "ink_over_mm": pair[0] * pair[1]}
        ),
        "canvas": st.fixed_dictionaries(
            {
                "thickness_mm": st.floats(0, 3),
                "stretch_percent": st.tuples(st.floats(-5, 15), st.floats(-5, 15)).map(list),
            }
        ),
    }
)


@settings(max_examples=60)
@given(SIZES)
def test_lines_rise_and_mirror(parts: dict[str, dict[str, object]]) -> None:
    sizes = flat_sizes(worked_job(**parts))
    for lines, canvas in ((sizes.columns_mm, sizes.canvas_mm[0]), (sizes.rows_mm, sizes.canvas_mm[1])):
        assert all(a <= b + 1e-9 for a, b in itertools.pairwise(lines))
        mirrored = [canvas - line for line in reversed(lines)]
        assert list(lines) == pytest.approx(mirrored, abs=1e-8)


@settings(max_examples=60)
@given(SIZES)
def test_stretching_brings_back_the_wood_and_its_take_up(parts: dict[str, dict[str, object]]) -> None:
    made = worked_job(**parts)
    sizes = flat_sizes(made)
    across = 1 + made.canvas.stretch_percent[0] / 100
    assert sizes.face_zone_mm[0] * across == pytest.approx(
        made.face.width_mm + 2 * made.canvas.thickness_mm, abs=1e-7
    )
