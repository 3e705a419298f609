"""A photographed wall: on the page by keys alone, and in the client's page from the disk with no network."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from bench import Bench
from conftest import watched_page
from playwright.sync_api import Browser, Page, expect
from rest import WATCH, at_rest

from pycore.client.page import make_client_page, viewer_program
from pycore.client.surroundings import Surroundings
from pycore.compare.variants import Variant
from pycore.contract.check import check_job
from pycore.picture.read import read_picture
from pycore.progress import run_to_end
from pycore.proofing.profile_store import ProfileStore
from pycore.render.preview import PreviewSource

pytestmark = pytest.mark.browser

ROOM = Path(__file__).resolve().parents[2] / "demo_data" / "room.jpg"
#: Derived: the sheet's corners in that photograph, as its renderer's camera sees them, to a pixel.
CORNERS = ((352, 327), (477, 326), (478, 528), (355, 521))
DRAWN_MS = 60_000


@pytest.fixture(scope="module")
def wall(browser: Browser, site: str, china: Path) -> Iterator[Bench]:
    """One page with a picture of one's own and the wall open."""
    with watched_page(browser, []) as page:
        bench = Bench(page, site).start()
        bench.open_picture(china)
        bench.opened("china.jpg")
        page.locator('input[data-open="open-wall"]').set_input_files(ROOM)
        page.wait_for_selector(".photo-pane[data-frames]", timeout=DRAWN_MS)
        expect(page.locator("#wall-size")).to_contain_text("within")
        yield bench


def place(bench: Bench) -> str:
    return bench.page.locator("#photo-place").inner_text()


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
    wall.page.wait_for_function("document.documentElement.dataset.wallPending === 'false'")
    at_rest(wall.page)
    before = frames(wall)
    wall.page.mouse.move(300, 300)
    wall.page.mouse.move(420, 330)
    at_rest(wall.page)
    assert frames(wall) == before


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


def test_what_cannot_be_used_is_said_and_changes_nothing(wall: Bench, tmp_path: Path) -> None:
    job = wall.save_job(tmp_path).read_text(encoding="utf-8")
    assert "room" not in job
    photo = wall.page.locator(
        '#photographed-wall [data-field="wall.photo"], #photographed-wall .error-text'
    ).first
    heic = b"\0\0\0\x18ftypheic\0\0\0\0mif1heic"
    opened = wall.page.locator('input[data-open="open-wall"]')
    opened.set_input_files({"name": "wall.heic", "mimeType": "image/heic", "buffer": heic})
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
    # Crossed corners.
    tool(wall, "Corners")
    one = wall.page.locator('[data-handle="corner-0-0"]').bounding_box()
    other = wall.page.locator('[data-handle="corner-0-1"]').bounding_box()
    assert one is not None
    assert other is not None
    wall.page.mouse.move(one["x"] + one["width"] / 2, one["y"] + one["height"] / 2)
    wall.page.mouse.down()
    wall.page.mouse.move(other["x"] + 60, other["y"] + 20, steps=4)
    wall.page.mouse.up()
    expect(references.locator(".error-text").first).to_contain_text("corners")
    references.locator('[data-does="find"]').click()
    expect(references.locator(".error-text")).to_have_count(0)
    assert wall.save_job(tmp_path).read_text(encoding="utf-8") == job


def test_the_wall_comes_back_with_its_job(wall: Bench) -> None:
    here = place(wall)
    wall.page.wait_for_function("document.documentElement.dataset.wallPending === 'false'")
    at_rest(wall.page)
    wall.page.reload()
    wall.wait_shown()
    wall.page.locator("#show-wall").click()
    expect(wall.page.locator("#photo-place")).to_have_text(here, timeout=DRAWN_MS)


@pytest.fixture
def client(browser: Browser, tmp_path: Path, china: Path) -> Iterator[Page]:
    """A client page from the disk in a browser without a network."""
    data = china.read_bytes()
    picture = PreviewSource(read_picture(data, file="china.jpg"), preview_px=60_000)
    job = check_job({"face": {"width_mm": 300, "height_mm": 200}})
    made = run_to_end(
        make_client_page(
            [Variant(label="", job=job)],
            picture,
            ProfileStore(),
            viewer=viewer_program(),
            message="",
            date="2031-04-30",
            surroundings=Surroundings(),
        )
    )
    file = tmp_path / "client.html"
    file.write_bytes(made.data)
    context = browser.new_context(
        offline=True, reduced_motion="reduce", viewport={"width": 390, "height": 844}
    )
    page = context.new_page()
    complaints: list[str] = []
    page.on("pageerror", lambda wrong: complaints.append(str(wrong)))
    page.add_init_script(WATCH)
    page.goto(file.as_uri())
    page.wait_for_selector("html[data-state=hung]", timeout=DRAWN_MS)
    yield page
    context.close()
    assert complaints == []


def test_a_client_hangs_it_on_a_wall_of_their_own(client: Page) -> None:
    client.locator("#own-file").set_input_files(ROOM)
    expect(client.locator("#own-view canvas").first).to_be_visible()
    assert "On the wall" not in client.locator("#text").input_value()
    # The page shows all 1200 pixels of the photograph; the rings wait round its middle.
    half = 900 / 8
    waiting = ((600 - half, 450 - 1.4 * half), (600 + half, 450 - 1.4 * half))
    waiting += ((600 + half, 450 + 1.4 * half), (600 - half, 450 + 1.4 * half))
    for corner, ((x, y), (to_x, to_y)) in enumerate(zip(waiting, CORNERS, strict=True)):
        client.locator(f'[data-handle="corner-0-{corner}"]').focus()
        for way, steps in (("Right", to_x - x), ("Down", to_y - y)):
            key = way if steps >= 0 else {"Right": "Left", "Down": "Up"}[way]
            tens, ones = divmod(round(abs(steps)), 10)
            for press, count in ((f"Shift+Arrow{key}", tens), (f"Arrow{key}", ones)):
                for _ in range(count):
                    client.keyboard.press(press)
    client.get_by_role("button", name="The canvas", exact=True).click()
    client.wait_for_selector("#own-view[data-frames]", timeout=DRAWN_MS)
    expect(client.locator("#own-says")).to_contain_text("300 \N{MULTIPLICATION SIGN} 200 mm, within")
    client.locator('[data-handle="piece"]').focus()
    client.keyboard.press("Shift+ArrowRight")
    # Derived: it hangs at first over the paper's middle, 105 mm from its edge.
    expect(client.locator("#own-says")).to_contain_text("its middle 115 mm")
    answer = client.locator("#text").input_value()
    assert "On the wall: 300 \N{MULTIPLICATION SIGN} 200 mm, within" in answer
    assert "its middle 115 mm" in answer
    at_rest(client)
    before = client.locator("#own-view").get_attribute("data-frames")
    client.mouse.move(100, 100)
    at_rest(client)
    assert client.locator("#own-view").get_attribute("data-frames") == before
