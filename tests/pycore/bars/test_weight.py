"""Weights against worked examples and a published table."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest

from pycore.bars.report import bars_report
from pycore.bars.timber import density_kg_m3
from pycore.bars.weight import Mass, Origin, mass_words, panel_masses, trimmed_area_mm2, whole_g
from pycore.contract.check import check_job
from pycore.contract.job import Bars, Job, Wood
from pycore.tasks.layout import lay_out


def job(**parts: Mapping[str, Any]) -> Job:
    return check_job(parts)


def masses(of: Job) -> dict[str, Mass]:
    return {one.part: one for one in panel_masses(of)}


@pytest.mark.parametrize(
    ("wood", "light", "dense"),
    [
        # published: FPL-GTR-282, Wood Handbook, chapter 5: specific gravity at 12 percent moisture of
        # Engelmann spruce 0.35 and Sitka spruce 0.40; of loblolly pine 0.51; of basswood 0.37; of American
        # beech 0.64. from memory of the same table: eastern white pine 0.35, yellow-poplar 0.42. derived:
        # 1000 x 1.12 x specific gravity (chapter 4).
        (Wood.SPRUCE, 392.0, 448.0),
        (Wood.PINE, 392.0, 571.2),
        (Wood.BASSWOOD, 414.4, 414.4),
        (Wood.YELLOW_POPLAR, 470.4, 470.4),
        (Wood.BEECH, 716.8, 716.8),
    ],
)
def test_densities(wood: Wood, light: float, dense: float) -> None:
    assert density_kg_m3(Bars(wood=wood)) == pytest.approx((light, dense), abs=0.05)


def test_a_wood_that_is_known_less_has_a_wider_range() -> None:
    def span(wood: Wood) -> tuple[float, float]:
        return density_kg_m3(Bars(wood=wood))

    soft, hard, unknown = span(Wood.SOFTWOOD), span(Wood.HARDWOOD), span(Wood.UNKNOWN)
    for wood in (Wood.SPRUCE, Wood.PINE):
        assert soft[0] <= span(wood)[0] <= span(wood)[1] <= soft[1]
    for wood in (Wood.BASSWOOD, Wood.YELLOW_POPLAR, Wood.BEECH):
        assert hard[0] <= span(wood)[0] <= span(wood)[1] <= hard[1]
    assert unknown == (min(soft[0], hard[0]), max(soft[1], hard[1]))


def test_a_density_of_ones_own_counts_before_the_wood() -> None:
    assert density_kg_m3(Bars(wood=Wood.BEECH, density_kg_m3=500)) == (500, 500)


def test_worked_example_with_braces_and_coating() -> None:
    # derived: 700 x 500 mm, bars 40 x 20 mm of 500 kg/m3, canvas 0.5 mm of 400 g/m2, turn-over 25 mm, bleed
    # 5 mm.
    piece = job(
        face={"width_mm": 700, "height_mm": 500},
        bars={"depth_mm": 20, "density_kg_m3": 500},
        canvas={"thickness_mm": 0.5, "weight_gsm": 400, "coated": True},
        wrap={"ink_over_mm": 5},
    )
    found = masses(piece)
    # canvas: (701 + 90) x (501 + 90) mm = 0.467481 m2, x 400 = 186.99 g.
    assert found["canvas"].low_g == found["canvas"].high_g == pytest.approx(186.9924, abs=5e-5)
    # bars: 1,792,000 mm3 (see test_frame) x 500 kg/m3 = 896 g; of that 85 percent at least (from memory).
    assert (found["bars"].low_g, found["bars"].high_g) == pytest.approx((761.6, 896.0), abs=0.05)
    # brace: 420 x 35 x 11 mm = 161,700 mm3 = 80.85 g.
    assert (found["braces"].low_g, found["braces"].high_g) == pytest.approx((80.85, 80.85), abs=0.005)
    # coating: inked (701 + 50) x (501 + 50) mm = 0.413801 m2 x 30 to 80 g/m2 (from memory).
    assert (found["coating"].low_g, found["coating"].high_g) == pytest.approx((12.414, 33.104), abs=5e-4)
    # staples: from 53 mm on: 594 mm in 12 steps, 394 mm in 8: 2 x (13 + 9) + 4 = 48, x 0.2 to 0.4 g (from
    # memory).
    assert (found["staples"].low_g, found["staples"].high_g) == pytest.approx((9.6, 19.2), abs=0.05)
    # rings and wire: 15 to 60 g (from memory). Sums: 1066.46 and 1276.15.
    assert whole_g(piece) == pytest.approx((1066.46, 1276.15), abs=0.005)


def test_each_figure_says_where_it_comes_from() -> None:
    found = masses(job(face={"width_mm": 700, "height_mm": 500}, canvas={"coated": True}))
    assert {part: one.origin for part, one in found.items()} == {
        "canvas": Origin.GIVEN,
        "bars": Origin.PUBLISHED,
        "braces": Origin.PUBLISHED,
        "coating": Origin.MEMORY,
        "staples": Origin.MEMORY,
        "rings and wire": Origin.MEMORY,
    }
    assert "unknown wood, 358 to 717 kg/m3" in found["bars"].reason
    assert masses(job(bars={"wood": "pine"}))["bars"].origin is Origin.MEMORY
    assert masses(job(bars={"density_kg_m3": 450}))["bars"].origin is Origin.GIVEN


def test_cut_back_corners_are_subtracted() -> None:
    # derived: 400 x 300 mm, depth 20, turn-over 30, no thickness: 500 x 400 = 200,000 mm2. Cut back, of
    # each corner square of 50 x 50 mm the inner 20 x 20 mm stay: 4 x (2500 - 400) = 8400 mm2 go.
    wrap = {"turnover_mm": 30, "finish": "lapped"}
    face, bars, canvas = {"width_mm": 400, "height_mm": 300}, {"depth_mm": 20}, {"thickness_mm": 0}
    whole = job(face=face, bars=bars, canvas=canvas, wrap=wrap)
    cut = job(face=face, bars=bars, canvas=canvas, wrap={**wrap, "corners": "cut-back"})
    assert trimmed_area_mm2(whole) == pytest.approx(200_000, abs=1e-6)
    assert trimmed_area_mm2(cut) == pytest.approx(191_600, abs=1e-6)


def test_trimmed_corners_leave_a_tab() -> None:
    # derived: as above; of each corner square a tab stays, a trapezoid of 20 and 20 - 2 x 8 = 4 mm, 8 mm
    # high: 96 mm2. 200,000 - 4 x (2500 - 96) = 190,384 mm2.
    trimmed = job(
        face={"width_mm": 400, "height_mm": 300},
        bars={"depth_mm": 20},
        canvas={"thickness_mm": 0},
        wrap={"turnover_mm": 30, "finish": "trimmed", "tab_mm": 8},
    )
    assert trimmed_area_mm2(trimmed) == pytest.approx(190_384, abs=1e-6)


@pytest.mark.parametrize("wrap", [{}, {"finish": "trimmed"}])
def test_canvas_that_gives_is_less_canvas(wrap: dict[str, str]) -> None:
    # derived: printed 1.25 % narrower and 2.4 % shorter: the area is divided by 1.0125 x 1.024 = 1.0368.
    slack = trimmed_area_mm2(job(wrap=wrap, canvas={"stretch_percent": [1.25, 2.4]}))
    assert slack == pytest.approx(trimmed_area_mm2(job(wrap=wrap)) / 1.0368, abs=1e-6)


@pytest.mark.parametrize(("hung", "pitch_mm"), [("across", 330.9), ("down", 230.9)])
def test_panels_hang_by_their_middles(hung: str, pitch_mm: float) -> None:
    # derived: a face of 300 x 200 mm, 0.9 mm of canvas round its bars, and a gap of 30 mm.
    for panels in (2, 3):
        found = bars_report(job(group={"panels": panels, "hung": hung, "gap_mm": 30}))
        assert found.pitch_mm == pytest.approx(pitch_mm, abs=1e-9)
    assert bars_report(job()).pitch_mm == 0


def test_a_group_weighs_as_many_panels() -> None:
    one, three = bars_report(job()), bars_report(job(group={"panels": 3}))
    assert three.panel_g == one.panel_g
    assert three.whole_g == pytest.approx([3 * grams for grams in one.whole_g], abs=1e-9)
    assert three.canvas_alone_g == pytest.approx(3 * one.canvas_alone_g, abs=1e-9)


def test_ranges_are_rounded_outwards() -> None:
    # derived: down and up to the next 1 g, 10 g or 0.1 kg.
    assert mass_words((9.6, 19.2)) == "9 to 20 g"
    assert mass_words((101, 109)) == "100 to 110 g"
    assert mass_words((1066, 1276)) == "1.0 to 1.3 kg"
    # Beside a heavier one, in its unit.
    assert mass_words((276.4, 606.2), heaviest=1276) == "0.2 to 0.7 kg"
    assert mass_words((276.4, 606.2), heaviest=999) == "270 to 610 g"


@pytest.mark.parametrize("panels", [1, 3])
@pytest.mark.parametrize(
    "wrap", [{"finish": "trimmed"}, {"corners": "cut-back"}, {"finish": "lapped", "corners": "whole"}]
)
def test_the_layout_and_the_list_of_bars_weigh_the_same_canvas(wrap: dict[str, str], panels: int) -> None:
    of = job(wrap=wrap, group={"panels": panels})
    assert lay_out(of).flat.weight_g * panels == pytest.approx(bars_report(of).canvas_alone_g, abs=1e-9)


def test_a_canvas_that_cannot_be_folded_weighs_what_its_rectangle_does() -> None:
    """Derived: 80.9 + 2 (20 + 25) = 170.9 mm each way, 380 g/m2."""
    small = job(face={"width_mm": 80, "height_mm": 80})
    assert lay_out(small).flat.weight_g == pytest.approx(0.1709**2 * 380, abs=1e-9)
