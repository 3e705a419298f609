"""A ticket's words: groups of colours out of gamut, and what is loaded in the printer."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from pycore.bars.report import bars_report
from pycore.colour.mapping.clip_report import ClipGroup
from pycore.contract.check import check_job
from pycore.fold.spec import fold_spec
from pycore.layout.plan import plan_sheets
from pycore.layout.sheet import fit_sheet
from pycore.speech import say
from pycore.speech.choice import speaking
from pycore.ticket.fold_words import fold_steps
from pycore.ticket.print_parts import piece_part
from pycore.ticket.words import group_words, load_words, print_steps
from pycore.ticket.work_words import coat_steps, square_steps


@pytest.mark.parametrize(
    ("share", "english", "german"),
    [
        (0.0564, "dark greys: 5.6 %, 2.5, 4.6", "dunkle Grautöne: 5,6 %; 2,5; 4,6"),
        # Derived: it is listed because it is there, so its share is never said to be nothing.
        (0.0001, "dark greys: < 0.1 %, 2.5, 4.6", "dunkle Grautöne: < 0,1 %; 2,5; 4,6"),
    ],
)
def test_a_group_is_said_with_its_share(share: float, english: str, german: str) -> None:
    def words() -> str:
        return group_words(
            ClipGroup(
                number=1,
                name=say("dark greys"),
                share=share,
                filed="#1c1c0c",
                printed="#3a3c3c",
                mean_de=2.5,
                worst_de=4.6,
                place=(0, 0, 1, 1),
            )
        )

    assert words() == english
    with speaking("de"):
        assert words() == german


_WIDE, _TALL = {"width_mm": 300, "height_mm": 200}, {"width_mm": 200, "height_mm": 300}
_SMALL: dict[str, Any] = {
    "face": {"width_mm": 120, "height_mm": 150},
    "bars": {"depth_mm": 20},
    "group": {"panels": 3},
    "sheet": {"width_mm": 450, "height_mm": 260},
}


@pytest.mark.parametrize(
    ("job", "said"),
    # Derived: the canvas is 390.9 x 290.9 mm, or 290.9 x 390.9; the short side lies across 329 mm, and along
    # a roll as little as may be. 610 mm are 24.02 inches, 290.9 are 11.45. Canvases of 210.9 x 240.9 mm lie
    # on 450 x 260 mm by twos, and on 220 x 260 mm one by one.
    [
        ({"face": _WIDE}, ["Load a sheet of 329 x 483 mm", "Load the sheet sideways: the canvas fits"]),
        ({"face": _TALL}, ["Load a sheet of 329 x 483 mm", "Load the sheet upright, as it is drawn here."]),
        (
            {"face": _WIDE, "sheet": {"width_mm": 610}},
            [
                "Load the roll, 610 mm (24.02 in) wide; 290.9 mm (11.45 in) of it are cut.",
                "The canvas lies upright on it, as drawn.",
            ],
        ),
        (
            {"face": _TALL, "sheet": {"width_mm": 610}},
            [
                "Load the roll, 610 mm (24.02 in) wide; 290.9 mm (11.45 in) of it are cut.",
                "The canvas lies sideways on it, as drawn.",
            ],
        ),
        (
            _SMALL,
            [
                "Load 2 sheets of 450 x 260 mm",
                "Load the sheet upright; each print file is one canvas and lies as drawn.",
            ],
        ),
        (
            _SMALL | {"sheet": {"width_mm": 220, "height_mm": 260}},
            ["Load 3 sheets of 220 x 260 mm", "Load the sheet upright, as it is drawn here."],
        ),
        (
            _SMALL | {"sheet": {"width_mm": 700}},
            [
                "Load the roll, 700 mm (27.56 in) wide; 240.9 mm (9.48 in) of it are cut.",
                "Each print file is one canvas; all lie upright on it, as drawn.",
            ],
        ),
    ],
)
def test_what_is_loaded_and_which_way(job: dict[str, Any], said: list[str]) -> None:
    checked = check_job(job)
    plan = plan_sheets(checked) if checked.group.panels > 1 else None
    found = load_words(checked, fit_sheet(checked), plan)
    for one, expected in zip(found, said, strict=False):
        assert one.replace("\N{MULTIPLICATION SIGN}", "x").startswith(expected)
    assert len(found) == 3


def test_the_margins_are_said_side_by_side() -> None:
    job = check_job({"face": _TALL, "sheet": {"width_mm": 329, "height_mm": 483, "margin_mm": [4, 5, 6, 7]}})
    said = load_words(job, fit_sheet(job), None)[-1]
    assert said == "The printer leaves bare: top 4, right 5, bottom 6, left 7 mm of the sheet."


@pytest.mark.parametrize(
    ("job", "said"),
    # Derived: a canvas of 240.9 x 340.9 mm on 230 mm lacks 10.9 mm of width alone, and one of 390.9 x 290.9
    # on a roll of 280 mm likewise. A canvas of 300.9 mm with a dry strip of 19 mm beside a left margin of
    # 30 mm needs 311.9 mm; the sheet's 305 hold it, and 305 less 30 hold its 262.9 mm of ink.
    [
        (
            {"face": {"width_mm": 150, "height_mm": 250}, "sheet": {"width_mm": 230, "height_mm": 483}},
            "It lacks 10.9 mm across.",
        ),
        ({"face": _WIDE, "sheet": {"width_mm": 280}}, "It lacks 10.9 mm across."),
        (
            {
                "face": {"width_mm": 210, "height_mm": 297},
                "sheet": {"width_mm": 305, "height_mm": 483, "margin_mm": [3, 0, 3, 30]},
            },
            "The margins are so uneven that ink falls on one of them wherever the canvas lies.",
        ),
    ],
)
def test_only_what_is_lacking_is_said_to_be_lacking(job: dict[str, Any], said: str) -> None:
    checked = check_job(job)
    assert load_words(checked, fit_sheet(checked), None)[1:] == [said]


def test_what_was_given_is_said_as_it_was_given() -> None:
    """A bar of 3/4 inch is 19.05 mm deep where it is ordered, too, and no 19.1."""
    job = check_job(
        {
            "face": {"width_mm": 336.55, "height_mm": 254},
            "bars": {"depth_mm": 19.05, "width_mm": 38.25},
            "sheet": {"width_mm": 609.65, "margin_mm": [4.25, 3, 3, 3]},
        }
    )
    joined = square_steps(job, bars_report(job))[0].replace("\N{MULTIPLICATION SIGN}", "x")
    assert "2 of 336.55 mm (13.25 in) and 2 of 254 mm (10 in) of 38.25 x 19.05 mm" in joined
    loaded = load_words(job, fit_sheet(job), None)
    assert loaded[0].startswith("Load the roll, 609.65 mm")
    assert "top 4.25, right 3," in loaded[-1]


@pytest.mark.parametrize(("turnover_mm", "is_said"), [(25, True), (0, False)])
def test_a_turn_over_is_tucked_in_with_the_corners(turnover_mm: float, is_said: bool) -> None:
    """Where there is one, it hangs on the side that is tucked under, which is folded no more after that."""
    job = check_job({"wrap": {"turnover_mm": turnover_mm, "ink_over_mm": 0}})
    said = {stage.name: words for stage, words in fold_steps(fold_spec(job))}
    assert said["tuck"].endswith("The turn-over of left and right goes on to the back with it.") == is_said


def test_a_tall_face_is_drawn_no_higher_than_a_square_one() -> None:
    """Derived: 46 mm at most, and 1 mm above."""
    job = check_job({"face": _TALL})
    for rows, columns in ((100, 100), (150, 100), (500, 100)):
        drawn = piece_part(job, np.zeros((rows, columns, 3), np.uint8), bars_report(job), 190.0)
        assert drawn.height_mm == pytest.approx(47)


def test_the_face_is_measured_as_it_is_printed() -> None:
    """Derived: with 2 x 0.45 mm, less what the canvas gives: 300.9 / 1.02 = 295, 200.9 / 1.01 = 198.9."""
    job = check_job({"face": _WIDE, "canvas": {"stretch_percent": [2, 1]}, "print": {"ppi": 123.4}})
    said = print_steps(job)[-1].replace("\N{MULTIPLICATION SIGN}", "x")
    assert said.endswith("(123.4 ppi, 8 bits a channel); measure the face on the print: 295 x 198.9 mm.")


@pytest.mark.parametrize(
    ("face", "said"),
    # Derived: openings are 80 mm less than the face; a stretch is at most 600 mm.
    [
        (
            (700, 700),
            "Fit the braces, 2 of 620 mm (24.41 in) of 35 x 11 mm, at equal distances; where two cross",
        ),
        (
            (700, 640),
            "Fit the braces, 1 of 620 mm (24.41 in) and 1 of 560 mm (22.05 in) of 35 x 11 mm, at equal",
        ),
        ((700, 540), "Fit the brace, 1 of 460 mm (18.11 in) of 35 x 11 mm, across the middle"),
        ((1300, 500), "Fit the braces, 2 of 420 mm (16.54 in) of 35 x 11 mm, at equal distances (common"),
    ],
)
def test_braces_of_one_length_cross_too(face: tuple[int, int], said: str) -> None:
    job = check_job({"face": {"width_mm": face[0], "height_mm": face[1]}})
    step = square_steps(job, bars_report(job))[1].replace("\N{MULTIPLICATION SIGN}", "x")
    assert step.startswith(said)
    assert ("halve both" in step) == (min(face) > 600)


def test_a_print_without_marks_has_no_trim_corners_to_go_by() -> None:
    """Derived: 300 + 0.9 + 2 (20 + 25) by 200 + 90.9 mm."""
    said = [coat_steps(check_job({"face": _WIDE, "print": {"marks": marks}}))[-1] for marks in (True, False)]
    assert said[0].endswith("along the trim corners where the print has them.")
    assert said[1].replace("\N{MULTIPLICATION SIGN}", "x") == (
        "Trim the canvas to 390.9 x 290.9 mm: the print has no trim corners, "
        "so measure from the face outwards."
    )
