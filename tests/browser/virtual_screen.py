"""A screen in memory for browsers that draw WebGL only in a window."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


@contextmanager
def virtual_screen(program: str) -> Iterator[str]:
    """Start a screen of 1280 x 1024 pixels.

    Parameters
    ----------
    program : str
        Xvfb's.

    Yields
    ------
    str
        What the environment's `DISPLAY` must be. The server picks a number that is free.
    """
    reading, writing = os.pipe()
    command = [program, "-displayfd", str(writing), "-screen", "0", "1280x1024x24", "-nolisten", "tcp"]
    server = subprocess.Popen(
        command, pass_fds=[writing], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )
    os.close(writing)
    try:
        with os.fdopen(reading) as said:
            number = said.readline().strip()
        if not number:
            raise RuntimeError(f"{program} gave no screen (exit status {server.wait()})")
        yield f":{number}"
    finally:
        end(server)


def drawing_in(display: str, home: Path) -> dict[str, str]:
    """An environment for a browser: that screen, software drawing, and a home of its own.

    Parameters
    ----------
    display : str
    home : Path
        An empty folder.

    Returns
    -------
    dict
    """
    own = {name: str(home) for name in ("HOME", "XDG_CONFIG_HOME", "XDG_CACHE_HOME", "XDG_DATA_HOME")}
    return {
        **{name: value for name, value in os.environ.items() if name != "WAYLAND_DISPLAY"},
        **own,
        "DISPLAY": display,
        "LIBGL_ALWAYS_SOFTWARE": "1",
        "NO_AT_BRIDGE": "1",
        "GTK_A11Y": "none",
    }


def end(process: subprocess.Popen[bytes]) -> None:
    """End a process, by force where it does not go by itself."""
    process.terminate()
    try:
        process.wait(timeout=10)
    except subprocess.TimeoutExpired:
        process.kill()
        process.wait()
