"""Plans: inside, apart, cut from edge to edge, never worse than rows and columns, and what they refuse."""

from __future__ import annotations

import pytest

from pycore.contract.check import check_job
from pycore.contract.job import Group, Job
from pycore.errors import FieldError
from pycore.layout.plan import plan_sheets
from pycore.plan.check import check_options
from pycore.plan.drawing import plan_svg
from pycore.plan.make import make_plan
from pycore.plan.options import Pin, PlanJob, PlanOptions, Stock, Turning
from pycore.plan.result import Plan
from pycore.speech import speaking
from pycore.tasks.layout import lay_out

from .random_sets import check_plan, cut_by_order, random_set

#: Canvas of the default job, mm (derived): 300 + 2 x (0.45 + 20 + 25), 200 + the same.
WIDE, HIGH = 390.9, 290.9
ROLL = Stock(width_mm=1118)


def planned(*names: str, copies: int = 1, **options: object) -> Plan:
    jobs = [PlanJob(name=name, job=Job(), copies=copies) for name in names]
    return make_plan(jobs, options=PlanOptions.model_validate(options))


@pytest.mark.parametrize("seed", range(12))
def test_a_random_set_is_cut_apart_and_no_worse_than_rows(seed: int) -> None:
    jobs, options = random_set(seed)
    plan = make_plan(jobs, options=options)
    check_plan(plan, jobs, gap_mm=options.gap_mm, knife_mm=options.knife_mm)
    figures = plan.figures
    # To a square centimetre, which the choice between plans neglects.
    assert figures.least_m2 - 1e-9 <= figures.stock_m2 <= figures.rows_m2 + 1e-4
    assert figures.used_m2 + figures.waste_m2 == pytest.approx(figures.stock_m2)
    # Panels of one picture hang beside one another, where their weave shows.
    for one in jobs:
        if one.job.group.panels > 1:
            lies = {piece.turned for sheet in plan.sheets for piece in sheet.pieces if piece.job == one.name}
            assert len(lies) == 1
    # Derived: 20 of any money a square metre.
    assert figures.cost == pytest.approx(20 * figures.stock_m2)


def test_the_checker_sees_a_cut_through_a_piece() -> None:
    plan = planned("a", copies=2, stocks=[ROLL])
    (sheet,) = plan.sheets
    boxes = [(one.x_mm, one.y_mm, one.x_mm + one.width_mm, one.y_mm + one.height_mm) for one in sheet.pieces]
    cut_by_order(sheet, boxes, knife_mm=0)
    moved = [(left + 5, top, right + 5, bottom) for left, top, right, bottom in boxes]
    with pytest.raises(AssertionError):
        cut_by_order(sheet, moved, knife_mm=0)


@pytest.mark.parametrize("panels", [2, 3, 4, 5])
@pytest.mark.parametrize("sheet", [(1118, None), (1118, 914), (610, None), (1000, 1500)])
def test_a_group_by_itself_lies_as_its_layout_has_it(panels: int, sheet: tuple[float, float | None]) -> None:
    """The ticket and the print files' marks follow the layout: where each lies, which way, and the length.

    The face of 212 x 120 mm with bars of 32 mm would take less of a roll of 610 mm where some panels are
    turned and others not; beside one another on the wall their weave would then part.
    """
    tree = {
        "face": {"width_mm": 212, "height_mm": 120},
        "bars": {"depth_mm": 32},
        "group": {"panels": panels},
    }
    job = check_job(tree | {"sheet": {"width_mm": sheet[0], "height_mm": sheet[1]}})
    jobs = [PlanJob(name="a", job=job)]
    plan, layout = make_plan(jobs, options=PlanOptions()), plan_sheets(job)
    assert layout is not None
    assert [one.height_mm for one in plan.sheets] == [layout.length_mm] * len(layout.sheets)
    for made, meant in zip(plan.sheets, layout.sheets, strict=True):
        lies = {one.panel: ((one.x_mm, one.y_mm), one.turned) for one in made.pieces}
        assert lies == {one.panel: (one.position_mm, layout.turned) for one in meant}
    check_plan(plan, jobs, gap_mm=0, knife_mm=0)
    assert plan.notes == ()
    # A gap is a plan's own: all panels lie the same way, and it takes no less than without.
    apart = make_plan(jobs, options=PlanOptions(gap_mm=1))
    assert len({one.turned for made in apart.sheets for one in made.pieces}) == 1
    assert apart.figures.stock_m2 >= plan.figures.stock_m2 - 1e-9
    assert [note.code for note in apart.notes] == ["plan-marks-elsewhere"]


@pytest.mark.parametrize("height", [None, 483])
def test_a_canvas_by_itself_lies_in_the_middle_as_its_marks_have_it(height: float | None) -> None:
    """Derived: as much is cut off on one side as on the other, where the sheet is longer than the canvas."""
    job = check_job({"sheet": {"width_mm": 329, "height_mm": height}})
    jobs = [PlanJob(name="a", job=job)]
    plan, layout = make_plan(jobs, options=PlanOptions()), plan_sheets(job)
    assert layout is not None
    [sheet] = plan.sheets
    [piece] = sheet.pieces
    assert ((piece.x_mm, piece.y_mm), piece.turned) == (layout.sheets[0][0].position_mm, layout.turned)
    assert 2 * piece.x_mm + piece.width_mm == pytest.approx(sheet.width_mm)
    assert 2 * piece.y_mm + piece.height_mm == pytest.approx(sheet.height_mm)
    check_plan(plan, jobs, gap_mm=0, knife_mm=0)
    # Of two the plan is its own.
    both = make_plan([PlanJob(name="a", job=job.model_copy(), copies=2)], options=PlanOptions())
    assert {one.x_mm for sheet in both.sheets for one in sheet.pieces} == {0.0}


def test_groups_on_sheets_of_their_own_lie_as_their_layouts_have_them() -> None:
    group = {"panels": 3}
    trees = [{"group": group, "sheet": {"width_mm": 610}}, {"group": group, "sheet": {"width_mm": 914}}]
    jobs = [PlanJob(name=name, job=check_job(tree)) for name, tree in zip("ab", trees, strict=True)]
    plan = make_plan(jobs, options=PlanOptions())
    assert plan.notes == ()
    for one, sheet in zip(jobs, plan.sheets, strict=True):
        layout = plan_sheets(one.job)
        assert layout is not None
        assert sheet.height_mm == layout.length_mm
        lies = {piece.panel: (piece.x_mm, piece.y_mm) for piece in sheet.pieces}
        assert lies == {canvas.panel: canvas.position_mm for canvas in layout.sheets[0]}
    # Two on one roll share it, and each job's files know of themselves alone.
    both = [PlanJob(name=name, job=jobs[0].job) for name in "ab"]
    assert [note.code for note in make_plan(both, options=PlanOptions()).notes] == ["plan-marks-elsewhere"]


def test_three_side_by_side_on_a_roll() -> None:
    """Derived: turned, three canvases are 3 x 290.9 wide; the dry strips cover the 3 mm margins."""
    plan = planned("a", copies=3, stocks=[ROLL], price_per_m2=10)
    (sheet,) = plan.sheets
    assert [one.turned for one in sheet.pieces] == [True] * 3
    assert [round(one.x_mm, 6) for one in sheet.pieces] == pytest.approx([0, HIGH, 2 * HIGH])
    assert plan.figures.roll_length_mm == pytest.approx(WIDE)
    assert plan.figures.cost == pytest.approx(10 * 1.118 * 0.3909)
    # Derived: off the rest of the roll's width, then between neighbours.
    assert [(cut.way.value, cut.trims) for cut in sheet.cuts] == [
        ("down", True),
        ("down", False),
        ("down", False),
    ]


def test_gap_and_knife_stand_between_neighbours() -> None:
    """Derived: the knife passes within the gap, so the wider of the two counts."""
    for gap, knife, between in ((10, 2, 10), (0, 2, 2)):
        (sheet,) = planned("a", copies=3, stocks=[ROLL], gap_mm=gap, knife_mm=knife).sheets
        starts = [one.x_mm for one in sheet.pieces]
        assert starts[1] - starts[0] == pytest.approx(HIGH + between, abs=0.002)


@pytest.mark.parametrize(
    ("sheet", "turned", "narrow", "other_way"),
    [
        # Derived: 389.0 x 288.0 mm of canvas lie turned on 329 mm, and not turned on 400 x 300 mm.
        (
            {"width_mm": 329, "height_mm": 483},
            True,
            Stock(width_mm=392, height_mm=300),
            "fits here only upright",
        ),
        ({"width_mm": 400, "height_mm": 300}, False, Stock(width_mm=310), "fits only turned sideways"),
    ],
)
def test_what_gives_unequally_lies_as_its_own_sheet_takes_it(
    sheet: dict[str, float], turned: bool, narrow: Stock, other_way: str
) -> None:
    """The give was typed for the way that the layout and the ticket name; a plan contradicts neither."""
    job = check_job({"canvas": {"stretch_percent": [0.5, 1]}, "sheet": sheet})
    assert lay_out(job).sheet.turned is turned
    for options in (PlanOptions(stocks=(ROLL,)), PlanOptions()):
        plan = make_plan([PlanJob(name="a", job=job, copies=3)], options=options)
        assert [one.turned for made in plan.sheets for one in made.pieces] == [turned] * 3
        assert [note.code for note in plan.notes] == ["plan-not-turned"]
    with pytest.raises(FieldError, match=f"{other_way}, and its canvas gives more one way"):
        make_plan([PlanJob(name="a", job=job)], options=PlanOptions(stocks=(narrow,)))
    pin = Pin(piece="a", sheet=1, x_mm=10, y_mm=10, turned=not turned)
    with pytest.raises(FieldError, match="may lie only turned" if turned else "may not lie turned"):
        make_plan([PlanJob(name="a", job=job)], options=PlanOptions(stocks=(ROLL,), pins=(pin,)))


def test_what_must_lie_turned_keeps_its_ink_off_the_margins() -> None:
    """Derived: the dry strip of 25 - 15 = 10 mm is 10 / 1.1 = 9.09 mm as printed where the canvas gives.

    Turned by a quarter that is to the left: a margin of 10 mm there leaves 0.91 mm to keep clear.
    """
    tree = {
        "wrap": {"turnover_mm": 25, "ink_over_mm": 15},
        "canvas": {"stretch_percent": [0, 10]},
        "sheet": {"width_mm": 329, "height_mm": 483, "margin_mm": [0, 0, 0, 10]},
    }
    jobs = [PlanJob(name="a", job=check_job(tree), copies=2)]
    for options in (PlanOptions(), PlanOptions(stocks=(Stock(width_mm=329, margin_mm=(0, 0, 0, 10)),))):
        plan = make_plan(jobs, options=options)
        assert {one.turned for sheet in plan.sheets for one in sheet.pieces} == {True}
        check_plan(plan, jobs, gap_mm=0, knife_mm=0)


def test_a_group_that_gives_unequally_lies_as_its_own_layout_turns_it() -> None:
    """Derived on 1118 mm: one canvas of 387.0 x 290.9 mm takes less length as it is.

    Three of them do turned: 3 x 290.9 = 872.7 mm lie side by side and take 387.0 mm; as they are, 774 mm hold
    two, and a second row takes 581.8 mm.
    """
    canvas, sheet = {"stretch_percent": [1, 0]}, {"width_mm": 1118}
    for panels, turned in ((1, {False}), (3, {True})):
        group = {"panels": panels} if panels > 1 else {}
        job = check_job({"canvas": canvas, "sheet": sheet, "group": group})
        plan = make_plan([PlanJob(name="a", job=job)], options=PlanOptions())
        assert {one.turned for sheet in plan.sheets for one in sheet.pieces} == turned


def test_no_length_of_a_roll_is_longer_than_may_be_printed_at_once() -> None:
    """Derived: 12 pieces of 390.9 x 290.9 mm take 1.36 m2, and one length of the roll has 0.81."""
    roll = Stock(width_mm=900, longest_mm=900)
    plan = planned("a", copies=12, stocks=[roll], gap_mm=20)
    assert sum(len(sheet.pieces) for sheet in plan.sheets) == 12
    assert len(plan.sheets) > 1
    assert max(sheet.height_mm for sheet in plan.sheets) <= 900
    with pytest.raises(FieldError):
        planned("a", stocks=[Stock(width_mm=900, longest_mm=290)])


def test_nothing_is_turned_where_the_weave_differs() -> None:
    plan = planned("a", copies=3, stocks=[ROLL], turning=Turning.NEVER)
    assert not any(one.turned for sheet in plan.sheets for one in sheet.pieces)
    # Derived: two across, and the third below.
    assert plan.figures.roll_length_mm == pytest.approx(2 * HIGH, abs=0.002)


def test_each_job_lies_on_its_own_sheet_where_none_is_chosen() -> None:
    roll = check_job({"sheet": {"width_mm": 610}})
    plan = make_plan(
        [PlanJob(name="a", job=Job()), PlanJob(name="b", job=roll), PlanJob(name="c", job=Job())],
        options=PlanOptions(),
    )
    assert [(one.stock, [piece.name for piece in one.pieces]) for one in plan.sheets] == [
        ("329 x 483 mm sheet", ["a"]),
        ("329 x 483 mm sheet", ["c"]),
        ("610 mm roll", ["b"]),
    ]
    assert plan.figures.cost is None


def test_the_cheaper_stock_is_chosen() -> None:
    """Derived: the wide roll costs nine times as much a square metre and is not twice as good."""
    dear, cheap = Stock(width_mm=1118, price_per_m2=90), Stock(width_mm=610, price_per_m2=10)
    plan = planned("a", copies=4, stocks=[dear, cheap])
    assert {one.stock for one in plan.sheets} == {"610 mm roll"}
    sheets = [Stock(width_mm=329, height_mm=483), Stock(width_mm=610, height_mm=914)]
    # Derived: four canvases on the larger sheet, the fifth on the smaller.
    mixed = planned("a", copies=5, stocks=sheets)
    assert sorted(one.stock for one in mixed.sheets) == ["329 x 483 mm sheet", "610 x 914 mm sheet"]


def test_pinned_pieces_stay_and_the_others_go_round_them() -> None:
    pins = [Pin(piece="a, copy 2", x_mm=400, y_mm=100), Pin(piece="a, copy 1", x_mm=100, y_mm=500)]
    jobs = [PlanJob(name="a", job=Job(), copies=6)]
    plan = make_plan(jobs, options=PlanOptions(stocks=(ROLL,), pins=tuple(pins), gap_mm=4))
    check_plan(plan, jobs, gap_mm=4, knife_mm=0)
    lying = {one.name: one for sheet in plan.sheets for one in sheet.pieces}
    assert [(one.x_mm, one.y_mm) for one in lying.values() if one.pinned] == [(400, 100), (100, 500)]


@pytest.mark.parametrize("seed", [1, 5, 8, 10])
def test_pieces_pinned_where_they_lie_stay_and_the_others_keep_clear(seed: int) -> None:
    """Every other piece of a random plan's first sheet, from its first or its second on."""
    jobs, options = random_set(seed)
    first = make_plan(jobs, options=options).sheets[0]
    pins = tuple(
        Pin(piece=one.name, x_mm=one.x_mm, y_mm=one.y_mm, turned=one.turned)
        for one in first.pieces[seed % 2 :: 2]
    )
    plan = make_plan(jobs, options=options.model_copy(update={"pins": pins}))
    check_plan(plan, jobs, gap_mm=options.gap_mm, knife_mm=options.knife_mm)
    lying = {one.name: one for one in plan.sheets[0].pieces if one.pinned}
    assert set(lying) == {pin.piece for pin in pins}
    for pin in pins:
        one = lying[pin.piece]
        assert (one.x_mm, one.y_mm) == pytest.approx((pin.x_mm, pin.y_mm), abs=1e-6)
        assert one.turned == pin.turned


def test_a_pin_on_a_second_sheet() -> None:
    pins = (Pin(piece="b", sheet=2, x_mm=0, y_mm=0, turned=True),)
    jobs = [PlanJob(name=name, job=Job()) for name in ("a", "b", "c")]
    plan = make_plan(jobs, options=PlanOptions(pins=pins))
    check_plan(plan, jobs, gap_mm=0, knife_mm=0)
    assert [piece.name for piece in plan.sheets[1].pieces] == ["b"]


@pytest.mark.parametrize(
    ("pins", "said"),
    [
        ([{"piece": "aa", "x_mm": 0, "y_mm": 0}], "No piece is called 'aa'; did you mean 'a'"),
        ([{"piece": "a", "x_mm": 0, "y_mm": 0}] * 2, "'a' is pinned twice"),
        ([{"piece": "a", "x_mm": 900, "y_mm": 0}], "x may be 0.0 to 727.1 mm, and it is 900.0 mm"),
        (
            [{"piece": "a", "x_mm": 0, "y_mm": 0}, {"piece": "b", "x_mm": 100, "y_mm": 100}],
            "'b' and 'a' are pinned over each other",
        ),
        ([{"piece": "a", "sheet": 3, "x_mm": 0, "y_mm": 0}], "pinned to sheet 3, and a sheet before it"),
    ],
)
def test_a_pin_that_cannot_be_kept(pins: list[dict[str, object]], said: str) -> None:
    with pytest.raises(FieldError, match=said) as raised:
        planned("a", "b", stocks=[ROLL], pins=pins)
    assert raised.value.field == "pins"


def test_pins_that_no_cut_parts() -> None:
    """Derived: four pieces round a hole, like the vanes of a windmill."""
    places = [(0, 0, False), (WIDE + 1, 0, True), (HIGH + 1, WIDE + 1, False), (0, HIGH + 1, True)]
    pins = [
        {"piece": name, "x_mm": x, "y_mm": y, "turned": turned}
        for name, (x, y, turned) in zip("abcd", places, strict=True)
    ]
    with pytest.raises(FieldError, match="No cut from edge to edge parts the pieces pinned to sheet 1"):
        planned(*"abcd", stocks=[ROLL], pins=pins)


def test_what_cannot_be_planned() -> None:
    with pytest.raises(FieldError, match="Two jobs have the name 'a'"):
        planned("a", "a")
    with pytest.raises(
        FieldError, match=r"'a' needs 390\.9 x 290\.9 mm of canvas, which does not fit on the 200"
    ):
        planned("a", stocks=[Stock(width_mm=200)])
    with pytest.raises(FieldError, match="one job or more"):
        planned()
    with pytest.raises(FieldError, match="at most 5000 canvases; these jobs have 6000"):
        planned(*"abcdef", copies=1000)


@pytest.mark.parametrize(
    ("options", "field"),
    [
        ({"gap_mm": -1}, "gap_mm"),
        ({"stocks": [{"width_mm": 610}, {"height_mm": 400}]}, "stocks.1.width_mm"),
        ({"pins": [{"piece": "a", "x_mm": 0, "y_mm": -2}]}, "pins.0.y_mm"),
        ({"gaps_mm": 1}, "gaps_mm"),
    ],
)
def test_a_wrong_option_is_named_by_its_path(options: dict[str, object], field: str) -> None:
    with pytest.raises(FieldError) as caught:
        check_options(options)
    assert caught.value.field == field


def test_panels_of_a_group_are_pieces() -> None:
    job = Job(group=Group(panels=3))
    plan = make_plan([PlanJob(name="trio", job=job, copies=2)], options=PlanOptions(stocks=(ROLL,)))
    names = {piece.name: (piece.panel, piece.copy_number) for sheet in plan.sheets for piece in sheet.pieces}
    assert len(names) == 6
    assert names["trio, 2 of 3, copy 1"] == (2, 1)


def test_ink_at_the_edge_without_a_gap_is_noted() -> None:
    job = check_job({"wrap": {"ink_over_mm": 25}})
    one = PlanJob(name="a", job=job, copies=2)
    assert [note.code for note in make_plan([one], options=PlanOptions(stocks=(ROLL,))).notes] == [
        "plan-ink-meets"
    ]
    assert make_plan([one], options=PlanOptions(stocks=(ROLL,), gap_mm=5)).notes == ()


def test_a_pin_on_the_margin_leaves_no_room_there_for_others() -> None:
    """Derived: of two pieces on one sheet only the one with a dry strip may lie on the margin."""
    inked = check_job({"wrap": {"ink_over_mm": 25}})
    jobs = [PlanJob(name="a", job=Job()), PlanJob(name="b", job=inked, copies=3)]
    stock = Stock(width_mm=1118, margin_mm=(15, 15, 15, 15))
    plan = make_plan(jobs, options=PlanOptions(stocks=(stock,), pins=(Pin(piece="a", x_mm=0, y_mm=0),)))
    check_plan(plan, jobs, gap_mm=0, knife_mm=0)


def test_a_german_plan_is_drawn_and_refused_in_german() -> None:
    with speaking("de"):
        plan = make_plan([PlanJob(name="", job=Job(), copies=2)], options=PlanOptions())
        drawn = plan_svg(plan)
        with pytest.raises(FieldError) as no_list:
            check_options({"pins": 3})
        with pytest.raises(FieldError) as no_choice:
            check_options({"turning": "no"})
    assert "Bogen 1: " in drawn
    assert " gedreht</text>" in drawn
    assert "Leinwand, Exemplar 1" in drawn
    assert "eine Liste; " in str(no_list.value)
    assert "'where-equal' oder 'never'" in str(no_choice.value)
