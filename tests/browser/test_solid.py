"""The gamut solid in Chromium: what lies outside is told by size and shape, and nothing is drawn in vain."""

from __future__ import annotations

import io
from collections.abc import Iterator
from typing import Any

import numpy as np
import pytest
from bundle import EMPTY, LOSE, TWO_FRAMES, bundled
from numpy.typing import NDArray
from PIL import Image
from playwright.sync_api import Browser, Page
from rest import WATCH, at_rest

from pycore.colour.gamut.device_gamut import make_device_gamut
from pycore.colour.icc.profile import parse_profile
from pycore.colour.illustrative.profile import illustrative_profile
from pycore.colour.mapping.solid import gamut_solid

pytestmark = pytest.mark.browser

Shot = NDArray[np.int64]

NONE: dict[str, list[float]] = {"lab": [], "printedLab": [], "srgb": [], "share": [], "difference": []}

#: Keeps what becomes of the graphics context; asked for last, it is told after the page itself.
HEAR_CONTEXT = """() => {
  window.heard = [];
  for (const kind of ["webglcontextlost", "webglcontextrestored"]) {
    document.querySelector("canvas").addEventListener(kind, () => heard.push(kind));
  }
}"""


class SolidPage:
    """The page with the solid alone."""

    def __init__(self, page: Page) -> None:
        self.page = page

    def call(self, method: str, *given: Any) -> None:
        self.page.evaluate("([name, given]) => { solidPage[name](...given) }", [method, list(given)])

    def solid(self, method: str, *given: Any) -> None:
        self.page.evaluate("([name, given]) => { solidPage.solid[name](...given) }", [method, list(given)])

    def frames(self) -> int:
        return int(self.page.evaluate("solidPage.solid.frames"))

    def shot(self) -> Shot:
        self.page.evaluate(TWO_FRAMES)
        return np.asarray(Image.open(io.BytesIO(self.page.screenshot())).convert("RGB")).astype(np.int64)

    def mark(self, difference: float, printed: tuple[float, float, float] = (50, 0, 0)) -> NDArray[np.bool_]:
        """Pixels of one red mark, cut to their bounding box."""
        self.call("setPoints", NONE)
        without = self.shot()
        one = {"lab": [50, 0, 0], "printedLab": list(printed), "srgb": [220, 30, 40]}
        self.call("setPoints", one | {"share": [0.01], "difference": [difference]})
        changed = np.abs(self.shot() - without).max(axis=-1) > 24
        rows, columns = np.flatnonzero(changed.any(axis=1)), np.flatnonzero(changed.any(axis=0))
        mark: NDArray[np.bool_] = changed[rows[0] : rows[-1] + 1, columns[0] : columns[-1] + 1]
        return mark


@pytest.fixture(scope="module")
def module_solid(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[SolidPage]:
    """One page for all tests."""
    context = browser.new_context(viewport={"width": 560, "height": 440})
    page = context.new_page()
    complaints: list[str] = []
    page.on("console", lambda said: complaints.append(said.text) if said.type == "error" else None)
    page.on("pageerror", lambda error: complaints.append(str(error)))
    page.set_content(EMPTY)
    page.evaluate(WATCH)
    page.add_script_tag(content=bundled("tests/web/solid/solid_page.ts", tmp_path_factory.mktemp("solid")))
    yield SolidPage(page)
    context.close()
    assert complaints == []


@pytest.fixture
def solid(module_solid: SolidPage) -> SolidPage:
    """No colours of a picture, and a canvas without any; the camera at home."""
    module_solid.call("setSolid", {"lab": [], "srgb": [], "triangles": []})
    module_solid.call("setPoints", NONE)
    module_solid.solid("setThreshold", 2.0)
    module_solid.solid("setTheme", "light")
    module_solid.page.focus("canvas")
    module_solid.page.keyboard.press("Home")
    return module_solid


def matte_solid() -> dict[str, list[float]]:
    solid = gamut_solid(make_device_gamut(parse_profile(illustrative_profile())))
    return {
        "lab": solid.lab_d50.ravel().tolist(),
        "srgb": np.rint(np.clip(solid.srgb_encoded, 0, 1) * 255).ravel().tolist(),
        "triangles": solid.triangles.ravel().tolist(),
    }


def test_outside_is_told_by_shape_and_size(solid: SolidPage) -> None:
    inside, outside, far = solid.mark(0.0), solid.mark(6.0), solid.mark(18.0)
    # derived: a disc fills pi / 4 = 0.79 of its box, a diamond a half; some pixels of rim blur both.
    assert inside.mean() > 0.68
    assert outside.mean() < 0.66
    assert far.mean() < 0.62
    assert inside.shape[0] < far.shape[0] * 0.75
    assert outside.shape[0] < far.shape[0] - 2


def test_a_line_leads_to_where_it_prints(solid: SolidPage) -> None:
    alone, led = solid.mark(6.0), solid.mark(6.0, printed=(90, 0, 0))
    # Upwards by 40 of L*: far more than the mark is tall.
    assert led.shape[0] > 4 * alone.shape[0]
    assert abs(led.shape[1] - alone.shape[1]) <= 1
    # What is lost by less than the threshold has neither.
    assert solid.mark(1.0, printed=(90, 0, 0)).shape[0] < alone.shape[0]


def test_the_threshold_is_live(solid: SolidPage) -> None:
    solid.mark(6.0)
    marked, before = solid.shot(), solid.frames()
    solid.solid("setThreshold", 7.0)
    passed = solid.shot()
    assert solid.frames() - before == 1
    assert (passed != marked).any()
    solid.solid("setThreshold", 2.0)
    np.testing.assert_array_equal(solid.shot(), marked)


def test_themes_and_the_solid(solid: SolidPage) -> None:
    empty = solid.shot()
    solid.call("setSolid", matte_solid())
    light = solid.shot()
    # The canvas's colours cover a good part of the drawing, and are colours.
    assert ((light != empty).any(axis=-1)).mean() > 0.08
    # The ground itself spans 24 levels.
    assert (np.ptp(light, axis=-1) > 60).mean() > 0.02
    solid.solid("setTheme", "dark")
    dark = solid.shot()
    # derived: the ground of web/src/solid/theme.ts, #e5dccd and #35302a.
    assert light[3, 3].tolist() == [0xE5, 0xDC, 0xCD]
    assert dark[3, 3].tolist() == [0x35, 0x30, 0x2A]


def test_turns_by_keys_and_pointer_and_rests(solid: SolidPage) -> None:
    solid.call("setSolid", matte_solid())
    home = solid.shot()
    for key in ("ArrowLeft", "ArrowUp", "Shift+ArrowRight", "+", "-"):
        before = solid.shot()
        solid.page.keyboard.press(key)
        assert (solid.shot() != before).any(), key
    before = solid.shot()
    solid.page.mouse.move(280, 220)
    solid.page.mouse.down()
    solid.page.mouse.move(330, 240, steps=3)
    solid.page.mouse.up()
    assert (solid.shot() != before).any()
    solid.page.keyboard.press("Home")
    np.testing.assert_array_equal(solid.shot(), home)
    frames = solid.frames()
    at_rest(solid.page)
    assert solid.frames() == frames


def test_a_lost_context_comes_back(solid: SolidPage) -> None:
    solid.call("setSolid", matte_solid())
    solid.mark(6.0)
    before = solid.shot()
    solid.page.evaluate(HEAR_CONTEXT)
    solid.page.evaluate(LOSE)
    solid.page.wait_for_function("() => heard.includes('webglcontextlost')")
    solid.page.evaluate("losing.restoreContext()")
    solid.page.wait_for_function("() => heard.includes('webglcontextrestored')")
    at_rest(solid.page)
    np.testing.assert_array_equal(solid.shot(), before)
