"""Measures how the page starts against a page that only starts Pyodide and imports numpy and Pillow.

    python tests/browser/measure_load.py [--runs N] [--quickly]

There are two such baselines: one with Pyodide's runtime and wheels as their makers publish them, and a harder
one with the site's own, whose modules are compiled already. The page itself starts from its snapshot, and for
comparison plainly. All come from one server to one kind of browser. Runs alternate, each with a fresh
profile, so that a drift of the machine meets all alike; then the browser is started again with the same
profile, for the second visit. It prints medians: when the page has painted, when the first folded preview is
there, which the build has made of the demo, when the core is ready, when the canvas that the core has made
takes its place, the processor time of all of the browser's processes until then, and ratios; and what a first
visit fetches, file by file.
"""

from __future__ import annotations

import argparse
import gzip
import os
import shutil
import statistics
import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from playwright.sync_api import Playwright, sync_playwright

ROOT: Final = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "web"), str(ROOT)]

from build.pins import read_pins  # noqa: E402 (web/ holds the build's modules)
from build.places import Places, places  # noqa: E402
from chromium import launch_options  # noqa: E402 (beside this file)
from served import served  # noqa: E402

from pycore.serving.server import handler_for, open_server  # noqa: E402 (after web/ is named)

#: The baselines have their program in them; the page says its own policy itself.
POLICY: Final = "script-src 'self' 'unsafe-inline' 'wasm-unsafe-eval'"

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

PUBLISHED, BARE, PAGE, PLAIN = (
    "published/baseline.html",
    "bare/baseline.html",
    "site/index.html",
    "site/index.html?start=plain",
)

#: Resolves when the page is kept for visits without a network, which it begins after its first picture; a
#: baseline keeps nothing.
KEPT: Final = (
    """() => document.querySelector("link[rel=manifest]") && navigator.serviceWorker.ready.then(() => true)"""
)

#: The effort that gzip makes, usually and with `--quickly`.
LEVEL, QUICK_LEVEL = 6, 1

#: How long a visit lasts after that.
STAY_MS: Final = 4000

#: In seconds, of one tick of the processor times that Linux gives.
TICK_S: Final = 1 / os.sysconf("SC_CLK_TCK")


@dataclass(frozen=True)
class Load:
    """One load of a page; milliseconds from the navigation's start."""

    shown: float
    """The canvas that the core has made; for a baseline the end of its imports."""
    processor: float
    """Processor time, of all of the browser's processes until then."""
    ready: float
    """The core answers; 0 for a baseline."""
    painted: float
    """The first paint; 0 for a baseline."""
    view: float
    """The first folded preview, the first thing on the wall; for a baseline the end of its imports."""


def lay_out(at: Places, folder: Path) -> None:
    """Put the built site and both baselines into a folder."""
    shutil.copytree(at.dist, folder / "site")
    shutil.copytree(at.python, folder / "bare" / "py")
    published = folder / "published" / "py"
    shutil.copytree(at.node_modules / "pyodide", published)
    for pin in read_pins(at.web / "pins.json").carried:
        shutil.copyfile(at.wheels / pin.file, published / pin.file)
    for site in ("bare", "published"):
        (folder / site / "baseline.html").write_text(BASELINE, encoding="utf-8")


def load(playwright: Playwright, address: str, profile: Path, *, stays: bool, asked: list[str]) -> Load:
    """Open a page in a browser that is started for it.

    Parameters
    ----------
    playwright : Playwright
        Whatever starts browsers.
    address : str
        The page's.
    profile : Path
        The folder of the browser's profile with its cache.
    stays : bool
        Whether another visit follows, for which the page and the browser keep what they have.
    asked : list of str
        Gets the addresses that the page asks for until the core's canvas is there.
    """
    before = processor_ms()
    context = playwright.chromium.launch_persistent_context(profile, **launch_options())
    try:
        page = context.new_page()
        seen: list[str] = []
        context.on("request", lambda request: seen.append(request.url))
        page.goto(address)
        page.wait_for_function("() => document.documentElement.dataset.state === 'shown'", timeout=120_000)
        asked += seen
        processor = processor_ms() - before
        names = (
            "tuckfold:shown",
            "tuckfold:core-ready",
            "first-contentful-paint",
            "tuckfold:first-view",
        )
        shown, ready, painted, view = (float(page.evaluate(MARK_MS, name) or 0) for name in names)
        if stays:
            page.evaluate(KEPT)
            # A browser writes down compiled code some time after it has run; nobody leaves at the first
            # picture.
            page.wait_for_timeout(STAY_MS)
        return Load(shown, processor, ready, painted, view or shown)
    finally:
        context.close()


def processor_ms() -> float:
    """Processor time of all processes that this one has begun and that live, in milliseconds; on Linux."""
    ticks: dict[int, int] = {}
    children: dict[int, list[int]] = {}
    for stat in Path("/proc").glob("[0-9]*/stat"):
        try:
            # proc(5): after the name in brackets come the state, the parent, and as 12th and 13th the times.
            fields = stat.read_text().rpartition(")")[2].split()
        except (FileNotFoundError, ProcessLookupError):
            # It has just ended.
            continue
        process = int(stat.parent.name)
        ticks[process] = int(fields[11]) + int(fields[12])
        children.setdefault(int(fields[1]), []).append(process)
    waiting, total = [*children.get(os.getpid(), [])], 0
    while waiting:
        process = waiting.pop()
        total += ticks[process]
        waiting += children.get(process, [])
    return total * TICK_S * 1000


def print_table(title: str, loads: dict[str, list[Load]]) -> None:
    """Medians of one kind of visit."""
    print(f"{title}, medians in ms: painted, first preview, core ready, core's canvas; processor time")
    for name, found in loads.items():
        values = [statistics.median(getattr(one, field) for one in found) for field in FIELDS]
        print(f"  {name:28}" + "".join(f"{value:8.0f}" for value in values))


def print_bytes(folder: Path, asked: list[str], *, level: int) -> None:
    """What a first visit fetches: bytes as they lie there, and by gzip."""
    print("a first visit fetches, in bytes: as they are, by gzip")
    rows = []
    for path in dict.fromkeys(asked):
        data = (folder / path).read_bytes()
        rows.append((len(data), len(gzip.compress(data, level)), path))
    for size, packed, path in sorted(rows, reverse=True):
        print(f"  {size:10,} {packed:10,}  {path}")
    print(f"  {sum(row[0] for row in rows):10,} {sum(row[1] for row in rows):10,}  together")


FIELDS: Final = ("painted", "view", "ready", "shown", "processor")


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description="Measure how the built page starts.")
    parser.add_argument(
        "--runs", type=int, default=7, help="first visits of each page (default: %(default)s)"
    )
    parser.add_argument(
        "--quickly",
        action="store_true",
        help="only first visits of the page and of the harder baseline, and the least effort by gzip",
    )
    given = parser.parse_args()
    runs, pages = given.runs, (BARE, PAGE) if given.quickly else (PUBLISHED, BARE, PAGE, PLAIN)
    first: dict[str, list[Load]] = {name: [] for name in pages}
    again = () if given.quickly else [name for name in pages if name != PUBLISHED]
    second: dict[str, list[Load]] = {name: [] for name in again}
    asked: dict[str, list[str]] = {name: [] for name in pages}
    with tempfile.TemporaryDirectory(prefix="tuckfold-load-") as folder:
        lay_out(places(ROOT), Path(folder))
        server = open_server(Path(folder), port=0)
        server.RequestHandlerClass = handler_for(Path(folder), policy=POLICY)
        with served(server) as base, sync_playwright() as playwright:
            for run in range(runs):
                for name in first:
                    profile = Path(folder) / f"profile-{run}-{list(first).index(name)}"
                    asked[name].clear()
                    found = load(playwright, base + name, profile, stays=name in second, asked=asked[name])
                    first[name].append(found)
                    if name in second:
                        found = load(playwright, base + name, profile, stays=False, asked=[])
                        second[name].append(found)
                    shutil.rmtree(profile)
                views = ", ".join(
                    f"{name} {loads[-1].view:.0f} and {loads[-1].shown:.0f} ms"
                    for name, loads in first.items()
                )
                print(f"run {run + 1}: {views}", flush=True)
        print_table("first visit", first)
        if second:
            print_table("second visit", second)
        # What is kept for visits without a network comes after the visit's own.
        own = [one for one in asked[PAGE] if one.startswith(base) and not one.endswith("/service.js")]
        level = QUICK_LEVEL if given.quickly else LEVEL
        print_bytes(Path(folder), [one.removeprefix(base) for one in own], level=level)
    bare = statistics.median(one.shown for one in first[BARE])
    for title, loads in (("first", first), ("second", second)):
        for name in (one for one in (PAGE, PLAIN) if one in loads):
            view, shown = (
                statistics.median(getattr(one, field) for one in loads[name]) for field in ("view", "shown")
            )
            print(
                f"{title} visit, {name} over a first visit of the bare page: "
                f"first preview {view / bare:.3f}, core's canvas {shown / bare:.3f}"
            )


if __name__ == "__main__":
    main()
