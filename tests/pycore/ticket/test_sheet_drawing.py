"""The ticket's drawings: what is loaded lies as on the sheet, the back is to scale, the fold in its width."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, cast

import pytest

from pycore.bars.frame import frame_of
from pycore.bars.hanging import hanging_of
from pycore.contract.check import check_job
from pycore.fold.spec import fold_spec
from pycore.layout.plan import plan_sheets
from pycore.layout.sheet import SheetFit, fit_sheet
from pycore.printing.pdf.letters import width_in_ems
from pycore.ticket.back_drawing import back_drawing
from pycore.ticket.lines import MM_PER_POINT
from pycore.ticket.paper import TicketPages
from pycore.ticket.sheet_drawing import sheet_drawing
from pycore.ticket.work_parts import fold_part

#: Top, right, bottom, left.
_MARGINS = (5.0, 10.0, 15.0, 30.0)
Insets = tuple[float, ...]


class _Recorded:
    """Pages that keep the boxes and lines drawn on them."""

    def __init__(self) -> None:
        self.boxes: list[tuple[float, float, float, float]] = []
        self.lines: list[Sequence[tuple[float, float]]] = []
        self.texts: list[str] = []
        self.ends: list[float] = []

    def box(self, x: float, y: float, wide: float, high: float, **_: Any) -> None:
        self.boxes.append((x, y, x + wide, y + high))

    def line(self, points: Sequence[tuple[float, float]], **_: Any) -> None:
        self.lines.append(points)

    def text(self, x: float, _y: float, text: str, *, size_pt: float, **_: Any) -> None:
        self.texts.append(text)
        self.ends.append(x + width_in_ems(text) * size_pt * MM_PER_POINT)

    def area(self, *_: Any, **__: Any) -> None: ...


def _drawn(face: dict[str, float], high_mm: float) -> tuple[SheetFit, list[Insets]]:
    """How far canvas, ink, face and the printable part lie from the drawn sheet's edges, in mm."""
    job = check_job({"face": face, "sheet": {"width_mm": 329, "height_mm": 483, "margin_mm": _MARGINS}})
    fit, pages = fit_sheet(job), _Recorded()
    sheet_drawing(job, fit, None, width_mm=80, most_mm=70).draw(cast(TicketPages, pages), 7, 11)
    sheet, *parts, outline = pages.boxes
    assert outline == sheet
    (edge,) = pages.lines
    parts.append((*edge[0], *edge[2]))
    scale = (sheet[3] - sheet[1]) / high_mm
    found = [
        tuple(abs(one - other) / scale for one, other in zip(part, sheet, strict=True)) for part in parts
    ]
    # From the left, the top, the right and the bottom; ink and face lie in the middle of the canvas.
    assert sheet[0] == pytest.approx(7)
    return fit, found


def test_upright_it_is_drawn_as_it_is_loaded() -> None:
    """Derived: the canvas is 290.9 x 390.9 mm; the left margin of 30 mm needs 11 mm beside its dry 19."""
    fit, (canvas, ink, face, printable) = _drawn({"width_mm": 200, "height_mm": 300}, 483)
    assert not fit.turned
    assert canvas == pytest.approx((19.05, 46.05, 329 - 290.9 - 19.05, 483 - 390.9 - 46.05))
    assert [one - other for one, other in zip(ink, canvas, strict=True)] == pytest.approx([19] * 4)
    assert [one - other for one, other in zip(face, canvas, strict=True)] == pytest.approx([45] * 4)
    top, right, bottom, left = _MARGINS
    assert printable == pytest.approx((left, top, right, bottom))


def test_sideways_the_sheet_lies_on_its_left_edge() -> None:
    """Derived: as above, turned by a quarter to the left: what was at the right lies above."""
    fit, (canvas, ink, _, printable) = _drawn({"width_mm": 300, "height_mm": 200}, 329)
    assert fit.turned
    assert canvas == pytest.approx((46.05, 329 - 290.9 - 19.05, 483 - 390.9 - 46.05, 19.05))
    assert [one - other for one, other in zip(ink, canvas, strict=True)] == pytest.approx([19] * 4)
    top, right, bottom, left = _MARGINS
    assert printable == pytest.approx((top, right, bottom, left))


def test_canvases_that_share_a_roll_say_where_they_begin() -> None:
    """Derived: three canvases of 390.9 x 290.9 mm lie turned on 610 mm, two beside one another.

    610 less 2 x 290.9 leave 14.1 mm at each side; the third begins 390.9 mm along. The drawing lies on the
    roll's left edge, so each corner is the lower left one there.
    """
    job = check_job({"group": {"panels": 3}, "sheet": {"width_mm": 610}})
    plan, pages = plan_sheets(job), _Recorded()
    sheet_drawing(job, fit_sheet(job), plan, width_mm=80, most_mm=70).draw(cast(TicketPages, pages), 7, 11)
    said = ("14.1 / 0", "305 / 0", "14.1 / 390.9")
    assert tuple(text for text in pages.texts if "/" in text and "mm" not in text) == said
    dots = [box for box in pages.boxes if box[2] - box[0] == pytest.approx(0.8)]
    sheet = pages.boxes[0]
    scale = (sheet[3] - sheet[1]) / 610
    for dot, text in zip(dots, said, strict=True):
        across, along = (float(one) for one in text.split(" / "))
        assert (dot[0] + 0.4 - sheet[0]) / scale == pytest.approx(along, abs=0.1)
        assert (sheet[3] - dot[1] - 0.4) / scale == pytest.approx(across, abs=0.1)
    alone = _Recorded()
    sheet_drawing(job, fit_sheet(job), None, width_mm=80, most_mm=70).draw(cast(TicketPages, alone), 7, 11)
    assert not any("/" in text for text in alone.texts)


@pytest.mark.parametrize(("most_mm", "lines"), [(70, 1), (45, 2)])
def test_the_place_of_a_narrow_canvas_stays_on_it(most_mm: float, lines: int) -> None:
    """Derived: a canvas of 264.9 mm is 14 or 9 mm wide where 1300 mm of sheet are drawn 66 or 41 mm high."""
    face, sheet = {"width_mm": 144, "height_mm": 398}, {"width_mm": 914, "height_mm": 1300}
    tree = {"face": face, "bars": {"depth_mm": 25}, "wrap": {"turnover_mm": 35}, "sheet": sheet}
    job, pages = check_job(tree | {"group": {"panels": 2}}), _Recorded()
    drawing = sheet_drawing(job, fit_sheet(job), plan_sheets(job), width_mm=80, most_mm=most_mm)
    drawing.draw(cast(TicketPages, pages), 7, 11)
    # Of the boxes each fourth is a canvas, then come its ink, its face, and the dot at its corner.
    canvases = pages.boxes[1:-1:4]
    said = [
        one for one in zip(pages.texts, pages.ends, strict=True) if one[0][0].isdigit() and len(one[0]) > 1
    ]
    assert len(said) == 2 * lines + 1
    for number, (_, end) in enumerate(said[:-1]):
        left, _, right, _ = canvases[number // lines]
        assert left < end <= right


def test_the_turn_over_on_the_back_is_drawn_to_scale() -> None:
    """Derived: 25 mm from each edge of a panel of 300 x 200 mm; the bars are wider."""
    job, pages = check_job({"face": {"width_mm": 300, "height_mm": 200}}), _Recorded()
    frame = frame_of(job)
    hanging = hanging_of(frame, heaviest_g=500)
    back_drawing(job, frame, hanging, width_mm=80, most_mm=70).draw(cast(TicketPages, pages), 7, 11)
    panel = pages.boxes[0]
    # The panel's outline comes last of its parts, after the inner edge of the turn-over.
    inner = pages.boxes[pages.boxes.index(panel, 1) - 1]
    scale = (panel[2] - panel[0]) / 300
    found = [abs(one - other) / scale for one, other in zip(inner, panel, strict=True)]
    assert found == pytest.approx([25] * 4)


@pytest.mark.parametrize("finish", ["tucked", "lapped", "trimmed"])
def test_the_fold_s_drawings_and_figures_stay_in_their_width(finish: str) -> None:
    """Between 7 and 197 mm from the paper's left edge; the table's lines reach to the end."""
    job, pages = check_job({"wrap": {"finish": finish}}), _Recorded()
    fold_part(job, fold_spec(job), 190, drawn_share=0.8).draw(cast(TicketPages, pages), 7, 11)
    xs = [float(x) for line in pages.lines for x, _ in line]
    assert min(xs) >= 7
    assert max(xs) == pytest.approx(197, abs=1e-6)
