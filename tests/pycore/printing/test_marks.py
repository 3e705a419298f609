"""Marks: where the bench needs them, and nowhere that is seen."""

from __future__ import annotations

from typing import Any

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pycore.contract.check import check_job
from pycore.contract.notes import Note
from pycore.layout.grid import PixelGrid, pixel_grid
from pycore.layout.printable import printable_area
from pycore.layout.sheet import fit_sheet
from pycore.printing.lettering import letters
from pycore.printing.marks import CLEAR_MM, plan_marks
from pycore.speech.choice import speaking


def _marked(
    ppi: float, *, channels: int = 3, is_cmyk: bool = False, **job: Any
) -> tuple[npt.NDArray[np.bool_], PixelGrid, list[str]]:
    checked = check_job({"name": "Low tide"} | job)
    grid = pixel_grid(checked, ppi=ppi)
    canvas = np.full((grid.height_px, grid.width_px, channels), 0 if is_cmyk else 255, np.uint8)
    bare = canvas[0, 0].copy()
    marks = plan_marks(checked, grid, printable=printable_area(checked), date="2031-04-30")
    # In strips, as a print file is made.
    for first in range(0, len(canvas), 97):
        marks.draw(canvas[first : first + 97], first, is_cmyk=is_cmyk)
    return (canvas != bare).any(axis=2), grid, [note.code for note in marks.notes]


@settings(max_examples=25, deadline=None)
@given(
    st.floats(60, 300),
    st.floats(60, 300),
    st.floats(6, 60),
    st.floats(0, 60),
    st.floats(0, 1),
    st.floats(36, 150),
)
def test_no_mark_is_ever_seen(w: float, h: float, depth: float, turn: float, ink: float, ppi: float) -> None:
    """Derived: face and sides end at the back arrises; nothing may be drawn within 3 mm of them or on ink."""
    ink_over = turn * ink
    marked, grid, _ = _marked(
        ppi,
        face={"width_mm": w, "height_mm": h},
        bars={"depth_mm": depth},
        wrap={"turnover_mm": turn, "ink_over_mm": ink_over},
    )
    clear = int(np.floor(CLEAR_MM * grid.px_per_mm))
    r = slice(min(grid.rows[1], grid.back_rows[0] - clear), max(grid.rows[4], grid.back_rows[1] + clear))
    c = slice(
        min(grid.columns[1], grid.back_columns[0] - clear),
        max(grid.columns[4], grid.back_columns[1] + clear),
    )
    # The visible parts are the cross of face and sides, and at most the flaps in the corner squares.
    assert not marked[max(r.start, 0) : r.stop, max(c.start, 0) : c.stop].any()


def test_ticks_stand_on_the_fold_lines() -> None:
    marked, grid, notes = _marked(100.0)
    assert notes == []
    row = min(grid.back_rows[0] - int(np.ceil(CLEAR_MM * grid.px_per_mm)), grid.rows[1]) - 1
    for line in (*grid.columns[2:4], *grid.back_columns):
        assert marked[row, line] or marked[row, line - 1]
        assert not marked[row, line + 5]
        assert not marked[row, line - 5]
    column = grid.back_columns[1] + int(np.ceil(CLEAR_MM * grid.px_per_mm))
    column = max(column, grid.columns[4])
    for line in (*grid.rows[2:4], *grid.back_rows):
        assert marked[line, column]


def test_ticks_begin_three_millimetres_past_the_back_edge() -> None:
    """Derived: 254 ppi are 10 pixels a mm; the bleed of 1 mm ends before the 3 mm that stay clear."""
    marked, grid, _ = _marked(254.0, wrap={"ink_over_mm": 1})
    upwards = marked[: grid.back_rows[0], grid.columns[2]][::-1]
    assert np.flatnonzero(upwards)[0] == 30
    leftwards = marked[grid.rows[2], : grid.back_columns[0]][::-1]
    assert np.flatnonzero(leftwards)[0] == 30


def test_trim_corners_lie_on_the_canvas_edges() -> None:
    marked, _, _ = _marked(100.0)
    for corner in (marked, marked[::-1], marked[:, ::-1], marked[::-1, ::-1]):
        assert corner[0, :15].all()
        assert corner[:15, 0].all()
        assert not corner[5:15, 5:15].any()


def _boxed(ink: npt.NDArray[np.bool_]) -> npt.NDArray[np.bool_]:
    rows, columns = np.flatnonzero(ink.any(axis=1)), np.flatnonzero(ink.any(axis=0))
    return ink[rows[0] : rows[-1] + 1, columns[0] : columns[-1] + 1]


def test_top_is_named_above_and_the_job_below() -> None:
    marked, grid, _ = _marked(150.0)
    middle = slice(grid.columns[2] + 60, grid.columns[3] - 60)
    above, below = marked[: grid.rows[1], middle], marked[grid.rows[4] :, middle]
    assert above.any()
    # The line of text is many letters long, TOP has three.
    assert below.any(axis=0).sum() > 5 * above.any(axis=0).sum()
    written = np.flatnonzero(above.any(axis=0))
    middle_of_top = (written[0] + written[-1]) / 2
    assert middle_of_top == pytest.approx(above.shape[1] / 2, abs=8)


def test_top_is_upright_as_seen_from_the_front() -> None:
    """Derived: 2.8 mm at 300 ppi are 33 pixels, three times the letters' own 11."""
    marked, grid, _ = _marked(300.0)
    above = _boxed(marked[: grid.rows[1], grid.columns[2] + 60 : grid.columns[3] - 60])
    assert (above == _boxed(letters("TOP", enlarged=3))).all()


def test_a_coarse_file_has_its_letters_where_the_strip_has_the_room() -> None:
    """Derived: at 72 ppi the strip of 19 mm has 53 pixels, and a line of letters 11, 3.9 mm."""
    marked, grid, notes = _marked(72.0)
    assert notes == []
    above = _boxed(marked[: grid.rows[1], grid.columns[2] + 30 : grid.columns[3] - 30])
    assert (above == _boxed(letters("TOP", enlarged=1))).all()


def test_a_narrow_turnover_is_left_bare_with_a_note() -> None:
    marked, _, notes = _marked(100.0, wrap={"turnover_mm": 4.5, "ink_over_mm": 1})
    assert not marked.any()
    assert notes == ["marks-left-out"]


def test_a_strip_without_room_for_letters_keeps_its_ticks() -> None:
    marked, _, notes = _marked(40.0, wrap={"turnover_mm": 6, "ink_over_mm": 1})
    assert marked.any()
    assert notes == ["marks-left-out", "marks-left-out"]


@pytest.mark.parametrize("name", ["潮", "Ebbe\n\x00früh", "x" * 500, ""])
def test_no_name_breaks_the_marks(name: str) -> None:
    marked, _, notes = _marked(100.0, name=name)
    assert marked.any()
    assert set(notes) <= {"marks-left-out"}
    assert bool(notes) == (name != "")


def test_inks_are_black_alone() -> None:
    job = check_job({})
    grid = pixel_grid(job, ppi=60)
    canvas = np.zeros((grid.height_px, grid.width_px, 4), np.uint8)
    marks = plan_marks(job, grid, printable=printable_area(job), date="2031-04-30")
    marks.draw(canvas, 0, is_cmyk=True)
    assert (canvas[..., :3] == 0).all()
    assert set(np.unique(canvas[..., 3])) == {0, 255}


def _printable(job: dict[str, Any], grid: PixelGrid, shape: tuple[int, ...]) -> npt.NDArray[np.bool_]:
    """Which pixels' middles lie inside the sheet's margins, where `fit_sheet` puts the canvas."""
    checked = check_job(job)
    fit, (top, right, bottom, left) = fit_sheet(checked), checked.sheet.margin_mm
    x, y = fit.position_mm
    columns = x + (np.arange(shape[1]) + 0.5) / grid.px_per_mm
    rows = y + (np.arange(shape[0]) + 0.5) / grid.px_per_mm
    across = (columns > left) & (columns < checked.sheet.width_mm - right)
    along = (rows > top) & (rows < fit.length_mm - bottom)
    return along[:, np.newaxis] & across


_TIGHT: dict[str, Any] = {"face": {"width_mm": 211, "height_mm": 297}, "bars": {"depth_mm": 33}}
_A3_PLUS = {"width_mm": 329, "height_mm": 483}


@pytest.mark.parametrize(
    ("job", "turned"),
    [
        (_TIGHT | {"sheet": _A3_PLUS}, False),
        (_TIGHT | {"sheet": {"width_mm": 329}}, False),
        (_TIGHT | {"sheet": {"width_mm": 483, "height_mm": 329}}, True),
        (_TIGHT | {"sheet": {"width_mm": 329, "height_mm": 420, "margin_mm": [18, 0, 12, 0]}}, False),
        (_TIGHT | {"sheet": {"width_mm": 330, "height_mm": 420, "margin_mm": [3, 1, 14, 0.2]}}, False),
    ],
)
def test_no_mark_lies_where_the_printer_cannot_print(job: dict[str, Any], turned: bool) -> None:
    """Derived: 211 + 0.9 + 2 (33 + 25) = 327.9 mm of canvas on 329 mm leave 0.55 mm at each side."""
    assert fit_sheet(check_job(job)).turned is turned
    marked, grid, notes = _marked(150.0, **job)
    assert "marks-unprintable" in notes
    assert marked.any()
    reached = marked.T if turned else marked
    assert not (reached & ~_printable(job, grid, reached.shape)).any()


def test_the_marks_that_fit_stay() -> None:
    """Derived: across the sheet 2.45 mm of canvas cannot be printed, along it nothing.

    So no corner's arm stays that runs along a long side, and the ticks on it lose 2.45 of their 5 mm.
    """
    marked, grid, notes = _marked(150.0, **_TIGHT, sheet=_A3_PLUS)
    assert notes == ["marks-unprintable"]
    assert marked[0, grid.columns[2] - 40 :].any()
    beyond = int(2.45 * grid.px_per_mm)
    assert not marked[:, :beyond].any()
    # Ticks on the left side's turn-over stand on the rows of the front edges.
    assert marked[grid.rows[2], beyond + 2 : grid.columns[1]].any()


def _notes(**job: Any) -> list[Note]:
    checked = check_job(job)
    grid, area = pixel_grid(checked, ppi=150.0), printable_area(checked)
    return plan_marks(checked, grid, printable=area, date="2031-04-30").notes


def test_a_note_names_the_marks_that_are_missing_and_what_is_loaded() -> None:
    """Derived: a roll is cut to the canvas, so its ends lie in margins of 5 mm; the ticks do not."""
    roll = {"width_mm": 610, "margin_mm": [5, 5, 5, 5]}
    (note,) = _notes(sheet=roll)
    assert note.message.startswith("No trim corners are drawn: where the canvas lies on the roll they")
    # A larger sheet is none, and no roll is so wide that its ends are printed.
    assert note.remedy.startswith("A roll is cut where the canvas ends.")
    with speaking("de"):
        (note,) = _notes(sheet=roll)
    assert note.message.startswith(
        "Keine Schnittmarken werden gezeichnet: So, wie die Leinwand auf der Rolle"
    )
    (note,) = _notes(**_TIGHT, sheet=_A3_PLUS)
    assert note.message.startswith("Not all trim corners are drawn: where the canvas lies on the sheet they")
    assert note.remedy.startswith("Load a larger sheet")


def test_the_marks_speak_the_language_of_their_notes() -> None:
    job = check_job({})
    grid, area = pixel_grid(job, ppi=150.0), printable_area(job)
    with speaking("de"):
        marks = plan_marks(job, grid, printable=area, date="2031-04-30", outlines=True)
    assert [one.text for one in marks.texts] == ["OBEN", "Ohne Titel, 300 x 200 mm, 20 mm tief, 2031-04-30"]


def test_a_name_that_is_too_long_is_to_be_shortened() -> None:
    """Derived: the strip is as wide as the face whatever the turn-over is."""
    (note,) = _notes(name="Low tide " * 60)
    assert note.message.endswith("is longer than the face is wide; its end is left out.")
    assert note.remedy == "Give the piece a shorter name, or write on the back by hand."


def test_a_canvas_that_the_sheet_does_not_hold_gets_all_its_marks() -> None:
    """Another sheet will be loaded; which margins it has is not known."""
    marked, _, notes = _marked(100.0, sheet={"width_mm": 200, "height_mm": 200})
    assert notes == []
    assert marked[0, :15].all()
