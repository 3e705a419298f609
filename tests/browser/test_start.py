"""Python starts from its snapshot and answers as after a plain start; a spoiled snapshot leads to that."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from core_calls import ANSWERS, call, every_call
from driven import DrivenChromium
from playwright.sync_api import Page

DIST = Path(__file__).resolve().parents[2] / "web" / "dist"

#: Its subject is Pyodide in a browser.
IN_PYODIDE = True

#: A line of the worker's log.
FALLS_BACK = "Python starts without its snapshot"


@pytest.fixture
def worker(page: Page, site: str) -> DrivenChromium:
    """A document of the site that starts no worker by itself, with the headers of all."""
    # A picture that stands alone has no icon of its own, so that the browser asks for the host's.
    page.route("**/favicon.ico", lambda route: route.fulfill(status=204))
    page.goto(f"{site}icon.svg")
    return DrivenChromium(page)


def answers(worker: DrivenChromium, calls: list[dict[str, Any]], *, plain: bool) -> list[Any]:
    """What the worker answers, without how long it took."""
    (program,) = (DIST / "assets").glob("core.worker-*.js")
    found = worker.run(ANSWERS, f"assets/{program.name}", plain, calls)
    return [[re.sub(r'"worker_ms":[0-9.e-]+', "", str(one)) for one in answer] for answer in found]


def test_every_method_answers_as_after_a_plain_start(worker: DrivenChromium) -> None:
    said: list[str] = []
    worker.page.on("console", lambda message: said.append(message.text))
    calls = every_call()
    restored = answers(worker, calls, plain=False)
    plain = answers(worker, calls, plain=True)
    for one, other in zip(restored, plain, strict=True):
        assert one == other
    # derived: one job that is wrong, and two texts that are no measurements and no answer.
    assert [kind for _, kind, _, _ in plain].count("error") == 3
    assert said == []


def test_a_spoiled_snapshot_leads_to_the_plain_start(worker: DrivenChromium) -> None:
    said: list[str] = []
    worker.page.on("console", lambda message: said.append(message.text))
    worker.page.context.route("**/snapshot/memory-*", lambda route: route.fulfill(body="spoiled"))
    ((method, kind, _, _),) = answers(worker, [call("hello", {})], plain=False)
    assert (method, kind) == ("hello", "result")
    (line,) = [line for line in said if line.startswith(FALLS_BACK)]
    assert "has another hash" in line
