"""The built site, a server for it, and pages that fail their tests on any complaint."""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from bench import Bench
from chromium import LIGHT, NO_WEBGL, launch_options
from demo_given import give_demo, reduced_demo
from native_core import RESULTS, open_native_server
from PIL import Image
from playwright.sync_api import Browser, Page, expect, sync_playwright
from served import served

from pycore.serving.server import HOST, open_server
from tests.shipped_photographs import shipped_photograph

ROOT = Path(__file__).resolve().parents[2]
DIST = ROOT / "web" / "dist"

# A busy machine takes its time; what is not there by then does not come.
expect.set_options(timeout=20_000)

#: What Playwright's driver loads before its own program.
DRIVER_WITHOUT_TREES = Path(__file__).with_name("driver_without_trees.cjs")

#: The site's path on its host.
UNDER = "/under/any/path/"

#: Says what the content security policy has refused; what workers are refused, Chromium says by itself.
HEAR_POLICY = """addEventListener("securitypolicyviolation", ({ effectiveDirective, blockedURI, sample }) => {
  console.error(`policy: ${effectiveDirective} refused ${blockedURI} ${sample}`);
})"""

#: Addresses that no server is asked for.
LOCAL_SCHEMES = ("blob", "data")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Everything here drives a browser."""
    for item in items:
        if item.path.is_relative_to(Path(__file__).parent):
            item.add_marker(pytest.mark.browser)
            item.add_marker(pytest.mark.native)


@pytest.fixture(scope="session")
def built() -> Path:
    """The folder of the built site."""
    if not (DIST / "index.html").is_file():
        pytest.fail("the site is not built: run python3 web/serve.py --build-only first")
    return DIST


@pytest.fixture(scope="session")
def pyodide_site(built: Path) -> Iterator[str]:
    """The address of the built site, under a path of its own, as on any static host."""
    with served(open_server(built, port=0, under=UNDER), under=UNDER) as address:
        yield address


@pytest.fixture(scope="session")
def native_site(built: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The same page with the core in a native Python behind it; see `native_core.py`."""
    with (
        pytest.MonkeyPatch.context() as patch,
        served(open_native_server(built, under=UNDER), under=UNDER) as address,
    ):
        patch.setenv(RESULTS, str(tmp_path_factory.mktemp("cores")))
        yield address


@pytest.fixture(scope="module")
def site(request: pytest.FixtureRequest) -> str:
    """The address of the page: with Pyodide in a module that sets `IN_PYODIDE`, which is about that."""
    in_pyodide = getattr(request.module, "IN_PYODIDE", False)
    address: str = request.getfixturevalue("pyodide_site" if in_pyodide else "native_site")
    return address


@pytest.fixture(scope="session")
def quick_browser() -> Iterator[Browser]:
    """One Chromium for all tests; each page has a context, and so a storage, of its own."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("NODE_OPTIONS", f"--require {json.dumps(str(DRIVER_WITHOUT_TREES))}")
        playwright = sync_playwright().start()
    browser = playwright.chromium.launch(**launch_options())
    yield browser
    browser.close()
    playwright.stop()


@pytest.fixture(scope="module")
def exact_browser(quick_browser: Browser) -> Iterator[Browser]:
    """A Chromium that draws slowly and exactly."""
    exact = quick_browser.browser_type.launch(**launch_options("exact"))
    yield exact
    exact.close()


@pytest.fixture(scope="module")
def browser(request: pytest.FixtureRequest) -> Browser:
    """The Chromium of all tests; in a module with `EXACT_COLOURS` the exact one."""
    exact = getattr(request.module, "EXACT_COLOURS", False)
    chosen: Browser = request.getfixturevalue("exact_browser" if exact else "quick_browser")
    return chosen


@pytest.fixture(scope="session")
def china() -> Path:
    """A real photograph, 640 x 427, which scikit-learn ships; its README.txt beside it names the licence."""
    return shipped_photograph("china")


@pytest.fixture(scope="session")
def small_china(china: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The same photograph with a sixteenth of its pixels, 160 x 107, for tests that need no detail."""
    small = tmp_path_factory.mktemp("small") / china.name
    with Image.open(china) as image:
        image.reduce(4).save(small, quality=95)
    return small


@pytest.fixture(scope="session")
def small_demo() -> bytes:
    """The demo's picture with a sixteenth of its pixels: most tests need a picture, not its detail."""
    return reduced_demo()


@pytest.fixture(scope="module")
def demo_picture(request: pytest.FixtureRequest, small_demo: bytes) -> bytes | None:
    """What pages get as the demo's picture; nothing, the picture itself, in a module with `WHOLE_DEMO`."""
    return None if getattr(request.module, "WHOLE_DEMO", False) else small_demo


@pytest.fixture(scope="module")
def draws_wall(request: pytest.FixtureRequest) -> bool:
    """Whether pages can draw the wall: not in a module with `WITHOUT_WALL`, which has nothing to do with it.

    Without a graphics card, drawing is a third of what such a test costs.
    """
    return not getattr(request.module, "WITHOUT_WALL", False)


@pytest.fixture
def complaints() -> list[str]:
    """What the page, its workers or the network complained of; a test that provokes one takes it out."""
    return []


@pytest.fixture
def page(
    browser: Browser, complaints: list[str], demo_picture: bytes | None, draws_wall: bool
) -> Iterator[Page]:
    """An empty page; its test fails on a console error, an uncaught one, or a request to another machine."""
    with watched_page(browser, complaints, demo_picture, draws_wall=draws_wall) as page:
        yield page


@pytest.fixture
def bench(page: Page, site: str) -> Bench:
    """The page in a user's hands; not loaded yet."""
    return Bench(page, site)


@pytest.fixture(scope="module")
def module_bench(
    browser: Browser, site: str, demo_picture: bytes | None, draws_wall: bool
) -> Iterator[Bench]:
    """One page for all tests of a module."""
    with watched_page(browser, [], demo_picture, draws_wall=draws_wall) as page:
        yield Bench(page, site)


@contextmanager
def watched_page(
    browser: Browser, complaints: list[str], demo: bytes | None, *, draws_wall: bool = True
) -> Iterator[Page]:
    """A page in a fresh context, whose complaints are gathered and at the end must be none."""
    context = browser.new_context(viewport={"width": 1280, "height": 800}, accept_downloads=True, **LIGHT)
    context.add_init_script(HEAR_POLICY)
    if not draws_wall:
        context.add_init_script(NO_WEBGL)
    page = context.new_page()

    def hear(kind: str, text: str) -> None:
        if kind == "error":
            complaints.append(f"console: {text}")

    page.on("console", lambda said: hear(said.type, said.text))
    page.on("pageerror", lambda error: complaints.append(f"uncaught: {error}"))
    context.on("request", lambda request: complaints.extend(_foreign(request.url)))
    if demo is not None:
        give_demo(context, demo)
    yield page
    # What is still on its way when the page is closed fails with it.
    heard = list(complaints)
    context.close()
    assert heard == []


def _foreign(address: str) -> list[str]:
    parts = urlsplit(address)
    if parts.scheme in LOCAL_SCHEMES or parts.hostname == HOST:
        return []
    return [f"request to another machine: {address}"]
