"""The ticket: what it says, that nothing runs over, that the same job gives the same file."""

from __future__ import annotations

import io
import re
import subprocess
from pathlib import Path
from typing import Any

import pytest
from PIL import Image
from pypdf import PdfReader
from ticketed import DATE, ticket

from pycore.bars.report import bars_report
from pycore.contract.check import check_job
from pycore.fold.spec import fold_spec
from pycore.fold.stages import stages_of
from pycore.speech import speak_in
from pycore.speech.choice import speaking
from pycore.ticket.report import PAPER_MM, Paper
from pycore.ticket.work_words import CAUTIONS, FIRST

pytestmark = pytest.mark.native

ROOT = Path(__file__).resolve().parents[3]

TIMES = "\N{MULTIPLICATION SIGN}"
LONG = "A name that goes on and on " * 70
FINISHES: dict[str, dict[str, Any]] = {
    "tucked": {},
    "lapped": {"wrap": {"finish": "lapped", "corners": "cut-back", "over": "left-right"}},
    "trimmed": {"wrap": {"finish": "trimmed"}, "group": {"panels": 3}, "sheet": {"width_mm": 610}},
}


def text_of(data: bytes) -> str:
    pages = PdfReader(io.BytesIO(data)).pages
    return " ".join(" ".join(page.extract_text() for page in pages).split())


def boxes_mm(data: bytes, folder: Path) -> list[tuple[int, float, float, float, float]]:
    """Page, left, top, right and bottom of every word, as `pdftotext` finds them."""
    file = folder / "ticket.pdf"
    file.write_bytes(data)
    found = subprocess.run(["pdftotext", "-bbox", file, "-"], capture_output=True, check=True).stdout.decode()
    boxes = []
    for number, page in enumerate(found.split("<page ")[1:], start=1):
        for values in re.findall(
            r'<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)"', page
        ):
            left, top, right, bottom = (float(one) * 25.4 / 72 for one in values)
            boxes.append((number, left, top, right, bottom))
    return boxes


def assert_apart(boxes: list[tuple[int, float, float, float, float]]) -> None:
    """A word's box holds room above and below its letters: what is left of it without that must not meet."""
    for place, one in enumerate(boxes):
        for other in boxes[:place]:
            if one[0] == other[0]:
                across = min(one[3], other[3]) - max(one[1], other[1])
                trim = 0.3 * min(one[4] - one[2], other[4] - other[2])
                down = min(one[4], other[4]) - max(one[2], other[2]) - trim
                assert across < 0.1 or down < 0.1


@pytest.mark.parametrize("paper", list(Paper))
@pytest.mark.parametrize("finish", FINISHES)
def test_two_pages_hold_it(finish: str, paper: Paper) -> None:
    made = ticket({"name": "Low tide", "client": "Lindqvarn House", **FINISHES[finish]}, paper=paper)
    assert made.pages == 2
    assert made.notes == []
    text = text_of(made.data)
    job = check_job(FINISHES[finish])
    # Derived: one for each stage, as on the page.
    for number in range(1, 1 + len(stages_of(fold_spec(job)))):
        assert f" {number}. " in text
    for said in (
        "Low tide",
        "for Lindqvarn House",
        "30 April 2031",
        f"300 {TIMES} 200 mm 11.81 {TIMES} 7.87 in",
        "Print at 100 percent",
        "No second conversion",
        "a matte fine-art setting is a common stop-gap",
        "relative colorimetric, with black point compensation",
        # Regression: the groups that are given.
        "red: 6.3 %, 3.3, 7.5",
        "Let the print dry for a day before you coat it (common practice).",
        # Derived: the root of 300 ** 2 + 200 ** 2.
        "both diagonals measure 360.6 mm",
        f"{bars_report(job).staples // job.group.panels} staples in ",
        FIRST,
        "Date and signature",
        "page 2 of 2",
    ):
        assert said in text
    for _, caution in CAUTIONS:
        assert caution in text


@pytest.mark.parametrize("finish", FINISHES)
def test_a_german_ticket_has_no_english_word_and_none_over_another(finish: str, tmp_path: Path) -> None:
    with speaking("de"):
        made = ticket(FINISHES[finish])
    text = text_of(made.data)
    assert_apart(boxes_mm(made.data, tmp_path))
    # What reads a document aloud asks for its language.
    assert b"/Lang (de)" in made.data
    # It is printed on one sheet, on both sides, in German's longer words too.
    assert made.pages == 2
    # Derived: what the drawings and the fold's figures say in English.
    english = {"tucked", "lapped", "trimmed", "face", "side", "turn-over", "top", "front", "back", "with"}
    assert english & {word.strip(".,;:()") for word in text.split()} == set()


def test_a_group_of_panels_is_joined_panel_by_panel() -> None:
    """Derived: each of three panels of 700 x 500 mm has two bars of either length and one brace of 420 mm."""
    group = {"panels": 3}
    text = text_of(
        ticket(
            {"group": group, "face": {"width_mm": 700, "height_mm": 500}, "sheet": {"width_mm": 1118}}
        ).data
    )
    # Derived: 700 / 25.4 = 27.56, 500 / 25.4 = 19.69, 420 / 25.4 = 16.54.
    assert f"2 of 700 mm (27.56 in) and 2 of 500 mm (19.69 in) of 40 {TIMES} 20 mm, mitred" in text
    assert "mitred 45 degrees (each panel)." in text
    assert "Fit the brace, 1 of 420 mm (16.54 in)" in text
    # Derived: turn-over and bars take 45 + 8 mm beside each corner: 594 mm in 12 steps make 13 staples,
    # 394 mm in 8 make 9; twice both, and 4 corners. The panels' middles are 700 + 2 x 0.45 + 30 mm apart.
    assert "48 staples in each panel, at most 50 mm apart between the corners" in text
    assert "below where the top edge comes (each panel; 730.9 mm from one's middle to the next)." in text
    assert "mm of the roll." in text
    assert "Print all 3 print files" in text
    assert "Print both print files" in text_of(ticket({"group": {"panels": 2}}).data)


def test_the_order_has_a_number_for_each_staple_of_a_small_frame() -> None:
    """Derived: of 200 mm, with corners of 63 mm and 8 mm clear, a bar has 3 staples, and each corner one."""
    small = {"face": {"width_mm": 200, "height_mm": 200}, "bars": {"depth_mm": 38}}
    assert bars_report(check_job(small)).staples == 4 * 3 + 4
    drawn = PdfReader(io.BytesIO(ticket(small).data)).pages[1].extract_text()
    numbers = [word for word in drawn.split("From the back.")[0].split() if word in "123456789"]
    assert numbers.count("9") == 4


def test_the_corners_are_cut_as_printed_and_the_bars_are_there_before_the_fold() -> None:
    """Derived: 20 + 25 mm on the bars are 45 / 1.05 = 42.9 mm across and 45 / 1.1 = 40.9 mm down as printed.

    Cut by the lengths on the bars, the knife would run 2.1 and 4.1 mm into what is seen.
    """
    stretched = {"wrap": {"finish": "trimmed"}, "canvas": {"stretch_percent": (5, 10)}}
    text = text_of(ticket(stretched).data)
    assert "Cut the four corner squares, 42.9 mm across by 40.9 mm down, away;" in text
    assert "pencil: 42.9 mm from left and right, 40.9 mm from top and bottom (1.69 and 1.61 in)." in text
    steps = ("Join the bars", "Lay the canvas face down", "Cut the four", "Set the bars", "Staple each side")
    assert sorted(steps, key=text.index) == list(steps)


def test_braces_are_halved_where_they_cross() -> None:
    # Derived: 700 x 500 mm has one brace, 700 x 800 mm one each way.
    for height, crossed in ((500, False), (800, True)):
        sizes = {"face": {"width_mm": 700, "height_mm": height}, "sheet": {"width_mm": 1118}}
        assert ("where two cross, halve both" in text_of(ticket(sizes).data)) is crossed


@pytest.mark.parametrize(
    ("wrap", "first"), [({}, "upright"), ({"over": "left-right"}, "level"), ({"finish": "lapped"}, "level")]
)
def test_the_sides_that_are_folded_first_are_stapled_first(wrap: dict[str, str], first: str) -> None:
    """Derived: tucked, the pair that is not over goes down first; lapped, the pair that is."""
    page = PdfReader(io.BytesIO(ticket({"wrap": wrap}).data)).pages[1]
    places: dict[str, tuple[float, float]] = {}

    def visit(text: str, _cm: object, at: list[float], _font: object, _size: float) -> None:
        if text.strip() in {"1", "2"}:
            places[text.strip()] = (at[4], at[5])

    page.extract_text(visitor_text=visit)
    (x1, y1), (x2, y2) = places["1"], places["2"]
    assert (abs(y1 - y2) < 1 < abs(x1 - x2)) is (first == "upright")
    assert (abs(x1 - x2) < 1 < abs(y1 - y2)) is (first == "level")


def test_long_texts_are_set_more_closely_than_on_a_third_page() -> None:
    """Regression: of all these, the German ticket of the trimmed finish on Letter is the longest."""
    tree = {"name": "Low tide", "client": "Lindqvarn House", **FINISHES["trimmed"]}
    speak_in("de")
    try:
        made = ticket(tree, paper=Paper.LETTER)
    finally:
        speak_in("en")
    assert made.pages == 2
    assert "Zuerst gefaltet links und rechts" in text_of(made.data)


def test_a_tiny_side_is_stapled_once_its_corners_are_folded() -> None:
    """Derived: turn-over and bars take 45 + 8 mm beside each corner: more than half of 100 mm."""
    tiny, free = (
        "The folded corners reach the middle of every side",
        "Staple each side as it goes on to the back",
    )
    text = text_of(ticket({"face": {"width_mm": 100, "height_mm": 100}}).data)
    assert tiny in text
    assert free not in text
    text = text_of(ticket({"face": {"width_mm": 300, "height_mm": 100}}).data)
    assert "On left and right the folded corners reach the middle" in text
    assert free in text
    assert tiny not in text


def test_a_turn_over_without_staples_has_no_numbers_for_them() -> None:
    drawn = text_of(ticket({"wrap": {"turnover_mm": 5, "ink_over_mm": 5}}).data)
    assert "The turn-over has no room for staples" in drawn
    assert "Numbers: the order of the staples" not in drawn


def test_the_page_and_the_ticket_give_the_same_cautions() -> None:
    section = (ROOT / "web/src/page/sections/stretching.tsx").read_text(encoding="utf-8")
    assert FIRST in section
    for about, caution in CAUTIONS:
        assert f'about: say("{about}")' in section
        assert caution in section


@pytest.mark.parametrize("paper", list(Paper))
@pytest.mark.parametrize(
    "texts",
    [
        {"name": LONG, "client": LONG, "notes": LONG[:999] + "\n" + LONG[:999]},
        {"name": "W" * 2000, "client": "Ж" * 300},
        {"name": "שפל בחוף " * 200, "client": "مد وجزر", "notes": "שלום"},
    ],
    ids=["long", "unbroken", "right-to-left"],
)
def test_nothing_runs_over_the_paper_nor_over_another_word(
    texts: dict[str, str], paper: Paper, tmp_path: Path
) -> None:
    made = ticket({**texts, "group": {"panels": 2}, "answer": LONG}, paper=paper)
    wide, high = PAPER_MM[paper]
    boxes = boxes_mm(made.data, tmp_path)
    assert made.pages <= 3
    # Regression: a ticket has some hundreds of words.
    assert len(boxes) > 300
    assert min(box[1] for box in boxes) > 10
    assert max(box[3] for box in boxes) < wide - 10
    assert min(box[2] for box in boxes) > 5
    assert max(box[4] for box in boxes) < high - 5
    assert_apart(boxes)


def test_a_name_in_another_script_keeps_a_line_to_be_written_by_hand() -> None:
    made = ticket({"name": "שפל בחוף", "client": "مد وجزر"})
    text = text_of(made.data)
    assert "Write here the name of the piece: this ticket's font lacks Hebrew letters." in text
    assert "Write here the client's name: this ticket's font lacks Arabic letters." in text
    assert "?" not in text
    assert [note.field for note in made.notes] == ["name", "client"]
    # The document's title is no lettering: it keeps the name.
    metadata = PdfReader(io.BytesIO(made.data)).metadata
    assert metadata is not None
    assert metadata.title == "שפל בחוף"


def test_the_clients_answer_has_its_place() -> None:
    assert "The client's answer" not in text_of(ticket({}).data)
    text = text_of(ticket({"answer": "I choose B.\nA little darker, please."}).data)
    assert "The client's answer I choose B. A little darker, please." in text


def test_the_same_job_gives_the_same_bytes_and_no_more_than_was_given() -> None:
    tree = {"name": "Low tide", "picture": {"file": "private-name.jpg"}}
    first, second = ticket(tree), ticket(tree)
    assert first.data == second.data
    metadata = PdfReader(io.BytesIO(first.data)).metadata
    assert metadata == {
        "/Title": "Low tide",
        "/Producer": "Tuckfold",
        "/CreationDate": f"D:{DATE.replace('-', '')}000000Z",
    }
    assert b"private-name" not in first.data
    assert "private-name" not in text_of(first.data)


def test_other_programs_find_nothing_wrong(tmp_path: Path) -> None:
    file = tmp_path / "ticket.pdf"
    file.write_bytes(ticket(FINISHES["trimmed"], paper=Paper.LETTER).data)
    checked = subprocess.run(["qpdf", "--check", file], capture_output=True, text=True, check=True)
    assert "No syntax or stream encoding errors found" in checked.stdout
    fonts = subprocess.run(["pdffonts", file], capture_output=True, text=True, check=True).stdout.splitlines()
    # Embedded, a part of it, with its way back to Unicode.
    assert len(fonts) == 3
    assert fonts[2].split()[-5:-2] == ["yes", "yes", "yes"]


def test_a_sheet_that_does_not_hold_the_canvas_stops_the_print(tmp_path: Path) -> None:
    """Nothing is drawn past the paper, either: the sheet's part keeps its room."""
    made = ticket({"sheet": {"width_mm": 210, "height_mm": 297}, "face": {"width_mm": 420}})
    text = text_of(made.data)
    assert "Do not print yet: the sheet does not hold this canvas." in text
    # Derived: the canvas is 420 + 2 (0.45 + 20 + 25) = 510.9 by 290.9 mm and lies sideways: 80.9 and 213.9.
    assert "It lacks 80.9 mm across and 213.9 mm along." in text
    assert "Load" not in text.split("Colours")[0]
    file = tmp_path / "ticket.pdf"
    file.write_bytes(made.data)
    subprocess.run(
        ["pdftoppm", "-r", "40", "-f", "1", "-l", "1", "-gray", file, tmp_path / "page"], check=True
    )
    with Image.open(next(tmp_path.glob("page*.pgm"))) as page:
        # Ten mm of every edge stay white.
        edge = round(10 * 40 / 25.4)
        inner = (edge, edge, page.width - edge, page.height - edge)
        page.paste(255, inner)
        assert page.getextrema() == (255, 255)
