"""Finding and starting Chromium for the tests."""

from __future__ import annotations

import shutil
from typing import Any, Final

#: Names of the program, in the order in which they are looked for. The first is the same Chromium without a
#: window around the page: a start takes two thirds of the processor time.
NAMES: Final = (
    "chromium-headless-shell",
    "chromium",
    "chromium-browser",
    "google-chrome-stable",
    "google-chrome",
    "chrome",
)

#: WebGL without a graphics card; nothing asked of any other machine.
FLAGS: Final = (
    "--no-sandbox",
    "--use-angle=swiftshader",
    "--enable-unsafe-swiftshader",
    "--disable-quic",
    "--disable-background-networking",
    # The page itself is painted by the processor, which here stands for the graphics card too.
    "--disable-gpu-rasterization",
    # Python is compiled quickly, and again and better only where it works for long (the default is 13
    # million): a page is open for seconds, and most of the second compilation would never pay.
    "--js-flags=--wasm-tiering-budget=100000000",
)

#: Options for a page's context: nothing moves by itself, and the 3D view has a quarter of the pixels. Without
#: a graphics card, drawing is half of what a test costs; and a service worker would fill a cache of the whole
#: site for each page.
LIGHT: Final[dict[str, Any]] = {
    "reduced_motion": "reduce",
    "device_scale_factor": 0.5,
    "service_workers": "block",
}

#: Run before a page's own programs: it can draw nothing in three dimensions.
NO_WEBGL: Final = """for (const kind of [HTMLCanvasElement, OffscreenCanvas]) {
  const former = kind.prototype.getContext;
  kind.prototype.getContext = function (name, ...rest) {
    return name.startsWith("webgl") ? null : former.call(this, name, ...rest);
  };
}"""


def launch_options() -> dict[str, Any]:
    """Options for Playwright's `launch`.

    Returns
    -------
    dict

    Raises
    ------
    FileNotFoundError
        There is no Chromium; the message says what to install.
    """
    program = next((found for name in NAMES if (found := shutil.which(name))), None)
    if program is None:
        raise FileNotFoundError(
            "no Chromium on this machine: install it (on Debian: apt-get install chromium)"
        )
    return {"executable_path": program, "args": list(FLAGS)}
