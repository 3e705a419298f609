"""The client's page as a client meets it: opened from the disk, without any network."""

from __future__ import annotations

import io
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Final

import numpy as np
import numpy.typing as npt
import pytest
from chromium import LIGHT, NO_WEBGL
from PIL import Image
from playwright.sync_api import Browser, Page, ViewportSize, expect
from rest import WATCH, at_rest
from test_access import violations

from pycore.client.page import make_client_page, viewer_program
from pycore.client.recheck import check_client_page
from pycore.client.surroundings import Surroundings
from pycore.compare.variants import Variant
from pycore.contract.check import check_job
from pycore.picture.read import read_picture
from pycore.progress import run_to_end
from pycore.proofing.profile_store import ProfileStore
from pycore.render.preview import PreviewSource

pytestmark = pytest.mark.browser

SCRIPT = "</script><img src=x onerror=alert(1)><script>alert(2)</script>"
HEBREW = "\u05d2\u05d0\u05d5\u05ea \u05d5\u05e9\u05e4\u05dc"
CJK = "\u6f6e\u304c\u5f15\u304f\u6d77"

#: Chromium draws without a graphics card and on a busy machine.
HUNG_MS = 60_000

#: The window that most tests look through.
USUAL: Final[ViewportSize] = {"width": 1440, "height": 900}

#: Presses and chooses what a page is opened with.
AS_AT_FIRST: Final = """() => {
  const all = ["[name=choice]", "[data-many=one]", "[data-view=front]"];
  for (const one of all) document.querySelector(one).click();
}"""


@dataclass
class Opened:
    """An open page, and everything that it should not have done."""

    page: Page
    asked: list[str] = field(default_factory=list)
    complaints: list[str] = field(default_factory=list)

    def wait(self, state: str = "hung") -> None:
        self.page.wait_for_selector(f"html[data-state={state}]", timeout=HUNG_MS)

    def wall(self) -> npt.NDArray[np.int16]:
        """The 3D view's pixels, without its rim, where the line of the focus may be drawn."""
        shot = self.page.locator("#wall").screenshot()
        return np.asarray(Image.open(io.BytesIO(shot)).convert("RGB"), np.int16)[8:-8, 8:-8]

    def settle(self) -> npt.NDArray[np.int16]:
        """The 3D view's pixels when it has come to rest."""
        at_rest(self.page)
        return self.wall()


Make = Callable[..., Path]


@pytest.fixture(scope="module")
def make(china: Path, tmp_path_factory: pytest.TempPathFactory) -> Make:
    """Write a page for some jobs."""
    picture = PreviewSource(read_picture(china.read_bytes(), file="china.jpg"))
    profiles = ProfileStore()

    def write(*jobs: dict[str, Any], labels: tuple[str, ...] = ("",), message: str = "") -> Path:
        face = {"face": {"width_mm": 300, "height_mm": 200}}
        variants = [
            Variant(label=label, job=check_job({**face, **job}))
            for job, label in zip(jobs, labels, strict=True)
        ]
        made = run_to_end(
            make_client_page(
                variants,
                picture,
                profiles,
                viewer=viewer_program(),
                message=message,
                date="2031-04-30",
                surroundings=Surroundings(),
            )
        )
        path = tmp_path_factory.mktemp("client") / "page.html"
        path.write_bytes(made.data)
        check_client_page(path.read_bytes(), file=path.name, variants=len(jobs))
        return path

    return write


@pytest.fixture(scope="module")
def three(make: Make) -> Path:
    """Three depths, and names with everything in them."""
    jobs = [
        {"name": f"Ebb {HEBREW}", "client": SCRIPT, "bars": {"depth_mm": depth}, "wrap": {"finish": finish}}
        for depth, finish in ((18, "tucked"), (38, "lapped"), (50, "trimmed"))
    ]
    return make(*jobs, labels=("18 mm", SCRIPT, CJK), message=f"{SCRIPT}\n{CJK}")


@contextmanager
def opened(browser: Browser, path: Path, *, script: str = "", **options: Any) -> Iterator[Opened]:
    """Open a page from the disk with the network off; at the end nothing was asked of it or complained of."""
    with ExitStack() as stack:
        given = {"viewport": USUAL, **LIGHT, **options}
        context = stack.enter_context(browser.new_context(**given))
        context.set_offline(True)
        context.add_init_script(WATCH)
        if script:
            context.add_init_script(script)
        found = Opened(context.new_page())
        page = found.page
        context.on("request", lambda one: found.asked.append(one.url))
        page.on("requestfailed", lambda one: found.complaints.append(f"failed: {one.url[:80]}"))
        page.on("console", lambda one: found.complaints.append(one.text) if one.type == "error" else None)
        page.on("pageerror", lambda one: found.complaints.append(f"uncaught: {one}"))

        def refuse(dialog: Any) -> None:
            found.complaints.append(f"dialog: {dialog.message}")
            dialog.dismiss()

        page.on("dialog", refuse)
        page.goto(path.as_uri())
        yield found
        asked = [one for one in found.asked if not one.startswith("data:") and one != path.as_uri()]
        assert asked == []
        assert found.complaints == []


@pytest.fixture(scope="module")
def hung(browser: Browser, three: Path) -> Iterator[Opened]:
    """One page for the tests that leave it whole."""
    with opened(browser, three) as found:
        found.wait()
        yield found


@pytest.fixture
def found(hung: Opened) -> Opened:
    """The first of the three alone, seen from the front, in a window of the usual size."""
    hung.page.set_viewport_size(USUAL)
    hung.page.evaluate(AS_AT_FIRST)
    return hung


def test_orbit_by_drag_and_by_keys_without_a_network(found: Opened) -> None:
    front = found.settle()
    # The photograph hangs there: the view is no plain wall.
    assert front.std() > 20
    box = found.page.locator("#wall canvas").bounding_box()
    assert box is not None
    found.page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    found.page.mouse.down()
    found.page.mouse.move(box["x"] + box["width"] / 2 + 160, box["y"] + box["height"] / 2, steps=4)
    found.page.mouse.up()
    dragged = found.settle()
    assert np.abs(dragged - front).mean() > 4
    expect(found.page.locator("#views [aria-pressed=true]")).to_have_count(0)
    found.page.locator("#wall canvas").focus()
    for _ in range(4):
        found.page.keyboard.press("ArrowLeft")
    assert np.abs(found.settle() - dragged).mean() > 4
    found.page.keyboard.press("Home")
    assert np.abs(found.settle() - front).mean() < 1


def test_the_views_and_the_variants(found: Opened) -> None:
    seen = [found.settle()]
    for view in ("Side", "Corner", "Back"):
        found.page.get_by_role("button", name=view, exact=True).click()
        seen.append(found.settle())
        assert np.abs(seen[-1] - seen[-2]).mean() > 4
    found.page.get_by_role("button", name="Side", exact=True).click()
    shallow = found.settle()
    found.page.locator("input[name=choice]").nth(2).check()
    deep = found.settle()
    assert np.abs(deep - shallow).mean() > 1
    expect(found.page.locator("#captions span")).to_have_text([f"C {CJK}"])
    found.page.get_by_role("button", name="All side by side").click()
    assert np.abs(found.settle() - deep).mean() > 4
    expect(found.page.locator("#captions span")).to_have_text(["A 18 mm", f"B {SCRIPT}", f"C {CJK}"])


def test_in_forced_colours_what_is_chosen_is_seen(found: Opened) -> None:
    style = "one => [getComputedStyle(one).backgroundColor, getComputedStyle(one).color]"
    found.page.emulate_media(forced_colors="active")
    pressed = found.page.locator('button[aria-pressed="true"]').first.evaluate(style)
    free = found.page.locator('button[aria-pressed="false"]').first.evaluate(style)
    assert pressed[0] != free[0]
    assert pressed[0] != pressed[1]
    edges = found.page.locator(".choice").evaluate_all(
        "all => all.map((one) => getComputedStyle(one).borderInlineStartWidth)"
    )
    # Derived: the first of the three is chosen, and the style gives it a line of 3 px.
    assert edges == ["3px", "0px", "0px"]
    found.page.emulate_media(forced_colors="none")


def test_a_script_in_the_clients_name_stays_text(found: Opened) -> None:
    expect(found.page.locator(".for")).to_have_text(f"For {SCRIPT}")
    expect(found.page.locator(".message")).to_contain_text(SCRIPT)
    expect(found.page.locator(".message")).to_contain_text(CJK)
    expect(found.page.locator("h1")).to_have_text(f"Ebb {HEBREW}")
    expect(found.page.locator("img:not([src^='data:'])")).to_have_count(0)
    assert f"For: {SCRIPT}" in found.page.locator("#text").input_value()


def test_the_policy_stops_what_would_be_added(found: Opened) -> None:
    found.page.evaluate(
        "() => { document.body.insertAdjacentHTML('beforeend', '<b onclick=\"window.ran = 1\">x</b>');"
        " document.body.lastElementChild.click(); }"
    )
    assert found.page.evaluate("window.ran") is None
    found.page.evaluate("document.body.lastElementChild.remove()")
    assert len(found.complaints) == 1
    assert "Content Security Policy" in found.complaints.pop()


def test_the_answer_is_copied(found: Opened) -> None:
    page = found.page
    page.locator("input[name=choice]").first.focus()
    page.keyboard.press("ArrowDown")
    page.get_by_label("Your name").fill("Mara Quill")
    page.get_by_label("Date").fill("2 May 2031")
    page.get_by_role("button", name="Copy the text").click()
    expect(page.locator("#said")).to_have_text("The text is copied.")
    text = page.locator("#text").input_value()
    for line in (f"I choose B: {SCRIPT}.", "Name: Mara Quill", "Date: 2 May 2031"):
        assert line in text.split("\n")
    assert "Depth: 38 mm (1.5 in) off the wall" in text
    page.get_by_label("Remarks").focus()
    page.keyboard.press("Control+V")
    expect(page.get_by_label("Remarks")).to_have_value(text)
    assert page.locator("#text").input_value().endswith(f"Remarks: {text}")


def test_the_answer_is_printed_with_the_drawings(found: Opened) -> None:
    page = found.page
    page.evaluate("() => { window.printed = 0; window.print = () => { window.printed += 1; }; }")
    page.get_by_label("Your name").fill("Mara Quill")
    page.get_by_role("button", name="Print").click()
    assert page.evaluate("window.printed") == 1
    page.emulate_media(media="print")
    expect(page.locator("#printed")).to_contain_text("Name: Mara Quill")
    for shown in ("#printed", "#stills", "#choices-title"):
        expect(page.locator(shown)).to_be_visible()
    for hidden in ("#wall", "#views", "#copy", "#text", "#by"):
        expect(page.locator(hidden)).to_be_hidden()
    for still in page.locator("#stills img").all():
        assert still.evaluate("one => one.naturalWidth") > 300
    page.emulate_media(media="screen")


@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize(("width", "height"), [(1440, 900), (390, 844)])
def test_axe_finds_nothing(found: Opened, theme: Any, width: int, height: int) -> None:
    found.page.set_viewport_size({"width": width, "height": height})
    found.page.emulate_media(color_scheme=theme)
    assert violations(found.page) == []
    assert found.page.locator(".choice").count() == 3
    found.page.emulate_media(color_scheme="light")


@pytest.fixture(scope="module")
def with_long_words(browser: Browser, make: Make) -> Iterator[Page]:
    """A page whose names and words are as long as may be, without a blank."""
    long = "w" * 1990
    path = make({"name": long, "client": long}, {}, labels=("v" * 200, CJK), message=long)
    with opened(browser, path) as found:
        found.wait()
        found.page.get_by_role("button", name="All side by side").click()
        yield found.page


@pytest.mark.parametrize("width", [360, 390, 768, 1440])
def test_nothing_sticks_out_sideways(with_long_words: Page, width: int) -> None:
    with_long_words.set_viewport_size({"width": width, "height": 800})
    assert with_long_words.evaluate("document.documentElement.scrollWidth") <= width


def test_without_webgl_the_drawings_stay(browser: Browser, three: Path) -> None:
    with opened(browser, three, script=NO_WEBGL) as found:
        found.wait("drawn")
        expect(found.page.locator("#why")).to_contain_text("shows no 3D view here")
        expect(found.page.locator("#stills img")).to_have_count(3)
        expect(found.page.locator("#stills img").first).to_be_visible()
        expect(found.page.locator("#wall")).to_be_hidden()
        expect(found.page.locator("#views")).to_be_hidden()
        found.page.locator("input[name=choice]").nth(1).check()
        assert found.page.locator("#text").input_value().startswith("I choose B")


def test_where_pixels_are_withheld_the_drawings_stay(browser: Browser, three: Path) -> None:
    script = """
      const read = CanvasRenderingContext2D.prototype.getImageData;
      CanvasRenderingContext2D.prototype.getImageData = function (...where) {
        const found = read.apply(this, where);
        found.data[1] ^= 1;
        return found;
      };
    """
    with opened(browser, three, script=script) as found:
        found.wait("drawn")
        expect(found.page.locator("#stills img").first).to_be_visible()


def test_a_lost_view_comes_back(found: Opened) -> None:
    others = found.page.locator("input[name=choice]")
    others.nth(1).check()
    before = found.settle()
    others.nth(0).check()
    found.page.evaluate(
        "() => { window.held = document.querySelector('#wall canvas').getContext('webgl2')"
        ".getExtension('WEBGL_lose_context'); window.held.loseContext(); }"
    )
    expect(found.page.locator("#why")).to_contain_text("it is being restarted")
    expect(found.page.locator("#stills img").first).to_be_visible()
    # What is chosen meanwhile hangs under its caption, whose height is unknown while nothing is seen.
    others.nth(1).check()
    found.page.evaluate("window.held.restoreContext()")
    expect(found.page.locator("#why")).to_be_empty()
    assert np.abs(found.settle() - before).mean() < 1


def test_without_scripts_there_are_drawings_and_a_text(browser: Browser, three: Path) -> None:
    with opened(browser, three, java_script_enabled=False) as found:
        expect(found.page.locator("#stills img").first).to_be_visible()
        expect(found.page.locator("#copy")).to_be_hidden()
        text = found.page.locator("#text").input_value()
        assert "(Strike out what you do not choose.)" in text
        assert "I choose A: 18 mm." in text
