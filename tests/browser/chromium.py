"""Finding and starting Chromium for the tests."""

from __future__ import annotations

import os
import shutil
from pathlib import Path
from typing import Any, Final, Literal

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

#: Nothing is asked of any other machine, and time is saved that no test is about.
FLAGS: Final = (
    "--no-sandbox",
    "--disable-quic",
    "--disable-background-networking",
    # The page itself is painted by the processor, which here stands for the graphics card too.
    "--disable-gpu-rasterization",
    # Edges are as they fall: to smooth them costs four pixels for each.
    "--webgl-msaa-sample-count=0",
    # Python is compiled quickly, and again and better only where it works for long (the default is 13
    # million): a page is open for seconds, and most of the second compilation would never pay.
    "--js-flags=--wasm-tiering-budget=100000000",
)

Drawing = Literal["quick", "exact", "none"]

#: WebGL without a graphics card: by what every Chromium brings, which is exact to the last bit, and by the
#: OpenGL of the system, which takes half of the time and mixes a texture's neighbours less finely.
OWN_DRAWING: Final = ("--use-angle=swiftshader", "--enable-unsafe-swiftshader")
SYSTEM_DRAWING: Final = ("--use-gl=angle", "--use-angle=gl-egl", "--ignore-gpu-blocklist")

#: Files below the root that the second way needs, and what keeps it from a graphics card: all machines draw
#: alike.
SYSTEM_NEEDS: Final = ("usr/lib/*/dri/swrast_dri.so", "usr/lib/*/libEGL.so.1", "usr/lib/*/libGLESv2.so.2")
SYSTEM_ENV: Final = {"LIBGL_ALWAYS_SOFTWARE": "1"}

#: For a browser that draws nothing in three dimensions.
NO_DRAWING: Final = ("--disable-3d-apis", "--disable-gpu")

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


def launch_options(drawing: Drawing = "quick") -> dict[str, Any]:
    """Options for Playwright's `launch`.

    Parameters
    ----------
    drawing : {"quick", "exact", "none"}
        How it draws in WebGL: as quickly as the system lets it, to the last bit of a colour, or not at all.

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
    by_system = drawing == "quick" and all(any(Path("/").glob(need)) for need in SYSTEM_NEEDS)
    flags = NO_DRAWING if drawing == "none" else SYSTEM_DRAWING if by_system else OWN_DRAWING
    env = {**os.environ, **(SYSTEM_ENV if by_system else {})}
    return {"executable_path": program, "args": [*FLAGS, *flags], "env": env}
