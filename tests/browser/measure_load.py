"""Measures the cold load of the page against a page that only starts Pyodide and imports numpy and Pillow.

    python tests/browser/measure_load.py [--runs N]

There are two such baselines: one with Pyodide's runtime and wheels as their makers publish them, and a harder
one with the site's own, whose modules are compiled already. All pages come from one server to one kind of
browser. Runs alternate, each in a fresh browser with an empty cache, so that a drift of the machine meets all
alike. It prints median times, their ratios, and how soon the page itself has painted.
"""

from __future__ import annotations

import argparse
import shutil
import statistics
import sys
import tempfile
import threading
from pathlib import Path
from typing import Any, Final

from playwright.sync_api import Playwright, sync_playwright

ROOT: Final = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "web"))

from build.pins import read_pins  # noqa: E402 (web/ holds the build's modules)
from build.places import Places, places  # noqa: E402
from build.server import HOST, open_server  # noqa: E402
from chromium import launch_options  # noqa: E402 (beside this file)

#: The least that any page with numpy and Pillow in the browser must wait for.
BASELINE: Final = """<!doctype html>
<html lang="en">
<meta charset="utf-8">
<title>Baseline</title>
<script type="module">
  import { loadPyodide } from "./py/pyodide.mjs";
  const indexURL = new URL("py/", document.baseURI).href;
  const python = await loadPyodide({ indexURL, packages: ["numpy", "pillow"] });
  python.pyimport("numpy");
  python.pyimport("PIL.Image");
  performance.mark("tuckfold:shown");
  document.documentElement.dataset.state = "shown";
</script>
"""

#: When a mark was set, in milliseconds since the navigation began.
MARK_MS: Final = "name => performance.getEntriesByName(name)[0]?.startTime ?? null"

PAGES: Final = ("published/baseline.html", "site/baseline.html", "site/index.html")


def lay_out(at: Places, folder: Path) -> None:
    """Put the built site and both baselines into a folder."""
    shutil.copytree(at.dist, folder / "site")
    published = folder / "published" / "py"
    shutil.copytree(at.node_modules / "pyodide", published)
    for pin in read_pins(at.web / "pins.json").carried:
        shutil.copyfile(at.wheels / pin.file, published / pin.file)
    for site in ("site", "published"):
        (folder / site / "baseline.html").write_text(BASELINE, encoding="utf-8")


def cold_load(playwright: Playwright, address: str) -> dict[str, float | None]:
    """Open a page in a new browser.

    Returns
    -------
    dict
        Milliseconds from the navigation's start to `shown`, the first folded preview (for a baseline: the end
        of its imports), to `ready`, the core's answer that it is there, and to `painted`, the first paint.
    """
    browser = playwright.chromium.launch(**launch_options())
    try:
        page = browser.new_page()
        page.goto(address)
        page.wait_for_function("document.documentElement.dataset.state === 'shown'", timeout=120_000)
        shown: Any = page.evaluate(MARK_MS, "tuckfold:shown")
        ready: Any = page.evaluate(MARK_MS, "tuckfold:core-ready")
        painted: Any = page.evaluate(MARK_MS, "first-contentful-paint")
        return {"shown": shown, "ready": ready, "painted": painted}
    finally:
        browser.close()


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description="Measure the cold load of the built page.")
    parser.add_argument("--runs", type=int, default=7, help="cold loads of each page (default: %(default)s)")
    runs = parser.parse_args().runs
    shown: dict[str, list[float]] = {name: [] for name in PAGES}
    ready: list[float] = []
    painted: list[float] = []
    with tempfile.TemporaryDirectory(prefix="tuckfold-load-") as folder:
        lay_out(places(ROOT), Path(folder))
        with open_server(Path(folder), port=0) as server, sync_playwright() as playwright:
            threading.Thread(target=server.serve_forever, daemon=True).start()
            base = f"http://{HOST}:{server.server_port}/"
            for run in range(runs):
                for name in PAGES:
                    took = cold_load(playwright, base + name)
                    shown[name].append(took["shown"] or 0.0)
                    if name == PAGES[-1]:
                        ready.append(took["ready"] or 0.0)
                        painted.append(took["painted"] or 0.0)
                print(f"run {run + 1}: " + ", ".join(f"{name} {shown[name][-1]:.0f} ms" for name in PAGES))
            server.shutdown()
    median = {name: statistics.median(times) for name, times in shown.items()}
    print(f"page painted, median: {statistics.median(painted):.0f} ms")
    print(f"core ready, median: {statistics.median(ready):.0f} ms")
    print(f"page to its first folded preview, median: {median[PAGES[-1]]:.0f} ms")
    for name in PAGES[:-1]:
        print(f"{name}, median: {median[name]:.0f} ms, ratio {median[PAGES[-1]] / median[name]:.3f}")


if __name__ == "__main__":
    main()
