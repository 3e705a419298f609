"""A photographed wall: on the page by keys alone, and in the client's page from the disk with no network."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest
from bench import WRITE_MS, Bench, saved
from conftest import watched_page
from PIL import Image, ImageDraw
from playwright.sync_api import Browser, FilePayload, Page, expect
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
CORNERS = ((325, 304), (421, 302), (421, 451), (326, 449))
DRAWN_MS = 60_000


#: Published: ISO/IEC 23008-12, the brand at a HEIC file's begin.
HEIC = FilePayload(name="wall.heic", mimeType="image/heic", buffer=b"\0\0\0\x18ftypheic\0\0\0\0mif1heic")


def photograph(
    image: Image.Image, name: str, *, orientation: int = 1, lens_mm: int | None = None
) -> FilePayload:
    """A JPEG as a camera writes it, with or without its lens."""
    file, exif = io.BytesIO(), Image.Exif()
    exif[0x0112] = orientation
    if lens_mm is not None:
        exif.get_ifd(0x8769)[0xA405] = lens_mm
    has_block = lens_mm is not None or orientation != 1
    image.save(file, "JPEG", quality=90, **({"exif": exif} if has_block else {}))
    return FilePayload(name=name, mimeType="image/jpeg", buffer=file.getvalue())


def room() -> Image.Image:
    with Image.open(ROOM) as image:
        upright: Image.Image = image.convert("RGB")
        return upright


def portrait() -> FilePayload:
    """The room's upright part as a telephone that is held upright writes it: on its side, orientation 6."""
    # Derived: a lens of 26 mm, on a diagonal of 1125 in place of 1500 pixels.
    # Published: EXIF 2.32, orientation 6: a viewer turns the rows clockwise by 90 degrees.
    lying = room().crop((100, 0, 775, 900)).transpose(Image.Transpose.ROTATE_90)
    return photograph(lying, "portrait.jpg", orientation=6, lens_mm=35)


@pytest.fixture(scope="module")
def wall(browser: Browser, site: str, china: Path, demo_picture: bytes) -> Iterator[Bench]:
    """One page with a picture of one's own and the wall open."""
    with watched_page(browser, [], demo_picture) as page:
        bench = Bench(page, site).start()
        bench.open_picture(china)
        bench.opened("china.jpg")
        page.locator('input[data-open="open-wall"]').set_input_files(ROOM)
        page.wait_for_selector(".photo-pane[data-frames]", timeout=DRAWN_MS)
        expect(page.locator("#wall-size")).to_contain_text("within", timeout=DRAWN_MS)
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
    wall.page.wait_for_function("() => document.documentElement.dataset.wallPending === 'false'")
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
        found = re.search(r"within (\d+) mm", size.inner_text())
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


def test_one_of_100_megapixels_is_kept_smaller(wall: Bench) -> None:
    # A listed bad input, and decoding it is all that takes time.
    large = Image.new("L", (10_000, 10_000), 120)
    ImageDraw.Draw(large).rectangle((4000, 3000, 6100, 5970), fill=235)
    wall.page.locator('input[data-open="open-wall"]').set_input_files(photograph(large, "large.jpg"))
    expect(wall.page.locator("#photographed-wall")).to_contain_text(
        "The photograph has 10000 x 10000 pixels; a copy of 4000 x 4000 pixels is kept.", timeout=DRAWN_MS
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


def mark_corners(client: Page, corners: Sequence[tuple[int, int]]) -> None:
    """Move the rings by keys from where they wait, round the middle of 1200 x 900 pixels."""
    half = 900 / 8
    left, right, top, bottom = 600 - half, 600 + half, 450 - 1.4 * half, 450 + 1.4 * half
    waiting = ((left, top), (right, top), (right, bottom), (left, bottom))
    for corner, ((x, y), (to_x, to_y)) in enumerate(zip(waiting, corners, strict=True)):
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


def drag_corners(client: Page, corners: Sequence[tuple[int, int]], *, width: int = 1200) -> None:
    """Drag the rings to places of a photograph that is so wide."""
    frame = client.locator('#own-view [data-photo="frame"]')
    frame.scroll_into_view_if_needed()
    for corner, (x, y) in enumerate(corners):
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
    found = re.search(r"within (\d+) mm", client.locator("#own-says").inner_text())
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
