"""WebKitGTK's small browser, driven through its WebDriver: the W3C's commands as JSON over HTTP."""

from __future__ import annotations

import json
import subprocess
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, Final

from driven import LONGEST_S, DriveError, calling_back, free_port, value_of
from virtual_screen import drawing_in, end, virtual_screen

#: The driver's program.
NAME: Final = "WebKitWebDriver"

#: Where Debian's libraries keep the browser that the driver starts; the newest of them last.
BROWSERS: Final = "*/webkit2gtk-4.[01]/MiniBrowser"

_STARTS_S: Final = 60


class DrivenWebKit:
    """The page of a browser that the driver starts.

    Parameters
    ----------
    port : int
        Where the driver listens.
    browser : Path
    """

    def __init__(self, port: int, browser: Path) -> None:
        self._root = f"http://127.0.0.1:{port}/session"
        options = {"binary": str(browser), "args": ["--automation"]}
        wanted = {
            "webkitgtk:browserOptions": options,
            "timeouts": {"script": LONGEST_S * 1000, "pageLoad": LONGEST_S * 1000},
        }
        begun = time.monotonic()
        while True:
            try:
                started = self._do("", capabilities={"alwaysMatch": wanted})
                break
            except ConnectionRefusedError:
                if time.monotonic() - begun > _STARTS_S:
                    raise
                time.sleep(0.1)
        self._root += f"/{started['sessionId']}"

    def open(self, address: str) -> None:
        self._do("/url", url=address)

    def run(self, body: str, *given: object) -> Any:
        return value_of(self._do("/execute/async", script=calling_back(body), args=list(given)))

    def give_file(self, selector: str, file: Path) -> None:
        (element,) = self._do("/element", using="css selector", value=selector).values()
        self._do(f"/element/{element}/value", text=str(file))

    def close(self) -> None:
        self._ask("", method="DELETE", data=None)

    def _do(self, path: str, **given: object) -> Any:
        return self._ask(path, method="POST", data=json.dumps(given).encode())

    def _ask(self, path: str, *, method: str, data: bytes | None) -> Any:
        request = urllib.request.Request(
            self._root + path, data, {"Content-Type": "application/json"}, method=method
        )
        try:
            with urllib.request.urlopen(request, timeout=LONGEST_S + 30) as answer:
                return json.load(answer)["value"]
        except urllib.error.HTTPError as wrong:
            with wrong:
                said = json.load(wrong)["value"]
            raise DriveError(f"{path}: {said['error']}: {said['message']}") from None
        except urllib.error.URLError as wrong:
            raise wrong.reason if isinstance(wrong.reason, ConnectionRefusedError) else wrong from None


@contextmanager
def driven_webkit(driver: str, browser: Path, *, screen: str, folder: Path) -> Iterator[DrivenWebKit]:
    """Start the driver, and through it the browser.

    Parameters
    ----------
    driver : str
        The driver's program.
    browser : Path
    screen : str
        Xvfb's program.
    folder : Path
        An empty folder for all that it writes.

    Yields
    ------
    DrivenWebKit
    """
    port = free_port()
    # Nothing moves by itself, as in the other tests' Chromium.
    settings = folder / "gtk-3.0" / "settings.ini"
    settings.parent.mkdir()
    settings.write_text("[Settings]\ngtk-enable-animations=0\n", encoding="utf-8")
    with virtual_screen(screen) as display, (folder / "log").open("wb") as log:
        env = {
            **drawing_in(display, folder),
            # Its sandbox needs namespaces, which a container may not make; it opens our own files alone.
            "WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS": "1",
            # Python compiled a second time takes a sixth of the time, and pays in a page open for long.
            "JSC_useOMGJIT": "0",
        }
        serving = subprocess.Popen(
            [driver, f"--port={port}"],
            env=env,
            stdin=subprocess.DEVNULL,
            stdout=log,
            stderr=subprocess.STDOUT,
        )
        try:
            page = DrivenWebKit(port, browser)
            yield page
            page.close()
        finally:
            end(serving)
