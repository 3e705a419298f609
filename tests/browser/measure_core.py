"""Measures the core in Chromium and natively: worker times of a change, and a 107-megapixel print file.

    python tests/browser/measure_core.py [--print-kind tiff] [--share 1] [--in-chromium print]

The same code (timed_core.py) runs in both interpreters. In Chromium it runs in the built site's own Pyodide:
all of it, or what `--in-chromium` names.
"""

from __future__ import annotations

import argparse
import json
import resource
import shutil
import sys
import tempfile
from pathlib import Path

import timed_core
from chromium import launch_options
from playwright.sync_api import Page, sync_playwright

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "web"), str(ROOT)]

from build.places import places  # noqa: E402 (web/ holds the build's modules)
from served import served  # noqa: E402 (it needs the core)

from pycore.serving.server import handler_for, open_server  # noqa: E402 (after that folder is named)
from tests.shipped_photographs import shipped_photograph  # noqa: E402

#: The page below has its program in it.
POLICY = "default-src 'self'; script-src 'self' 'unsafe-inline' 'wasm-unsafe-eval'"

PAGE = """<!doctype html>
<html lang="en">
<meta charset="utf-8">
<title>Timed</title>
<script type="module">
  import { loadPyodide } from "./py/pyodide.mjs";
  const indexURL = new URL("py/", document.baseURI).href;
  const python = await loadPyodide({ indexURL, packageBaseUrl: indexURL, packages: ["tuckfold"] });
  python.FS.writeFile("timed_core.py", await (await fetch("timed_core.py")).text());
  const timed = python.pyimport("timed_core");
  const photograph = python.toPy(new Uint8Array(await (await fetch("china.jpg")).arrayBuffer())).tobytes();
  window.run = (name, ...more) => timed[name](photograph, ...more);
  window.memory = () => python._module.HEAP8.length;
  document.documentElement.dataset.state = "ready";
</script>
"""


#: What is measured, and its function in timed_core.py.
PARTS = {"a change": "time_show", "colour": "time_colour", "choices": "time_choices", "print": "time_print"}


def main() -> None:
    parser = argparse.ArgumentParser(description="Measure the core in Chromium and natively.")
    parser.add_argument("--print-kind", choices=("tiff", "png", "jpeg"), default="tiff")
    parser.add_argument("--share", type=float, default=1.0, help="of the pixels (default: %(default)s)")
    parser.add_argument(
        "--in-chromium", action="append", choices=PARTS, help="only this there (default: all)", dest="parts"
    )
    given = parser.parse_args()
    more: dict[str, list[str | float]] = {part: [given.share] for part in PARTS}
    more["print"] = [given.print_kind, given.share]
    china = shipped_photograph("china")
    data = china.read_bytes()
    for part, name in PARTS.items():
        print(f"native, {part}:", json.loads(getattr(timed_core, name)(data, *more[part])))
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * 1024
    print(f"native, peak memory of this process: {peak / 1e6:.0f} MB")
    with tempfile.TemporaryDirectory(prefix="tuckfold-core-") as folder:
        site = Path(folder) / "site"
        shutil.copytree(places(ROOT).python, site / "py")
        shutil.copy(china, site)
        shutil.copy(Path(timed_core.__file__), site)
        (site / "timed.html").write_text(PAGE, encoding="utf-8")
        server = open_server(site, port=0)
        server.RequestHandlerClass = handler_for(site, policy=POLICY)
        with served(server) as address, sync_playwright() as playwright:
            browser = playwright.chromium.launch(**launch_options())
            page = browser.new_page()
            page.set_default_timeout(600_000)
            page.goto(f"{address}timed.html")
            page.wait_for_function("() => document.documentElement.dataset.state === 'ready'")
            for part, name in PARTS.items():
                if given.parts is None or part in given.parts:
                    print(f"Chromium, {part}:", run(page, name, *more[part]))
            print(f"Chromium, WebAssembly memory: {page.evaluate('memory()') / 2**20:.0f} MiB")
            browser.close()


def run(page: Page, *call: str | float) -> dict[str, float]:
    found: dict[str, float] = json.loads(page.evaluate("call => run(...call)", list(call)))
    return found


if __name__ == "__main__":
    main()
