"""A photographed wall in the client's page, from the disk with no network."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest
from chromium import LIGHT
from playwright.sync_api import Browser, FilePayload, Page, expect
from rest import WATCH, at_rest
from wall_photographs import CORNERS, DRAWN_MS, HEIC, ROOM, photograph, portrait, room

from pycore.client.page import make_client_page, viewer_program
from pycore.client.surroundings import Surroundings
from pycore.compare.variants import Variant
from pycore.contract.check import check_job
from pycore.picture.read import read_picture
from pycore.progress import run_to_end
from pycore.proofing.profile_store import ProfileStore
from pycore.render.preview import PreviewSource

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def client(browser: Browser, tmp_path_factory: pytest.TempPathFactory, china: Path) -> Iterator[Page]:
    """A client page from the disk in a browser without a network."""
    data = china.read_bytes()
    picture = PreviewSource(read_picture(data, file="china.jpg"))
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
    file = tmp_path_factory.mktemp("client") / "client.html"
    file.write_bytes(made.data)
    context = browser.new_context(offline=True, viewport={"width": 390, "height": 844}, **LIGHT)
    page = context.new_page()
    complaints: list[str] = []
    page.on("pageerror", lambda wrong: complaints.append(str(wrong)))
    page.add_init_script(WATCH)
    page.goto(file.as_uri())
    page.wait_for_selector("html[data-state=hung]", timeout=DRAWN_MS)
    yield page
    context.close()
    assert complaints == []


def mark_corners(client: Page, corners: Sequence[tuple[int, int]]) -> None:
    """Move the left rings by keys from where they wait, round the middle of 1200 x 900; drag the others."""
    half = 900 / 8
    left, right, top, bottom = 600 - half, 600 + half, 450 - 1.4 * half, 450 + 1.4 * half
    waiting = ((left, top), (right, top), (right, bottom), (left, bottom))
    drag_corners(client, corners, rings=(1, 2))
    for corner in (0, 3):
        (x, y), (to_x, to_y) = waiting[corner], corners[corner]
        client.locator(f'[data-handle="corner-0-{corner}"]').focus()
        for way, steps in (("Right", to_x - x), ("Down", to_y - y)):
            key = way if steps >= 0 else {"Right": "Left", "Down": "Up"}[way]
            tens, ones = divmod(round(abs(steps)), 10)
            for press, count in ((f"Shift+Arrow{key}", tens), (f"Arrow{key}", ones)):
                for _ in range(count):
                    client.keyboard.press(press)


def test_a_client_hangs_it_on_a_wall_of_their_own(client: Page) -> None:
    client.locator("#own-file").set_input_files(ROOM)
    expect(client.locator("#own-view")).to_have_attribute("data-file", "room.jpg", timeout=DRAWN_MS)
    expect(client.locator("#own-view canvas").first).to_be_visible()
    assert "On the wall" not in client.locator("#text").input_value()
    mark_corners(client, CORNERS)
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


def drag_corners(
    client: Page,
    corners: Sequence[tuple[int, int]],
    *,
    rings: Sequence[int] = (0, 1, 2, 3),
    width: int = 1200,
) -> None:
    """Drag these rings to the places of a photograph that is so wide, as far as there are places."""
    frame = client.locator('#own-view [data-photo="frame"]')
    frame.scroll_into_view_if_needed()
    for corner in rings[: len(corners)]:
        x, y = corners[corner]
        ring = client.locator(f'[data-handle="corner-0-{corner}"]').bounding_box()
        box = frame.bounding_box()
        assert ring is not None
        assert box is not None
        scale = box["width"] / width
        client.mouse.move(ring["x"] + ring["width"] / 2, ring["y"] + ring["height"] / 2)
        client.mouse.down()
        client.mouse.move(box["x"] + x * scale, box["y"] + y * scale, steps=2)
        client.mouse.up()


def open_own(client: Page, file: FilePayload) -> None:
    client.locator("#own-file").set_input_files(file)
    expect(client.locator("#own-view")).to_have_attribute("data-file", file["name"], timeout=DRAWN_MS)


def sure_mm(client: Page) -> int:
    found = re.search(r"within (\d+)\smm", client.locator("#own-says").inner_text())
    assert found is not None
    return int(found[1])


def test_the_client_is_told_what_cannot_be_used(client: Page) -> None:
    wrong, says = client.locator("#own-error"), client.locator("#own-says")
    sure = sure_mm(client)
    client.locator("#own-file").set_input_files(HEIC)
    expect(wrong).to_contain_text("It is a HEIC file: save it as JPEG first.")
    # The wall is as it was.
    expect(says).to_contain_text("its middle 115 mm")
    # Without the lens in the file the same corners tell less.
    open_own(client, photograph(room(), "no-exif.jpg"))
    expect(wrong).to_be_empty()
    # Three of four are not judged.
    drag_corners(client, CORNERS[:3])
    expect(says).to_be_empty()
    expect(wrong).to_be_empty()
    open_own(client, photograph(room(), "no-exif-again.jpg"))
    drag_corners(client, CORNERS)
    expect(says).to_contain_text("within")
    assert sure_mm(client) > sure
    first, (right, upper), third, (low_left, low) = CORNERS
    between = (first[0] + third[0]) // 2, (first[1] + third[1]) // 2
    for number, (corners, said) in enumerate(
        (
            ((first, (first[0] + 1, first[1]), third, CORNERS[3]), "Two corners lie in one place"),
            ((first, between, third, CORNERS[3]), "in one line"),
            ((CORNERS[1], first, third, CORNERS[3]), "The edges cross"),
            ((first, (right, upper - 90), third, (low_left - 90, low)), "No such sheet"),
        )
    ):
        open_own(client, photograph(room(), f"{number}.jpg"))
        drag_corners(client, corners)
        expect(wrong).to_contain_text(said)
        expect(says).to_be_empty()
        assert "On the wall" not in client.locator("#text").input_value()
    # The sheet fills the height, so the canvas, which lies, has no room beside it.
    open_own(client, photograph(room(), "near.jpg"))
    drag_corners(client, ((300, 20), (900, 20), (900, 869), (300, 869)))
    expect(wrong).to_be_empty()
    expect(says).to_contain_text("300 \N{MULTIPLICATION SIGN} 200 mm")
    narrow = room().crop((250, 0, 950, 900))
    open_own(client, photograph(narrow, "narrow.jpg"))
    drag_corners(client, ((50, 20), (650, 20), (650, 869), (50, 869)), width=700)
    expect(wrong).to_contain_text("The canvas is larger than the wall in view")
    expect(says).to_be_empty()
    open_own(client, portrait())
    expect(wrong).to_be_empty()
    box = client.locator('#own-view [data-photo="frame"]').bounding_box()
    assert box is not None
    assert box["height"] / box["width"] == pytest.approx(900 / 675, abs=0.01)
