"""What of a canvas the printer can reach."""

from __future__ import annotations

from typing import Any

import pytest

from pycore.contract.check import check_job
from pycore.layout.printable import printable_area

_TIGHT = {"face": {"width_mm": 211, "height_mm": 297}, "bars": {"depth_mm": 33}}


def _area(sheet: dict[str, Any], **more: Any) -> tuple[float, float, float, float]:
    area = printable_area(check_job(_TIGHT | {"sheet": sheet} | more))
    return area.left_mm, area.top_mm, area.right_mm, area.bottom_mm


def test_a_tight_sheet() -> None:
    """Derived: 0.55 and 34.55 mm are left around the canvas.

    It is 327.9 x 413.9 mm (0.9 for its thickness); a margin of 3 reaches 2.45 mm into it across the sheet.
    """
    assert _area({"width_mm": 329, "height_mm": 483}) == pytest.approx((2.45, 0, 325.45, 413.9))


def test_turned_what_can_be_printed_either_way_round() -> None:
    """Derived: along the sheet's height of 329 mm margins of 3 and 5 reach 2.45 and 4.45 mm into the canvas.

    Its left edge may lie at either.
    """
    sheet = {"width_mm": 483, "height_mm": 329, "margin_mm": [3, 0, 5, 0]}
    assert _area(sheet) == pytest.approx((4.45, 0, 323.45, 413.9))


def test_a_roll_is_cut_to_the_canvas() -> None:
    """Derived: the canvas lies turned, 327.9 mm along the roll; 3 mm at either end of that are margin."""
    assert _area({"width_mm": 610}) == pytest.approx((3, 0, 324.9, 413.9))


def test_where_the_sheet_does_not_hold_it_all_counts() -> None:
    assert _area({"width_mm": 200, "height_mm": 200}) == pytest.approx((0, 0, 327.9, 413.9))
