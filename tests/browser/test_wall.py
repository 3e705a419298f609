"""A photographed wall on the page, by keys alone; the client's page has a file of its own."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from bench import WRITE_MS, Bench, saved
from conftest import watched_page
from PIL import Image, ImageDraw
from playwright.sync_api import Browser, expect
from rest import at_rest
from wall_photographs import CORNERS, DRAWN_MS, HEIC, ROOM, photograph, portrait, room

from pycore.bundle.content import BundledFile, Role
from pycore.bundle.read import open_bundle
from pycore.bundle.write import bundle_bytes

pytestmark = pytest.mark.browser

#: As sizes are shown.
TIMES = "\N{MULTIPLICATION SIGN}"

#: Sets `figuresGone` once no figures of the wall are shown.
WATCH_FIGURES = """() => {
  const figures = document.getElementById("wall-size");
  window.figuresGone = false;
  new MutationObserver(() => {
    window.figuresGone ||= figures.textContent === "";
  }).observe(figures, { childList: true, subtree: true, characterData: true });
}"""

#: Leaves the kept job as a page leaves it that ends while it looks for the reference.
CUT_SEARCH_SHORT = """async () => {
  const answer = (request) => new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  const database = await answer(indexedDB.open("tuckfold-jobs"));
  const jobs = database.transaction("jobs", "readwrite").objectStore("jobs");
  const entry = await answer(jobs.get(sessionStorage.getItem("tuckfold-job")));
  const wall = entry.parts.find(({ role }) => role === "wall");
  const marks = JSON.parse(wall.data);
  for (const reference of marks.references) delete reference.corners;
  wall.data = JSON.stringify(marks);
  await answer(jobs.put(entry));
  database.close();
}"""

#: The kept marks have the sheet's corners, to two pixels.
CORNERS_KEPT = """(() => {
  const wall = parts.find(({ role }) => role === "wall");
  const [{ corners = [] } = {}] = wall === undefined ? [] : JSON.parse(wall.data).references;
  const near = ([x, y], [sheetX, sheetY]) => Math.hypot(x - sheetX, y - sheetY) < 2;
  return corners.length === 4 && SHEET.every((corner, i) => near(corners[i], corner));
})()""".replace("SHEET", json.dumps(CORNERS))


@pytest.fixture(scope="module")
def wall(browser: Browser, site: str, small_china: Path, demo_picture: bytes) -> Iterator[Bench]:
    """One page with a picture of one's own and the wall open."""
    with watched_page(browser, [], demo_picture) as page:
        bench = Bench(page, site).start()
        bench.open_picture(small_china)
        bench.opened("china.jpg")
        page.locator('input[data-open="open-wall"]').set_input_files(ROOM)
        page.wait_for_selector(".photo-pane[data-frames]", timeout=DRAWN_MS)
        expect(page.locator("#wall-size")).to_contain_text("within", timeout=DRAWN_MS)
        yield bench


def place(bench: Bench) -> str:
    """Where the piece hangs, once the core has answered for all that was changed."""
    bench.page.wait_for_function("() => document.documentElement.dataset.wallPending === 'false'")
    return bench.page.locator("#photo-place").inner_text().replace("\N{NO-BREAK SPACE}", " ")


def frames(bench: Bench) -> int:
    return int(bench.page.locator(".photo-pane").get_attribute("data-frames") or 0)


def tool(bench: Bench, word: str) -> None:
    bench.page.locator("#photo-tool").get_by_label(word, exact=True).click()


def test_arrow_keys_move_the_piece_and_nothing_is_drawn_at_rest(wall: Bench) -> None:
    entry = wall.page.locator("#field-wall-right")
    entry.fill("450")
    entry.press("Enter")
    expect(wall.page.locator("#photo-place")).to_contain_text("450 mm to the right of")
    piece = wall.page.locator('[data-handle="piece"]')
    piece.focus()
    wall.page.keyboard.press("ArrowRight")
    wall.page.keyboard.press("Shift+ArrowRight")
    # Derived: 1 mm and 10 mm.
    expect(wall.page.locator("#photo-place")).to_contain_text("461 mm to the right of")
    expect(piece).to_have_attribute(
        "aria-label", "The piece. " + place(wall) + " Arrow keys move it by 1 mm, with Shift by 10 mm."
    )
    wall.page.wait_for_function("() => document.documentElement.dataset.wallPending === 'false'")
    at_rest(wall.page)
    before = frames(wall)
    wall.page.mouse.move(300, 300)
    wall.page.mouse.move(420, 330)
    at_rest(wall.page)
    assert frames(wall) == before


def test_on_a_telephone_the_photograph_is_as_wide_as_the_screen(wall: Bench) -> None:
    """Corners are marked by a finger, and a sheet of paper is small on it already."""
    wall.page.set_viewport_size({"width": 390, "height": 844})
    expect(wall.page.locator('[data-photo="frame"]')).to_have_css("width", "390px")
    wall.page.set_viewport_size({"width": 1280, "height": 800})


def test_the_floor_tells_the_height(wall: Bench) -> None:
    wall.page.locator("#wall-edges input[value=floor]").check()
    entry = wall.page.locator("#field-wall-floor")
    entry.fill("700")
    entry.press("Enter")
    expect(wall.page.locator("#photo-place")).to_contain_text("Its middle is 700 mm above the floor.")
    line = wall.page.locator('[data-handle="edge-floor"]')
    line.focus()
    wall.page.keyboard.press("Shift+ArrowDown")
    # Derived: the floor goes down by 10 mm.
    expect(wall.page.locator("#photo-place")).to_contain_text("Its middle is 710 mm above the floor.")
    wall.page.locator("#wall-edges input[value=floor]").uncheck()
    tool(wall, "The piece")


def test_spots_of_the_brush_are_taken_back(wall: Bench) -> None:
    tool(wall, "Things in front")
    undo = wall.page.locator("#undo-stroke")
    expect(undo).to_be_disabled()
    wall.page.locator('[data-handle="brush"]').focus()
    wall.page.keyboard.press("ArrowRight")
    wall.page.keyboard.press(" ")
    wall.page.keyboard.press(" ")
    expect(undo).to_be_enabled()
    for _ in range(2):
        wall.page.keyboard.press("Control+z")
    expect(undo).to_be_disabled()
    tool(wall, "The piece")


def test_variants_have_their_figures_whatever_the_fold_on_the_other_wall(wall: Bench) -> None:
    """There they stand in the way of what is spread out; on a photograph nothing is."""
    wall.scene("Wall")
    wall.page.locator("#fold").fill("0.3")
    wall.page.locator('#scene input[value="photo"]').click()
    wall.page.locator("#start-depths").press("Enter")
    figures = wall.page.locator(".pane-figures")
    expect(figures).to_have_count(3)
    expect(figures.first).to_be_visible()
    wall.page.locator("#compare").get_by_role("button", name="End the comparison").press("Enter")
    expect(figures).to_have_count(0)
    wall.page.wait_for_function("() => document.documentElement.dataset.wallPending === 'false'")


def test_what_cannot_be_used_is_said_and_changes_nothing(wall: Bench, tmp_path: Path) -> None:
    job = wall.save_job(tmp_path).read_text(encoding="utf-8")
    assert "room" not in job
    photo = wall.page.locator(
        '#photographed-wall [data-field="wall.photo"], #photographed-wall .error-text'
    ).first
    opened = wall.page.locator('input[data-open="open-wall"]')
    opened.set_input_files(HEIC)
    expect(photo).to_contain_text("HEIC")
    here = place(wall)
    # A place that the photograph does not show.
    entry = wall.page.locator("#field-wall-right")
    entry.fill("90000")
    entry.press("Enter")
    expect(wall.page.locator("#wall-place .error-text")).to_contain_text("photograph")
    expect(wall.page.locator("#photo-place")).to_have_text(here)
    # A reference of 0 mm.
    references = wall.page.locator("#wall-references")
    references.get_by_label("Own size", exact=True).click()
    width = wall.page.locator("#field-reference-0-width")
    width.fill("0")
    width.press("Enter")
    expect(references.locator(".error-text").first).to_contain_text("20 to 5000 mm")
    references.get_by_label("A4", exact=True).click()
    expect(references.locator(".error-text")).to_have_count(0)
    # Corners of no sheet: drawn on to one another, on to the line between two, across the opposite edge.
    for to, said in (
        ((0.0, 0.0), "in one place"),
        ((0.5, 0.5), "three corners in one line"),
        ((-0.4, 0.6), "edges that cross"),
    ):
        references.locator('[data-does="find"]').click()
        expect(wall.page.locator("html")).to_have_attribute("data-wall", "known")
        expect(references.locator(".error-text")).to_have_count(0)
        tool(wall, "Corners")
        drag_corner(wall, to)
        expect(references.locator(".error-text").first).to_contain_text(said)
        expect(wall.page.locator("#photo-place")).to_contain_text(said)
    references.locator('[data-does="find"]').click()
    expect(references.locator(".error-text")).to_have_count(0)
    assert wall.save_job(tmp_path).read_text(encoding="utf-8") == job


def drag_corner(bench: Bench, to: tuple[float, float]) -> None:
    """Drag the upper right corner; places are shares of the way to the upper right and the lower left one."""

    def middle(corner: int) -> tuple[float, float]:
        box = bench.page.locator(f'[data-handle="corner-0-{corner}"]').bounding_box()
        assert box is not None
        return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2

    (left, top), (right, upper), (low_left, low) = middle(0), middle(1), middle(2)
    bench.page.mouse.move(right, upper)
    bench.page.mouse.down()
    across, down = to
    bench.page.mouse.move(left + across * (low_left - left), top + down * (low - top), steps=4)
    bench.page.mouse.up()


def test_a_piece_larger_than_the_wall_in_view_is_said_beside_the_photograph(wall: Bench) -> None:
    wall.set("face.height_mm", "2400")
    wall.set("face.width_mm", "3600")
    expect(wall.page.locator("#photo-place")).to_contain_text("no larger than the wall in view")
    for _ in range(2):
        wall.button("Undo").click()
        wall.settled()
    expect(wall.page.locator("#photo-place")).to_contain_text("within")


def test_photographs_of_every_kind_are_taken(wall: Bench, tmp_path: Path) -> None:
    job = wall.save_job(tmp_path).read_text(encoding="utf-8")
    opened = wall.page.locator('input[data-open="open-wall"]')
    size, frame = wall.page.locator("#wall-size"), wall.page.locator('[data-photo="frame"]').first
    errors = wall.page.locator("#photographed-wall .error-text")

    def unsure_mm() -> int:
        expect(size).to_contain_text("within", timeout=DRAWN_MS)
        found = re.search(r"within (\d+)\smm", size.inner_text())
        assert found is not None
        return int(found[1])

    filed = unsure_mm()
    opened.set_input_files(photograph(room(), "no-exif.jpg"))
    html = wall.page.locator("html")
    expect(html).to_have_attribute("data-wall", "asking")
    expect(html).to_have_attribute("data-wall", "known", timeout=DRAWN_MS)
    # Derived: without the lens in the file the same corners tell less.
    expect(size).not_to_contain_text(f"within {filed} mm;", timeout=DRAWN_MS)
    assert unsure_mm() > filed
    opened.set_input_files(portrait())
    expect(html).to_have_attribute("data-wall", "asking")
    expect(html).to_have_attribute("data-wall", "known", timeout=DRAWN_MS)
    unsure_mm()
    box = frame.bounding_box()
    assert box is not None
    # Derived: 675 x 900 pixels, upright.
    assert box["height"] / box["width"] == pytest.approx(900 / 675, abs=0.01)
    expect(errors).to_have_count(0)
    assert wall.save_job(tmp_path).read_text(encoding="utf-8") == job


def test_figures_of_a_former_photograph_go_with_it(wall: Bench) -> None:
    size = wall.page.locator("#wall-size")
    expect(size).to_contain_text("within", timeout=DRAWN_MS)
    wall.page.evaluate(WATCH_FIGURES)
    wall.page.locator('input[data-open="open-wall"]').set_input_files(photograph(room(), "another.jpg"))
    wall.page.wait_for_function("() => window.figuresGone", timeout=DRAWN_MS)
    expect(size).to_contain_text("within", timeout=DRAWN_MS)


def test_one_of_100_megapixels_is_kept_smaller(wall: Bench) -> None:
    # A listed bad input, and decoding it is all that takes time.
    large = Image.new("L", (10_000, 10_000), 120)
    ImageDraw.Draw(large).rectangle((4000, 3000, 6100, 5970), fill=235)
    wall.page.locator('input[data-open="open-wall"]').set_input_files(photograph(large, "large.jpg"))
    expect(wall.page.locator("#photographed-wall")).to_contain_text(
        f"The photograph has 10000 {TIMES} 10000 pixels; a copy of 4000 {TIMES} 4000 pixels is kept.",
        timeout=DRAWN_MS,
    )
    expect(wall.page.locator("#photographed-wall .error-text")).to_have_count(0)
    wall.page.locator('input[data-open="open-wall"]').set_input_files(ROOM)
    expect(wall.page.locator("#photographed-wall")).not_to_contain_text("10000", timeout=DRAWN_MS)
    expect(wall.page.locator("#wall-size")).to_contain_text("within", timeout=DRAWN_MS)


def test_the_wall_comes_back_with_its_job(wall: Bench) -> None:
    here = place(wall)
    wall.page.wait_for_function("() => document.documentElement.dataset.wallPending === 'false'")
    at_rest(wall.page)
    wall.page.reload()
    wall.wait_shown()
    wall.page.locator("#show-wall").click()
    expect(wall.page.locator("#photo-place")).to_have_text(here, timeout=DRAWN_MS)


def test_a_bundle_brings_the_wall_back_with_its_marks(wall: Bench, tmp_path: Path) -> None:
    wall.page.locator("#wall-edges input[value=floor]").check()
    entry = wall.page.locator("#field-wall-floor")
    entry.fill("810")
    entry.press("Enter")
    tool(wall, "Things in front")
    wall.page.locator('[data-handle="brush"]').focus()
    wall.page.keyboard.press(" ")
    wall.page.locator("#wall-proof-colours").check()
    wall.page.wait_for_function("() => document.documentElement.dataset.wallPending === 'false'")
    here = place(wall)
    assert "810 mm above the floor" in here
    with wall.page.expect_download(timeout=WRITE_MS) as caught:
        wall.button("Save the bundle").click()
    path = saved(caught.value, tmp_path)
    wall.page.locator("#close-wall").click()
    expect(wall.page.locator("#photo-place")).to_have_count(0)
    wall.open_job(path)
    expect(wall.page.locator("#photo-place")).to_have_text(here, timeout=DRAWN_MS)
    expect(wall.page.locator("#undo-stroke")).to_be_enabled()
    expect(wall.page.locator("#wall-proof-colours")).to_be_checked()


def test_a_search_that_was_cut_short_begins_again(wall: Bench) -> None:
    wall.page.locator('input[data-open="open-wall"]').set_input_files(ROOM)
    expect_found(wall)
    wall.page.evaluate(CUT_SEARCH_SHORT)
    wall.page.reload()
    wall.wait_shown()
    wall.page.locator("#show-wall").click()
    expect_found(wall)


def test_a_search_that_a_bundle_cut_short_begins_again(wall: Bench, tmp_path: Path) -> None:
    with wall.page.expect_download(timeout=WRITE_MS) as caught:
        wall.button("Save the bundle").click()
    path = saved(caught.value, tmp_path)
    bundle = open_bundle(path.read_bytes())
    former = bundle.files[Role.WALL_MARKS]
    marks = json.loads(former.data)
    for reference in marks["references"]:
        del reference["corners"]
    cut = BundledFile(name=former.name, data=json.dumps(marks).encode())
    path.write_bytes(bundle_bytes(bundle.job, {**bundle.files, Role.WALL_MARKS: cut}))
    wall.page.locator("#close-wall").click()
    expect(wall.page.locator("#photo-place")).to_have_count(0)
    wall.open_job(path)
    expect_found(wall)


def expect_found(bench: Bench) -> None:
    """The sheet's corners are found and kept, and the piece hangs in the middle of the sheet."""
    # Derived: half of A4's 210 x 297 mm.
    place = bench.page.locator("#photo-place")
    expect(place).to_contain_text("105 mm to the right of and 149 mm above", timeout=DRAWN_MS)
    expect(bench.page.locator("#wall-size")).to_contain_text("within", timeout=DRAWN_MS)
    bench.kept(CORNERS_KEPT)
