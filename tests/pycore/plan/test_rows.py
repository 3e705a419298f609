"""Rows and columns: equal canvases stand a gap apart both ways."""

from __future__ import annotations

import pytest

from pycore.contract.job import Job
from pycore.plan.options import PlanJob, Stock, Turning
from pycore.plan.pieces import pieces_of
from pycore.plan.rows import in_rows


def test_a_gap_stands_between_columns_and_between_rows() -> None:
    """Derived: canvases of 390.9 x 290.9 mm lie upright by twos on 800 mm; the third begins a row."""
    pieces = pieces_of([PlanJob(name="a", job=Job(), copies=4)], turning=Turning.NEVER)
    laid = in_rows(pieces, Stock(width_mm=800), gap_mm=7)
    assert laid is not None
    (sheet,) = laid
    assert [one.x_mm for one in sheet.placed] == pytest.approx([0, 397.9, 0, 397.9])
    assert [one.y_mm for one in sheet.placed] == pytest.approx([0, 0, 297.9, 297.9])
    assert sheet.length_mm == pytest.approx(2 * 290.9 + 7)
