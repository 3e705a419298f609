"""Firefox, driven through the Marionette that it brings: WebDriver's commands as JSON on a socket."""

from __future__ import annotations

import json
import socket
import subprocess
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, Final

from driven import LONGEST_S, DriveError, calling_back, text_of, value_of
from virtual_screen import drawing_in, end, virtual_screen

#: Programs of this name, in the order in which they are looked for.
NAMES: Final = ("firefox-esr", "firefox")

#: WebGL without a graphics card, a free port, and no word to any other machine.
_PREFERENCES: Final[dict[str, bool | int | str]] = {
    "webgl.force-enabled": True,
    "webgl.disabled": False,
    # A quarter of the pixels, and nothing moves by itself, as in the other tests (`LIGHT` in chromium.py).
    "layout.css.devPixelsPerPx": "0.5",
    "ui.prefersReducedMotion": 1,
    "marionette.port": 0,
    "browser.download.alwaysOpenPanel": False,
    "browser.shell.checkDefaultBrowser": False,
    "browser.startup.page": 0,
    "datareporting.policy.dataSubmissionEnabled": False,
    # Nobody answers when the page asks to keep its jobs.
    "dom.storageManager.prompt.testing": True,
    "dom.storageManager.prompt.testing.allow": True,
    "network.captive-portal-service.enabled": False,
    "network.connectivity-service.enabled": False,
}

_STARTS_S: Final = 60


class DrivenFirefox:
    """The page of a Firefox that listens on a port.

    Parameters
    ----------
    port : int
    """

    def __init__(self, port: int) -> None:
        self._socket = socket.create_connection(("127.0.0.1", port), timeout=LONGEST_S + 30)
        self._stream = self._socket.makefile("rb")
        self._sent = 0
        self._read()  # What it is.
        self._do("WebDriver:NewSession")
        self._do("WebDriver:SetTimeouts", script=LONGEST_S * 1000, pageLoad=LONGEST_S * 1000)

    def open(self, address: str) -> None:
        self._do("WebDriver:Navigate", url=address)

    def run(self, body: str, *given: object) -> Any:
        answer = self._do(
            "WebDriver:ExecuteAsyncScript",
            script=calling_back(body),
            args=list(given),
            # The page's own world: what a step puts in place of a function, the page calls.
            sandbox=None,
            newSandbox=False,
        )
        return value_of(answer["value"])

    def give_file(self, selector: str, file: Path) -> None:
        found = self._do("WebDriver:FindElement", using="css selector", value=selector)
        (element,) = found["value"].values()
        self._do("WebDriver:ElementSendKeys", id=element, text=str(file))

    def close(self) -> None:
        self._stream.close()
        self._socket.close()

    def _do(self, command: str, **given: object) -> Any:
        self._sent += 1
        message = json.dumps([0, self._sent, command, given]).encode()
        self._socket.sendall(b"%d:%s" % (len(message), message))
        _, number, wrong, result = self._read()
        if number != self._sent:
            raise DriveError(f"Firefox answered {number} to {self._sent}")
        if wrong is not None:
            raise DriveError(f"{command}: {wrong['error']}: {wrong['message']}")
        return result

    def _read(self) -> Any:
        length = b""
        while not length.endswith(b":"):
            one = self._stream.read(1)
            if not one:
                raise DriveError("Firefox has ended the connection")
            length += one
        return json.loads(self._stream.read(int(length[:-1])))


@contextmanager
def driven_firefox(program: str, *, screen: str, folder: Path) -> Iterator[DrivenFirefox]:
    """Start Firefox with a fresh profile.

    Parameters
    ----------
    program : str
        Firefox's.
    screen : str
        Xvfb's program.
    folder : Path
        An empty folder for all that it writes.

    Yields
    ------
    DrivenFirefox
    """
    profile = folder / "profile"
    profile.mkdir()
    (profile / "user.js").write_text(text_of(_PREFERENCES), encoding="utf-8")
    command = [program, "--marionette", "--no-remote", "--profile", str(profile), "about:blank"]
    with virtual_screen(screen) as display, (folder / "log").open("wb") as log:
        browser = subprocess.Popen(
            command,
            env=drawing_in(display, folder),
            stdin=subprocess.DEVNULL,
            stdout=log,
            stderr=subprocess.STDOUT,
        )
        try:
            page = DrivenFirefox(_port_of(profile, browser))
            yield page
            page.close()
        finally:
            end(browser)


def _port_of(profile: Path, browser: subprocess.Popen[bytes]) -> int:
    """The port that Firefox has taken; it writes that into its profile."""
    written = profile / "MarionetteActivePort"
    begun = time.monotonic()
    while not (written.is_file() and written.read_text().strip()):
        if browser.poll() is not None:
            raise DriveError(f"Firefox ended as it started (exit status {browser.returncode})")
        if time.monotonic() - begun > _STARTS_S:
            raise DriveError(f"Firefox did not listen within {_STARTS_S} s")
        time.sleep(0.1)
    return int(written.read_text())
