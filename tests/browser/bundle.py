"""Parts of the page on a page of their own: bundled from the sources for one test module."""

from __future__ import annotations

import subprocess
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]

#: A document with nothing in it.
EMPTY = "<!doctype html><meta charset=utf-8><body></body>"

#: Drop the graphics context of the one drawing there is; `losing.restoreContext()` gives it back.
LOSE = """() => {
  window.losing = document.querySelector("canvas").getContext("webgl2").getExtension("WEBGL_lose_context");
  losing.loseContext();
}"""

#: Wait until what was asked for has been drawn.
TWO_FRAMES = "() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))"


def bundled(entry: str, folder: Path) -> str:
    """One script of a TypeScript file and all that it imports.

    Parameters
    ----------
    entry : str
        Path below the repository's root.
    folder : Path
        Where the bundler may write.

    Returns
    -------
    str
        For a script element.

    Raises
    ------
    CalledProcessError
        The sources do not fit together.
    """
    out = folder / "page.js"
    web = ROOT / "web"
    bundler = web / "node_modules" / ".bin" / "rolldown"
    # The packages lie in web/, so the bundler must start there.
    command = [str(bundler), str(ROOT / entry), "--file", str(out), "--format", "iife"]
    subprocess.run(command, check=True, capture_output=True, cwd=web, timeout=60)
    return out.read_text(encoding="utf-8")
