"""Notes carry their figures, the worst comes first, and each names a field that would mend it."""

from __future__ import annotations

from typing import Any

import pytest

from pycore.contract.schema import field_schema
from pycore.layout.report import layout_report

from ..worked import worked_job


def notes(size_px: tuple[int, int] | None = None, /, **parts: Any) -> dict[str, Any]:
    reply = layout_report(worked_job(**parts), picture_px=size_px)
    return {note.code: note for note in reply.notes}


def test_a_short_sheet_is_a_stop_and_comes_first() -> None:
    found = notes()
    assert next(iter(found)) == "sheet-short"
    # Derived: see test_sheet: 97.9 and 43.9 mm short.
    assert "97.9 mm short across its width" in found["sheet-short"].message
    assert found["sheet-short"].severity.value == "stop"


def test_what_would_fit_is_rounded_down() -> None:
    """Derived: on 329 mm A4 takes (329 - 210.9 - 50) / 2 = 34.05 mm: said as 34, never as 34.1."""
    found = notes(face={"width_mm": 210, "height_mm": 297})
    assert "bars up to 34 mm" in found["sheet-short"].remedy


@pytest.mark.parametrize(
    ("parts", "field"),
    # Derived on 329 mm: for an A4 face 38 mm bars leave a turn-over of (329 - 210.9 - 76) / 2 = 21.05 mm, and
    # 45 mm bars 14.05 mm, too little to staple; a face of 300 mm leaves less than nothing for both.
    [
        ({"face": {"width_mm": 210, "height_mm": 297}}, "wrap.turnover_mm"),
        ({"face": {"width_mm": 210, "height_mm": 297}, "bars": {"depth_mm": 45}}, "bars.depth_mm"),
        ({}, "face.width_mm"),
    ],
)
def test_a_short_sheet_names_the_field_that_would_mend_it(parts: dict[str, Any], field: str) -> None:
    assert notes(**parts)["sheet-short"].field == field


def test_uneven_margins_are_named_where_nothing_else_is_short() -> None:
    """Derived: canvas 210.9 + 90 = 300.9 mm, dry strip 25 - 6 = 19 mm, ink 262.9 mm.

    A left margin of 30 mm needs 300.9 + 30 - 19 = 311.9 mm; the sheet has 305, of which 275 can be printed.
    """
    found = notes(
        face={"width_mm": 210, "height_mm": 297},
        bars={"depth_mm": 20},
        sheet={"width_mm": 305, "height_mm": 483, "margin_mm": [3, 0, 3, 30]},
    )
    assert "margins are so uneven that ink falls on one of them" in found["sheet-short"].message


@pytest.mark.parametrize(
    ("pixels", "code", "severity"),
    # Derived on a 4 : 3 face of 400 mm: 400 / 25.4 = 15.75 in; 1570 px give 99.5 ppi, 1600 101.4, 2400 152.
    # Common practice, from memory: under 100 is coarse, 100 to 150 soft, 150 and more enough.
    [(1570, "pixels-few", "watch"), (1600, "pixels-soft", "hint"), (2400, None, None)],
)
def test_pixels(pixels: int, code: str | None, severity: str | None) -> None:
    found = notes((pixels, pixels * 3 // 4))
    named = [note for note in found.values() if note.code.startswith("pixels")]
    assert [note.code for note in named] == ([code] if code else [])
    assert [note.severity.value for note in named] == ([severity] if severity else [])
    # Derived: 99.5 ppi is below 100, so it is not shown as 100.
    if code == "pixels-few":
        assert "gets 99 picture pixels" in named[0].message


@pytest.mark.parametrize(
    ("file_ppi", "pixels", "codes"),
    # Derived: a face of 400.9 x 300.9 mm takes 1800 px down, 151.9 ppi; 900 give 76.0.
    # What the picture has not, no file brings.
    # Of a picture that is coarse itself a file is told of that keeps less than four fifths, 60.8 of 76.
    [
        (72, 2400, ["file-coarse"]),
        (100, 2400, []),
        (76, 1200, ["pixels-few"]),
        (61, 1200, ["pixels-few"]),
        (60, 1200, ["pixels-few", "file-coarse"]),
    ],
)
def test_a_file_coarser_than_its_picture_is_told(file_ppi: float, pixels: int, codes: list[str]) -> None:
    found = notes((pixels, pixels * 3 // 4), print={"ppi": file_ppi})
    assert [code for code in found if code.startswith(("file-c", "pixels"))] == codes
    if codes == ["file-coarse"]:
        told = found["file-coarse"]
        assert "has 72 pixels per inch, the picture 151: below 100 looks coarse" in told.message
        assert (told.severity.value, told.field) == ("watch", "print.ppi")


def test_more_of_the_picture_is_asked_for_only_where_there_is_more() -> None:
    """The largest crop of the face's shape touches two edges and cannot grow; half of it can."""
    for picture in (None, {"crop": {"x": 0, "y": 0, "width": 1, "height": 1}}):
        parts = {} if picture is None else {"picture": picture}
        remedy = notes((1000, 750), **parts)["pixels-few"].remedy
        assert remedy == "Make the face smaller, or use a picture with more pixels."
    half = {"crop": {"x": 0, "y": 0, "width": 0.5, "height": 0.5}}
    remedy = notes((1000, 750), picture=half)["pixels-few"].remedy
    assert remedy == "Make the crop larger or the face smaller."


@pytest.mark.parametrize(
    ("parts", "code"),
    [
        ({"wrap": {"ink_over_mm": 0}}, "no-ink-over"),
        ({"wrap": {"turnover_mm": 10}}, "turnover-narrow"),
        ({"face": {"width_mm": 700}, "bars": {"depth_mm": 18}}, "bars-shallow"),
        ({"wrap": {"over": "left-right"}}, "corners-at-the-side"),
    ],
)
def test_wrap_advice_appears_only_where_it_is_due(parts: dict[str, Any], code: str) -> None:
    assert code in notes(**parts)
    assert code not in notes()


def test_a_turn_over_is_narrow_below_15_mm() -> None:
    """Common practice: what a stapler's head and fingers need."""
    assert "turnover-narrow" in notes(wrap={"turnover_mm": 14.9})
    assert "turnover-narrow" not in notes(wrap={"turnover_mm": 15})


def test_continued_sides_are_said_to_be_made_up_or_mirrors() -> None:
    assert "continued-invented" not in notes()
    found = notes(sides={"fill": "mirror", "right": {"fill": "continued"}})["continued-invented"]
    assert "right side is to be continued" in found.message
    # The layout has not seen the picture, so it cannot say which it is.
    assert found.message.endswith("A side that would look no better so is a mirror.")
    assert "lines that run into the edge" in found.message
    assert (found.place.value, found.field, found.severity.value) == ("right", "sides.fill", "hint")
    everywhere = notes(sides={"fill": "continued"})["continued-invented"]
    assert "top, right, bottom and left sides are" in everywhere.message


def test_every_note_names_a_field_of_the_contract() -> None:
    found = notes(
        (300, 200),
        face={"width_mm": 950},
        bars={"depth_mm": 18},
        sides={"fill": "run-on"},
        wrap={"over": "left-right", "turnover_mm": 5, "ink_over_mm": 0},
    )
    assert len(found) >= 6
    for note in found.values():
        assert field_schema(note.field) is not None, note


def test_a_roll_is_tight_across_only() -> None:
    """Derived: across a 610 mm roll 526.9 mm leave 83.1; along it nothing is left, as it is cut there."""
    assert "sheet-tight" not in notes(sheet={"width_mm": 610})
    # Derived: 528 - 526.9 leaves 1.1 mm. Common practice: under 3 mm is tight.
    tight = notes(face={"width_mm": 400, "height_mm": 400}, sheet={"width_mm": 528})["sheet-tight"]
    assert "1.1 mm of the roll" in tight.message


def test_the_file_s_own_width_is_held_against_what_can_be_printed() -> None:
    """Derived: 211 + 0.9 + 2 (33 + 25) = 327.9 mm of file; 329 less two margins of 3 mm are 323."""
    tight = {"face": {"width_mm": 211, "height_mm": 297}, "bars": {"depth_mm": 33}}
    found = notes(**tight)["file-over-margins"]
    assert "327.9 mm wide, 323.0 mm of which can be printed" in found.message
    assert "long" not in found.message
    assert (found.severity.value, found.field) == ("hint", "sheet.margin_mm")
    assert "file-over-margins" not in notes(**tight, sheet={"width_mm": 334, "height_mm": 483})
    # Derived: 297 + 0.9 + 2 (33 + 25) = 413.9 mm; 416 less 6 are 410.
    along = notes(**tight, sheet={"width_mm": 334, "height_mm": 416})["file-over-margins"]
    assert "the print file is 413.9 mm long, 410.0 mm of which can be printed;" in along.message
    # A roll's ends are margins of what is cut off, not of the file.
    assert "file-over-margins" not in notes(**tight, sheet={"width_mm": 610})


def test_ink_that_only_fits_off_the_middle_is_said_with_its_place() -> None:
    """Derived: 262.8 mm of canvas, 19 of them bare at each end, on 300 mm with a margin of 45 at the left.

    In the middle, 18.6 mm from the left, ink begins at 37.6; it must begin at 45, so 7.4 further right.
    """
    job = {
        "face": {"width_mm": 171.9, "height_mm": 120},
        "wrap": {"turnover_mm": 25, "ink_over_mm": 6},
        "bars": {"depth_mm": 20},
    }
    sheet = {"width_mm": 300, "height_mm": 400, "margin_mm": [3, 0, 3, 45]}
    found = notes(**job, sheet=sheet)
    off = found["file-off-middle"]
    assert "7.4 mm into the margin" in off.message
    assert off.remedy == "Print at 100 percent, with the file 26.0 mm from the left edge of the sheet."
    assert off.severity.value == "watch"
    assert "centred" not in found["file-over-margins"].remedy
    # On a roll it is the same; with even margins, or 7.5 mm less, the middle is right.
    assert (
        "left edge of the roll" in notes(**job, sheet=sheet | {"height_mm": None})["file-off-middle"].remedy
    )
    assert "file-off-middle" not in notes(**job, sheet=sheet | {"margin_mm": [3, 0, 3, 37.5]})
    assert "file-off-middle" not in notes(**job, sheet=sheet | {"margin_mm": [3, 3, 3, 3]})


@pytest.mark.parametrize(
    ("width_mm", "depth_mm", "is_said"), [(599, 18, False), (600, 18, True), (600, 25, False)]
)
def test_shallow_bars_over_a_long_span(width_mm: float, depth_mm: float, is_said: bool) -> None:
    """Common practice, from memory: under 25 mm deep, bars bend from a span of 600 mm on."""
    found = notes(face={"width_mm": width_mm, "height_mm": 100}, bars={"depth_mm": depth_mm})
    assert ("bars-shallow" in found) == is_said
