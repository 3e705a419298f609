"""The drawing of a plan, read as SVG: a millimetre of canvas is a millimetre of it."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from pycore.contract.job import Job
from pycore.plan.drawing import plan_svg
from pycore.plan.make import make_plan
from pycore.plan.options import Pin, PlanJob, PlanOptions, Stock
from pycore.plan.result import Plan, PlannedSheet

_SVG = "{http://www.w3.org/2000/svg}"
Box = tuple[float, ...]


def _plan() -> Plan:
    """Two sheets with uneven margins, a gap, a pinned piece, and cuts both ways that part and that trim."""
    stock = Stock(width_mm=900, height_mm=700, margin_mm=(2, 12, 7, 30))
    options = PlanOptions(stocks=(stock,), gap_mm=10, pins=(Pin(piece="tide, copy 1", x_mm=40, y_mm=20),))
    return make_plan([PlanJob(name="tide", job=Job(), copies=5)], options=options)


def _box(rect: ElementTree.Element) -> Box:
    return tuple(float(rect.attrib[name]) for name in ("x", "y", "width", "height"))


def _sheets(plan: Plan) -> list[tuple[PlannedSheet, ElementTree.Element]]:
    root = ElementTree.fromstring(plan_svg(plan))
    return list(zip(plan.sheets, root.findall(f"{_SVG}g"), strict=True))


def test_sheets_margins_and_pieces_lie_where_the_plan_has_them() -> None:
    plan = _plan()
    assert len(plan.sheets) == 2
    pinned = 0
    for sheet, group in _sheets(plan):
        whole, inside, *pieces = group.findall(f"{_SVG}rect")
        assert _box(whole) == pytest.approx((0, 0, 900, 700))
        # Derived: margins from the top clockwise, 900 - 12 - 30 = 858 and 700 - 2 - 7 = 691.
        assert _box(inside) == pytest.approx((30, 2, 858, 691))
        lying = [(one.x_mm, one.y_mm, one.width_mm, one.height_mm) for one in sheet.pieces]
        for box, rect, one in zip(lying, pieces, sheet.pieces, strict=True):
            assert _box(rect) == pytest.approx(box, abs=5e-4)
            assert (rect.attrib["stroke"] == "#a33") == one.pinned
            pinned += one.pinned
    assert pinned == 1


def test_sheets_stand_below_one_another_and_within_the_drawing() -> None:
    plan = _plan()
    root = ElementTree.fromstring(plan_svg(plan))
    wide, high = (float(one) for one in root.attrib["viewBox"].split()[2:])
    assert (root.attrib["width"], root.attrib["height"]) == (f"{wide:g}mm", f"{high:g}mm")
    below = 0.0
    for sheet, group in _sheets(plan):
        x, y = (float(one) for one in re.findall(r"[\d.]+", group.attrib["transform"]))
        assert y >= below
        below = y + sheet.height_mm
        assert x + sheet.width_mm <= wide
    assert below <= high


def test_cuts_are_drawn_where_they_are_and_their_numbers_stand_beside_them() -> None:
    seen = set()
    for sheet, group in _sheets(_plan()):
        paths = group.findall(f"{_SVG}path")
        numbers = group.findall(f"{_SVG}text")[-len(paths) :]
        for cut, path, number in zip(sheet.cuts, paths, numbers, strict=True):
            drawn = [float(one) for one in re.findall(r"[\d.]+", path.attrib["d"])]
            assert drawn == pytest.approx([*cut.start_mm, *cut.end_mm], abs=5e-4)
            assert number.text == str(cut.number)
            # Between the cut's ends, and not further from it than a letter is high or wide.
            (left, top), (right, bottom) = cut.start_mm, cut.end_mm
            lies = right > left
            assert (cut.way.value == "across") == lies
            x, y = float(number.attrib["x"]), float(number.attrib["y"])
            assert (left <= x <= right and abs(y - top) <= 20) if lies else (top <= y <= bottom)
            assert lies or abs(x - left) <= 20
            seen.add((lies, cut.trims))
    assert len(seen) == 4


def test_a_name_is_text_and_no_markup() -> None:
    job = PlanJob(name="<b>&tide", job=Job())
    root = ElementTree.fromstring(plan_svg(make_plan([job], options=PlanOptions())))
    assert "<b>&tide" in [one.text for one in root.iter(f"{_SVG}text")]
