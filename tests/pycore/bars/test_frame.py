"""Bars, braces and staples against counts and volumes worked out by hand."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest

from pycore.bars.frame import bar_width_mm, brace_count, frame_of, staple_count
from pycore.bars.report import bars_report
from pycore.contract.check import check_job
from pycore.contract.job import Job
from pycore.errors import FieldError


def job(**parts: Mapping[str, Any]) -> Job:
    return check_job(parts)


def test_the_bars_of_a_group_are_one_list() -> None:
    # derived: three panels of 400 x 400 mm have 3 x 4 bars of one length.
    three = job(face={"width_mm": 400, "height_mm": 400}, group={"panels": 3})
    assert [(one.count, one.length_mm) for one in bars_report(three).bars] == [(12, 400.0)]
    oblong = job(face={"width_mm": 300, "height_mm": 500}, group={"panels": 2})
    # derived: 2 x 2 of each side, the longest first; bars are as long as the wood outside, without canvas.
    assert [(one.count, one.length_mm) for one in bars_report(oblong).bars] == [(4, 500.0), (4, 300.0)]


@pytest.mark.parametrize(
    ("length", "count"), [(50, 0), (600, 0), (600.5, 1), (1200, 1), (1800, 2), (1801, 3), (5000, 8)]
)
def test_no_stretch_of_a_bar_is_longer_than_the_rule_allows(length: float, count: int) -> None:
    # derived from the rule of 600 mm (common practice): count + 1 stretches; 5000 / 600 = 8.33, so 9
    # stretches.
    assert brace_count(length) == count
    assert length / (count + 1) <= 600
    assert count == 0 or length / count > 600


def test_braces_lie_between_the_bars() -> None:
    # derived: bars 40 mm wide leave 1300 - 80 = 1220 by 900 - 80 = 820 mm. Across 1300 mm two braces stand,
    # across 900 mm one lies; two panels have twice as many.
    two = job(face={"width_mm": 1300, "height_mm": 900}, group={"panels": 2})
    assert [(one.count, one.length_mm) for one in bars_report(two).braces] == [(2, 1220.0), (4, 820.0)]


def test_volumes_by_hand() -> None:
    # derived: 700 x 500 mm, bars 40 x 20 mm. Mitred bars: two trapezoids of (700 + 620) / 2 x 40 mm and two
    # of (500 + 420) / 2 x 40 mm: 2 x 26,400 + 2 x 18,400 = 89,600 mm2, by 20 mm.
    frame = frame_of(job(face={"width_mm": 700, "height_mm": 500}, bars={"depth_mm": 20}))
    assert frame.bars_mm3 == pytest.approx(1_792_000, abs=1e-6)
    # derived: one brace of 420 mm, 35 mm wide, as deep as 0.55 x 20 = 11 mm.
    assert frame.braces_mm3 == pytest.approx(420 * 35 * 11, abs=1e-6)


def test_a_brace_is_a_whole_mm_deep() -> None:
    # derived: 0.55 x 19.05 = 10.48 mm, which nobody planes; 0.55 x 20 = 11 and 0.55 x 32 = 17.6 mm.
    depths = [frame_of(job(bars={"depth_mm": depth})).brace_depth_mm for depth in (19.05, 20, 32, 38)]
    assert depths == [10, 11, 17, 18]


def test_crossing_braces_share_their_wood() -> None:
    # derived: 700 x 800 mm, depth 38: one of 720 mm, one of 620 mm, 35 x 18 mm; where they cross 35 x 35 x
    # 18 mm would count twice.
    frame = frame_of(job(face={"width_mm": 700, "height_mm": 800}, bars={"depth_mm": 38}))
    assert frame.braces_mm3 == pytest.approx((720 + 620 - 35) * 35 * 18, abs=1e-6)


def test_staples_by_spacing() -> None:
    # derived: 400 x 300 mm, depth 38, turn-over 25: staples run from 38 + 25 + 5 + 3 = 71 mm on. 258 mm in
    # 6 steps of 43 mm make 7, 158 mm in 4 steps make 5; twice both, and 4 corners.
    piece = {"face": {"width_mm": 400, "height_mm": 300}, "bars": {"depth_mm": 38}}
    assert staple_count(job(**piece)) == 28
    assert bars_report(job(**piece, group={"panels": 2})).staples == 56
    # derived: a bar of 100 mm has no room between two corners of 71 mm: one in its middle, and 4 corners.
    short = {"face": {"width_mm": 100, "height_mm": 100}, "bars": {"depth_mm": 38}}
    assert staple_count(job(**short, wrap={"corners": "cut-back"})) == 8
    narrow = {"turnover_mm": 7.5, "ink_over_mm": 5}
    assert staple_count(job(**piece, wrap=narrow)) == 0


def test_the_bar_width_is_the_jobs_own_or_the_rules() -> None:
    # common practice: 40 mm, on a small face 22 percent of its shorter side: 0.22 x 100 = 22.
    assert bar_width_mm(job(face={"width_mm": 100, "height_mm": 150})) == pytest.approx(22)
    # derived: 0.22 x 170 = 37.4 and 0.22 x 180 = 39.6 mm, and no bar is sold by tenths.
    assert [bar_width_mm(job(face={"width_mm": 240, "height_mm": high})) for high in (170, 180)] == [37, 40]
    assert bar_width_mm(job()) == 40
    assert bar_width_mm(job(bars={"width_mm": 55})) == 55


def test_a_section_wider_than_the_face_allows_is_refused() -> None:
    with pytest.raises(
        FieldError, match="less than half the shorter side of the face, 100 mm; you gave 100 mm"
    ) as wrong:
        job(bars={"width_mm": 100})
    assert wrong.value.field == "bars.width_mm"
    assert job(bars={"width_mm": 99.9}).bars.width_mm == 99.9


def test_huge_faces_and_zero_densities_are_refused() -> None:
    with pytest.raises(FieldError, match="Face width must be 50 to 5000 mm; you gave 9000") as wrong:
        job(face={"width_mm": 9000})
    assert wrong.value.field == "face.width_mm"
    with pytest.raises(
        FieldError, match="Density of the wood must be 100 to 1300 kg/m3; you gave 0"
    ) as wrong:
        job(bars={"density_kg_m3": 0})
    assert wrong.value.field == "bars.density_kg_m3"
    with pytest.raises(FieldError, match="The wood of the bars") as wrong:
        job(bars={"wood": "balsa"})
    assert wrong.value.field == "bars.wood"
