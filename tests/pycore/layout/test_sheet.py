"""The sheet: a fact of the trade, worked examples, and the bounds that the fit reports."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pycore.contract.check import check_job
from pycore.contract.job import Job
from pycore.layout.sheet import fit_sheet

from ..worked import worked_job

# Published: ISO 216:2007, table of trimmed sizes: A4 is 210 x 297 mm.
A4 = {"width_mm": 210, "height_mm": 297}


def test_13_by_19_inch_sheet_carries_an_a4_face() -> None:
    """Common practice, no source: a 13 x 19 inch sheet (329 x 483 mm) carries an A4 face."""
    fit = fit_sheet(worked_job(face=A4, bars={"depth_mm": 20}, sheet={"width_mm": 329, "height_mm": 483}))
    assert fit.fits
    assert not fit.turned
    # Derived: canvas 210.9 + 2 (20 + 25) = 300.9 by 387.9; 329 - 300.9 = 28.1, 483 - 387.9 = 95.1.
    assert fit.slack_mm == pytest.approx((28.1, 95.1), abs=1e-9)
    # Derived: inked 262.9 by 349.9; 323 - 262.9 = 60.1; 477 - 349.9 = 127.1.
    assert fit.ink_slack_mm == pytest.approx((60.1, 127.1), abs=1e-9)
    # Derived: (329 - 210.9 - 50) / 2 = 34.05; (329 - 210.9 - 40) / 2 = 39.05.
    assert fit.largest_depth_mm == pytest.approx(34.05, abs=1e-9)
    assert fit.largest_turnover_mm == pytest.approx(39.05, abs=1e-9)


def test_shortfall_is_negative_slack() -> None:
    """Derived: 400 x 300 with 38 mm bars needs 526.9 x 426.9; turned on 329 x 483: -97.9 and -43.9."""
    fit = fit_sheet(worked_job(sheet={"width_mm": 329, "height_mm": 483}))
    assert not fit.fits
    assert fit.turned
    assert fit.slack_mm == pytest.approx((-97.9, -43.9), abs=1e-9)


def test_lies_turned_where_only_that_fits() -> None:
    """Derived: A4 across, 297.9 + 90 = 387.9 wide: not on 329, but along 483."""
    fit = fit_sheet(worked_job(face={"width_mm": 297, "height_mm": 210}, bars={"depth_mm": 20}))
    assert (fit.fits, fit.turned) == (True, True)
    assert fit.slack_mm == pytest.approx((28.1, 95.1), abs=1e-9)


def test_a_roll_is_cut_to_the_shorter_length() -> None:
    """Derived: canvas 526.9 x 426.9 on 610 mm: both ways fit; turned would cut 526.9, so not turned."""
    fit = fit_sheet(worked_job(sheet={"width_mm": 610}))
    assert (fit.fits, fit.turned) == (True, False)
    assert fit.length_mm == pytest.approx(426.9, abs=1e-9)
    assert fit.slack_mm == pytest.approx((83.1, 0), abs=1e-9)


def test_on_a_roll_a_tall_canvas_lies_turned_because_that_takes_less() -> None:
    """Derived: canvas 426.9 x 526.9 on 610 mm: both ways fit; upright would cut 526.9, turned 426.9."""
    fit = fit_sheet(worked_job(face={"width_mm": 300, "height_mm": 400}, sheet={"width_mm": 610}))
    assert (fit.fits, fit.turned) == (True, True)
    assert fit.length_mm == pytest.approx(426.9, abs=1e-9)


def test_a_wide_margin_on_one_side_bounds_the_turnover_of_a_canvas_that_grows() -> None:
    """Derived: with growth g = 1.1, base b = 200.9 + 40 = 240.9 and ink-over 6, one margin m of 30.

    The canvas with that end's margin past its dry strip: (b + 2r) / g + m - (r - 6) / g <= 400, so
    r <= (400 - 30) 1.1 - 240.9 - 6 = 160.1; the sheet alone would allow (400 x 1.1 - 240.9) / 2 = 99.55.
    With a margin of 100 the first is 83.1, the smaller one.
    """
    for margin, largest in ((30, 99.55), (100, 83.1)):
        sheet = {"width_mm": 400, "height_mm": 5000, "margin_mm": [0, 0, 0, margin]}
        made = worked_job(
            face={"width_mm": 200, "height_mm": 1000},
            bars={"depth_mm": 20},
            canvas={"stretch_percent": [10, 0]},
            sheet=sheet,
        )
        assert fit_sheet(made).largest_turnover_mm == pytest.approx(largest, abs=1e-9)


def test_ink_on_the_margin_does_not_fit() -> None:
    """Derived: canvas exactly 329 wide fits the sheet; r = p = 6: the ink is as wide."""
    depth = (329 - 210.9 - 12) / 2
    short = fit_sheet(
        worked_job(face=A4, bars={"depth_mm": depth}, wrap={"turnover_mm": 6, "ink_over_mm": 6})
    )
    assert not short.fits
    assert short.slack_mm[0] == pytest.approx(0, abs=1e-9)
    assert short.ink_slack_mm[0] == pytest.approx(-6, abs=1e-9)
    borderless = fit_sheet(
        worked_job(
            face=A4,
            bars={"depth_mm": depth},
            wrap={"turnover_mm": 6, "ink_over_mm": 6},
            sheet={"width_mm": 329, "height_mm": 483, "margin_mm": [0, 0, 0, 0]},
        )
    )
    assert borderless.fits


def test_uneven_margins_need_one_place_that_serves_both() -> None:
    """Derived: dry strip 5; ink S - 22 wide fits between margins 20 and 0, and the canvas S - 12 the sheet.

    Yet with the ink from 20 on, the canvas begins at 15 and ends at S + 3: no place serves both.
    """
    sheet = {"width_mm": 300, "height_mm": 600, "margin_mm": [0, 0, 0, 20]}
    wrap = {"turnover_mm": 10, "ink_over_mm": 5}
    made = worked_job(
        face={"width_mm": 247.1, "height_mm": 400}, bars={"depth_mm": 10}, wrap=wrap, sheet=sheet
    )
    fit = fit_sheet(made)
    assert fit.slack_mm[0] == pytest.approx(12, abs=1e-9)
    assert fit.ink_slack_mm[0] == pytest.approx(2, abs=1e-9)
    assert not fit.fits


SHEETS = st.fixed_dictionaries(
    {
        "face": st.fixed_dictionaries({"width_mm": st.floats(50, 700), "height_mm": st.floats(50, 700)}),
        "bars": st.fixed_dictionaries({"depth_mm": st.floats(6, 60)}),
        "wrap": st.tuples(st.floats(1, 60), st.floats(0, 1)).map(
            lambda pair: {"turnover_mm": pair[0], "ink_over_mm": pair[0] * pair[1]}
        ),
        "sheet": st.tuples(
            st.floats(100, 1200),
            st.floats(100, 1200) | st.none(),
            st.lists(st.floats(0, 30), min_size=4, max_size=4),
        ).map(lambda parts: {"width_mm": parts[0], "height_mm": parts[1], "margin_mm": parts[2]}),
        "canvas": st.fixed_dictionaries(
            {"stretch_percent": st.tuples(st.floats(-2, 4), st.floats(-2, 4)).map(list)}
        ),
    }
)


def changed(parts: dict[str, Any], part: str, name: str, value: float) -> Job:
    return check_job(parts | {part: parts[part] | {name: value}})


@settings(max_examples=120)
@given(SHEETS)
def test_largest_depth_is_the_last_that_fits(parts: dict[str, Any]) -> None:
    fit = fit_sheet(worked_job(**parts))
    largest = fit.largest_depth_mm
    if fit.fits:
        assert largest is not None
        assert largest >= parts["bars"]["depth_mm"] - 1e-6
    if largest is not None and largest - 1e-6 >= 6 and largest + 1e-6 <= 100:
        assert fit_sheet(changed(parts, "bars", "depth_mm", largest - 1e-6)).fits
        assert not fit_sheet(changed(parts, "bars", "depth_mm", largest + 1e-6)).fits


@settings(max_examples=120)
@given(SHEETS)
def test_largest_turnover_is_the_last_that_fits(parts: dict[str, Any]) -> None:
    fit = fit_sheet(worked_job(**parts))
    largest = fit.largest_turnover_mm
    if fit.fits:
        assert largest is not None
        assert largest >= parts["wrap"]["turnover_mm"] - 1e-6
    if largest is not None and largest - 1e-6 > parts["wrap"]["ink_over_mm"] and largest + 1e-6 <= 150:
        assert fit_sheet(changed(parts, "wrap", "turnover_mm", largest - 1e-6)).fits
        assert not fit_sheet(changed(parts, "wrap", "turnover_mm", largest + 1e-6)).fits


@settings(max_examples=120)
@given(SHEETS)
def test_a_fitting_canvas_has_a_place(parts: dict[str, Any]) -> None:
    made = worked_job(**parts)
    fit = fit_sheet(made)
    if not fit.fits:
        return
    dry = made.wrap.turnover_mm - made.wrap.ink_over_mm
    growth = [1 + percent / 100 for percent in made.canvas.stretch_percent]
    if fit.turned:
        growth.reverse()
    top, right, bottom, left = made.sheet.margin_mm
    sheet = (made.sheet.width_mm, fit.length_mm)
    for axis, (first, last) in enumerate(((left, right), (top, bottom))):
        start, canvas = fit.position_mm[axis], sheet[axis] - fit.slack_mm[axis]
        ink = dry / growth[axis]
        assert start >= -1e-6
        assert start + canvas <= sheet[axis] + 1e-6
        assert start + ink >= first - 1e-6
        assert start + canvas - ink <= sheet[axis] - last + 1e-6


def test_nothing_left_along_a_roll_is_nothing_of_either_sign() -> None:
    """What is cut off is no longer than the canvas needs, so all its ink lies just between the margins."""
    fit = fit_sheet(
        check_job(
            {
                "face": {"width_mm": 64.5, "height_mm": 97.9},
                "bars": {"depth_mm": 19.25},
                "wrap": {"turnover_mm": 12, "ink_over_mm": 10},
                "canvas": {"thickness_mm": 0.38},
                "sheet": {"width_mm": 610, "margin_mm": [5, 5, 5, 5]},
            }
        )
    )
    assert f"{fit.ink_slack_mm[1]:.1f}" == "0.0"
