"""Python starts from its snapshot and answers as after a plain start; a spoiled snapshot leads to that."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from conftest import watched_page
from core_calls import ANSWERS, every_call
from driven import DrivenChromium
from playwright.sync_api import Browser, Page

DIST = Path(__file__).resolve().parents[2] / "web" / "dist"

#: Its subject is Pyodide in a browser.
IN_PYODIDE = True

#: A line of the worker's log.
FALLS_BACK = "Python starts without its snapshot"


def opened(page: Page, site: str, said: list[str]) -> DrivenChromium:
    """A document of the site that starts no worker by itself, with the headers of all."""
    # A picture that stands alone has no icon of its own, so that the browser asks for the host's.
    page.route("**/favicon.ico", lambda route: route.fulfill(status=204))
    page.on("console", lambda message: said.append(message.text))
    page.goto(f"{site}icon.svg")
    return DrivenChromium(page)


def answers(worker: DrivenChromium, calls: list[dict[str, Any]], *, plain: bool) -> list[Any]:
    """What the worker answers, without how long it took."""
    (program,) = (DIST / "assets").glob("core.worker-*.js")
    found = worker.run(ANSWERS, f"assets/{program.name}", plain, calls)
    return [[re.sub(r'"worker_ms":[0-9.e-]+', "", str(one)) for one in answer] for answer in found]


@pytest.fixture(scope="module")
def calls() -> list[dict[str, Any]]:
    """Calls of every method."""
    return every_call()


@pytest.fixture(scope="module")
def spoiled(browser: Browser, site: str, calls: list[dict[str, Any]]) -> tuple[list[Any], list[str]]:
    """What is answered where the snapshot is spoiled, and what the worker says in its log."""
    said: list[str] = []
    with watched_page(browser, [], None) as page:
        page.context.route("**/snapshot/memory-*", lambda route: route.fulfill(body="spoiled"))
        return answers(opened(page, site, said), calls, plain=False), said


def test_a_spoiled_snapshot_leads_to_the_plain_start(spoiled: tuple[list[Any], list[str]]) -> None:
    found, said = spoiled
    # derived: one job that is wrong, and two texts that are no measurements and no answer.
    assert [kind for _, kind, _, _ in found].count("error") == 3
    assert found[0][:2] == ["hello", "result"]
    (line,) = [line for line in said if line.startswith(FALLS_BACK)]
    assert "has another hash" in line


def test_every_method_answers_as_after_a_plain_start(
    page: Page, site: str, calls: list[dict[str, Any]], spoiled: tuple[list[Any], list[str]]
) -> None:
    """The plain start is the one that a spoiled snapshot leads to; test_core.py asks for one by choice."""
    said: list[str] = []
    restored = answers(opened(page, site, said), calls, plain=False)
    plain, said_plain = spoiled
    for one, other in zip(restored, plain, strict=True):
        assert one == other
    assert said == []
    assert [line for line in said_plain if not line.startswith(FALLS_BACK)] == []
