"""A page in any browser, as far as the main job needs one: an address, JavaScript, a file for an entry."""

from __future__ import annotations

import json
import socket
from pathlib import Path
from typing import Any, Final, Protocol

from playwright.sync_api import Page

#: Python starts in a page that draws without a graphics card, on a busy machine.
LONGEST_S: Final = 180

#: Around the steps' JavaScript, where a browser takes a function that calls back: `arguments` ends with it.
_CALLS_BACK: Final = """
const given = [...arguments], done = given.pop();
(async (...given) => { BODY })(...given).then(
  (value) => done({ value: value === undefined ? null : value }),
  (why) => done({ wrong: `${why}` }));
"""


class DriveError(RuntimeError):
    """A step failed in the page, or the browser would not do it."""


class Driven(Protocol):
    """One page of a browser."""

    def open(self, address: str) -> None:
        """Go to an address and wait until it has loaded."""

    def run(self, body: str, *given: object) -> Any:
        """Run the body of an asynchronous function that gets `given`, and return what it returns."""

    def give_file(self, selector: str, file: Path) -> None:
        """Choose a file in a file entry."""


class DrivenChromium:
    """A page of the Chromium that all other browser tests use."""

    def __init__(self, page: Page) -> None:
        self.page = page

    def open(self, address: str) -> None:
        self.page.goto(address)

    def run(self, body: str, *given: object) -> Any:
        return self.page.evaluate(f"(given) => (async (...given) => {{ {body} }})(...given)", list(given))

    def give_file(self, selector: str, file: Path) -> None:
        self.page.locator(selector).set_input_files(file)


def calling_back(body: str) -> str:
    """The script of WebDriver's "execute async script" for the body of an asynchronous function."""
    return _CALLS_BACK.replace("BODY", body)


def value_of(answer: dict[str, Any]) -> Any:
    """What such a script has returned.

    Raises
    ------
    DriveError
        It has thrown.
    """
    if "wrong" in answer:
        raise DriveError(answer["wrong"])
    return answer["value"]


def free_port() -> int:
    """A port of this machine that nobody listens on."""
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        port: int = one.getsockname()[1]
        return port


def text_of(preferences: dict[str, bool | int | str]) -> str:
    """Firefox's file of preferences."""
    return "".join(f"user_pref({json.dumps(k)}, {json.dumps(v)});\n" for k, v in preferences.items())
