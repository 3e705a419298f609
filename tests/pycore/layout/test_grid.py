"""Whole pixels: exact totals and lines within half a pixel."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pycore.contract.check import check_job
from pycore.conventions import mm_to_px
from pycore.layout.flat import flat_sizes
from pycore.layout.grid import pixel_grid, preview_ppi

from ..worked import worked_job


def test_an_inch_is_25_4_mm() -> None:
    """Published: the international inch is 25.4 mm exactly (yard and pound agreement of 1959)."""
    assert mm_to_px(25.4, ppi=300) == 300
    assert mm_to_px(254, ppi=360) == 3600


def test_a4_at_300_ppi() -> None:
    """Published: ISO 216 A4, 210 x 297 mm. Derived: 2480.31 and 3507.87, rounded to 2480 x 3508."""
    assert (mm_to_px(210, ppi=300), mm_to_px(297, ppi=300)) == (2480, 3508)


def test_a_half_rounds_up() -> None:
    """Derived: 12.7 mm at 1 ppi is 0.5 px, at 5 ppi 2.5 px: up to 1 and 3, not to the even 0 and 2."""
    assert (mm_to_px(12.7, ppi=1), mm_to_px(12.7, ppi=5)) == (1, 3)


@settings(max_examples=60)
@given(
    st.floats(50, 1500),
    st.floats(50, 1500),
    st.floats(6, 100),
    st.floats(72, 720),
    st.tuples(st.floats(0, 3), st.floats(0, 3)),
)
def test_every_line_is_within_half_a_pixel(
    w: float, h: float, d: float, ppi: float, give: tuple[float, float]
) -> None:
    """Where the canvas gives more one way than the other, its lines lie elsewhere across and down."""
    face, canvas = {"width_mm": w, "height_mm": h}, {"stretch_percent": list(give)}
    job = check_job({"face": face, "bars": {"depth_mm": d}, "canvas": canvas})
    grid, sizes = pixel_grid(job, ppi=ppi), flat_sizes(job)
    for pixels, lines in (
        (grid.columns, sizes.columns_mm),
        (grid.rows, sizes.rows_mm),
        (grid.back_columns, sizes.back_columns_mm),
        (grid.back_rows, sizes.back_rows_mm),
    ):
        assert list(pixels) == sorted(pixels)
        for pixel, line in zip(pixels, lines, strict=True):
            assert abs(pixel - line / 25.4 * ppi) <= 0.5 + 1e-6
    assert grid.width_px == math.floor(sizes.canvas_mm[0] / 25.4 * ppi + 0.5)


def test_the_folded_strips_end_at_the_front_edges() -> None:
    """Derived: the canvas is 526.9 x 426.9 mm, the front edges lie 63 mm in: 248 pixels at 100 ppi."""
    grid = pixel_grid(worked_job(), ppi=100)
    assert (grid.width_px, grid.height_px) == (2074, 1681)
    assert grid.fold_columns == pytest.approx([0, 248 / 2074, 1826 / 2074, 1], abs=1e-12)
    assert grid.fold_rows == pytest.approx([0, 248 / 1681, 1433 / 1681, 1], abs=1e-12)


@settings(max_examples=60)
@given(st.floats(50, 5000), st.floats(50, 5000), st.integers(100_000, 4_000_000))
def test_the_preview_is_near_its_size(w: float, h: float, pixels: int) -> None:
    job = check_job({"face": {"width_mm": w, "height_mm": h}})
    grid = pixel_grid(job, ppi=preview_ppi(job, preview_px=pixels))
    # Derived: a step of an eighth of an octave a side is 2 ** (1 / 4) = 1.19 in area; rounding adds edges.
    edge = grid.width_px + grid.height_px + 1
    assert pixels / 2**0.25 - edge <= grid.width_px * grid.height_px <= pixels + edge


def test_a_small_change_of_depth_keeps_the_preview_resolution() -> None:
    at_38 = preview_ppi(worked_job(), preview_px=2_000_000)
    at_39 = preview_ppi(worked_job(bars={"depth_mm": 39}), preview_px=2_000_000)
    assert at_38 == pytest.approx(at_39, abs=0)
