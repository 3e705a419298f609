"""The page in all its states, looked at by axe, one after another on one page; each in the part that differs.

`test_access.py` looks at the whole page in both themes, `test_other_browsers.py` at eight states in two
browsers more, and the client's page and the guide have tests of their own.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Final, NamedTuple

import pytest
from bench import START_MS, WRITE_MS, Bench
from playwright.sync_api import Page, expect
from rest import at_rest
from test_access import violations

pytestmark = pytest.mark.browser

ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "demo_data"

#: The page's promise: axe looks at so many states.
LEAST_STATES: Final = 25


class State(NamedTuple):
    """How the page gets there, and the part of it that is another."""

    name: str
    part: str
    act: Callable[[Bench], object]


def given(bench: Bench, entry: str, name: str, data: bytes) -> None:
    bench.page.locator(f'input[data-open="{entry}"]').set_input_files(
        {"name": name, "mimeType": "", "buffer": data}
    )


def press(selector: str, until: str) -> Callable[[Bench], object]:
    """Press something and wait until something is seen."""

    def act(bench: Bench) -> None:
        bench.page.locator(selector).first.press("Enter")
        bench.page.wait_for_selector(until, state="attached", timeout=WRITE_MS)

    return act


def shown(selector: str) -> Callable[[Bench], object]:
    """Choose a radio button of the stage and wait until it is drawn."""

    def act(bench: Bench) -> None:
        bench.page.locator(selector).check(force=True)
        bench.settled()
        at_rest(bench.page)

    return act


def refused(entry: str, name: str, place: str) -> Callable[[Bench], object]:
    """Give a file that is none, and wait until that is said."""

    def act(bench: Bench) -> None:
        given(bench, entry, name, b"none")
        bench.page.wait_for_selector(place)

    return act


def field(name: str, text: str) -> Callable[[Bench], object]:
    """Type something that the core refuses."""

    def act(bench: Bench) -> None:
        bench.type_in(name, text)
        expect(bench.message(name)).to_be_visible()

    return act


def too_large(bench: Bench) -> None:
    bench.field("bars.depth_mm").press("Escape")
    bench.set("face.width_mm", "900")
    bench.page.wait_for_selector(".note-stop")


def own_picture(bench: Bench) -> None:
    bench.set("face.width_mm", "300")
    bench.open_picture(DEMO / "room.jpg")
    bench.opened("room.jpg")


def panels(bench: Bench) -> None:
    bench.choose("Panels", "3")


def one_panel(bench: Bench) -> None:
    bench.choose("Panels", "One")


def roll(bench: Bench) -> None:
    bench.page.locator("#sheet-kind").get_by_label("A roll").check(force=True)
    bench.settled()


def own_size(bench: Bench) -> None:
    given(bench, "open-own-sizes", "shop.json", (DEMO / "shop.json").read_bytes())
    expect(bench.page.locator(".status-announcement")).to_contain_text("shop.json was opened")


def measured(bench: Bench) -> None:
    strip = (DEMO / "strip.cgats.txt").read_bytes()
    given(bench, "open-strip-values", "strip.cgats.txt", strip)
    expect(bench.page.locator("#strip-expected")).to_contain_text("strip.cgats.txt")
    given(bench, "open-measured", "measured.txt", (DEMO / "measured.txt").read_bytes())
    bench.page.wait_for_selector("#strip-check")


def wall(bench: Bench) -> None:
    bench.page.locator('input[data-open="open-wall"]').set_input_files(DEMO / "room.jpg")
    bench.page.wait_for_selector(".photo-pane[data-frames]", timeout=START_MS)


def german(bench: Bench) -> None:
    bench.page.locator("#language").get_by_label("Deutsch").check(force=True)
    bench.page.wait_for_selector("html[lang=de][data-state=shown]", timeout=START_MS)


STATES: Final = (
    State("the list of jobs, empty", "#jobs", press("#open-jobs", "#jobs[open]")),
    State("the demo", ".page-header", press("#jobs .jobs-head button", "#jobs:not([open])")),
    State("a refused picture", "#picture", refused("picture", "none.jpg", "#picture .error-text")),
    State("a refused profile", "#colour", refused("profile", "none.icc", "#colour .error-text")),
    State(
        "a refused answer", "#client-answer", refused("open-answer", "none.txt", "#client-answer .error-text")
    ),
    State("a refused field", "#bars", field("bars.depth_mm", "4")),
    State("notes of what does not work", ".notes", too_large),
    State("a picture of one's own", "#picture", own_picture),
    State("the job in the header", ".page-header", lambda _: None),
    State("the list of jobs with one", "#jobs", press("#open-jobs", "#jobs[open] li")),
    State("the crop", "#picture", press("#jobs .jobs-head button", "#jobs:not([open])")),
    State("as printed", ".stage", shown("#colour-view input[value=printed]")),
    State("the gamut map", ".stage", shown("#colour-view input[value=clip]")),
    State("the sheet", ".stage", shown("#scene input[value=sheet]")),
    State("the wall", ".stage", shown("#scene input[value=wall]")),
    State("a refused job", ".page-header", refused("job", "none.json", ".page-header .error-text")),
    State("panels", "#bars", panels),
    State("the cutting plan of panels", "#cutting", lambda bench: bench.page.wait_for_selector("#plan-says")),
    State("one panel again", "#bars", one_panel),
    State("depths compared", "#compare", press("#start-depths", "#compare-figures")),
    State("their panes", ".stage", lambda bench: at_rest(bench.page)),
    State("the print file", "#print", press("#write-print", "#print-report *")),
    State("a measured strip", "#proof-strip", measured),
    State("the client page", "#client-page", press("#save-client-page", "#client-report *")),
    State("the ticket", "#ticket", press("#save-ticket", "#ticket-report *")),
    State("intents compared", "#colour", press("#compare-intents", "#intents table")),
    State("a roll", "#sheet", roll),
    State("sizes of one's own", "#sheet", own_size),
    State("a wall", "#on-the-wall", wall),
    State("the wall on the stage", ".stage", lambda bench: at_rest(bench.page)),
    State("German", ".notes", german),
)


def test_axe_finds_nothing_in_any_state(module_bench: Bench) -> None:
    bench = module_bench.start()
    page: Page = bench.page
    page.evaluate("document.querySelectorAll('details').forEach(one => { one.open = true })")
    found: dict[str, list[str]] = {}
    for state in STATES:
        state.act(bench)
        bench.settled()
        page.evaluate("scrollTo(0, 0)")
        found[state.name] = violations(page, part=state.part)
    assert len(found) >= LEAST_STATES
    assert {name: lines for name, lines in found.items() if lines} == {}
