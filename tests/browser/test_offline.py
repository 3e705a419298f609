"""The page without a network: while it is open, and opened anew when another version has come."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from bench import Bench
from build.pins import read_pins
from build.service import write_service
from chromium import LIGHT
from measure_load import KEPT as WAITS_FOR_KEPT
from playwright.sync_api import Browser, expect
from served import served

from pycore.serving.server import open_server

pytestmark = pytest.mark.browser

ROOT = Path(__file__).resolve().parents[2]
DIST = ROOT / "web" / "dist"
UNDER = "/below/"

ALLOWED = {**LIGHT, "service_workers": "allow"}

#: All files of the site are read and kept, on a busy machine.
KEPT_MS = 60_000

#: Resolves when the service worker has kept the site and answers for this page.
KEPT = """async () => {
  const { active } = await navigator.serviceWorker.ready;
  if (navigator.serviceWorker.controller === active) return;
  await new Promise((resolve) => navigator.serviceWorker.addEventListener("controllerchange", resolve));
}"""

#: Paths of the site's files that the caches hold.
KEPT_PATHS = """async (base) => {
  const found = [];
  for (const name of await caches.keys()) {
    for (const { url } of await (await caches.open(name)).keys()) found.push(url.replace(base, ""));
  }
  return found;
}"""


def late_names() -> set[str]:
    pins = read_pins(ROOT / "web" / "pins.json")
    return {pin.file.partition("-")[0] for pin in pins.when_needed}


def test_the_page_needs_no_network_once_it_was_open_and_takes_a_new_version_when_asked(
    browser: Browser, small_demo: bytes, tmp_path: Path
) -> None:
    """One page goes through all of it: each of its starts costs seconds of processor time."""
    site = tmp_path / "site"
    shutil.copytree(DIST, site)
    (demo,) = (site / "assets").glob("estuary*.jpg")
    demo.write_bytes(small_demo)
    write_service(site, late=late_names())
    asked: list[str] = []
    with browser.new_context(
        viewport={"width": 1280, "height": 800}, accept_downloads=True, **ALLOWED
    ) as context:
        context.on("request", lambda request: asked.append(request.url))
        server = open_server(site, port=0, under=UNDER)
        with served(server, under=UNDER) as address:
            bench = Bench(context.new_page(), address)
            bench.page.goto(address)
            bench.wait_shown()
            bench.page.set_default_timeout(KEPT_MS)
            assert bench.page.evaluate(WAITS_FOR_KEPT) is True
            bench.page.evaluate(KEPT)
            kept = bench.page.evaluate(KEPT_PATHS, address)
        # The first visit does not wait: all that its own start needs was asked for before.
        names = [one.removeprefix(address).partition("-")[0] for one in asked]
        assert names.index("service.js") > names.index("py/snapshot/memory") > 0
        files = {one.relative_to(site).as_posix() for one in site.rglob("*") if one.is_file()}
        # Derived: all of the site but its service worker, twice there, and what only hosts read.
        own = {
            one for one in files if one.startswith(("service.js", "assets/service-", "_headers", ".htaccess"))
        }
        packed = {one for one in files if one.endswith((".br", ".gz"))}
        assert set(kept) - {"tuckfold-files"} == files - own - packed

        # Only what the service worker has kept is there.
        context.new_cdp_session(bench.page).send("Network.clearBrowserCache")
        # Nobody serves any more. The page fetches what it had not needed yet.
        with bench.page.expect_download(timeout=KEPT_MS):
            bench.button("Save the client page").press("Enter")
        bench.page.get_by_text("The canvas's gamut as a solid").click()
        expect(bench.page.locator(".solid canvas")).to_be_visible()
        with bench.page.expect_download(timeout=KEPT_MS):
            bench.button("Save the ticket").press("Enter")

        index = site / "index.html"
        index.write_text(index.read_text().replace("<title>", '<title data-new="yes">'))
        write_service(site, late=late_names())
        with served(open_server(site, port=server.server_port, under=UNDER)):
            bench.page.evaluate("async () => (await navigator.serviceWorker.getRegistration()).update()")
            expect(bench.page.locator(".new-version")).to_contain_text("A new version is ready")
            expect(bench.page.locator("title")).not_to_have_attribute("data-new", "yes")
        # Nobody serves again: the new version opens anew from what is kept of both.
        bench.button("Load the new version").press("Enter")
        expect(bench.page.locator("title")).to_have_attribute("data-new", "yes")
        bench.wait_shown()
