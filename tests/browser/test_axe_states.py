"""The page in all its states, looked at by axe on one page; each in the part that differs.

States of several parts that are there at the same time are looked at together: axe goes through the whole
page each time, whatever part it is asked about.

`test_access.py` looks at the whole page in both themes, `test_other_browsers.py` at eight states in two
browsers more, and the client's page and the guide have tests of their own.
"""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path
from typing import Final, NamedTuple

import pytest
from bench import START_MS, WRITE_MS, Bench
from PIL import Image
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
    contrast: bool = False
    """It has colours that the whole page, in `test_access.py`, has not."""
    still: str = ""
    """What must be seen as long as the page is in this state."""


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


def refusal(name: str, part: str, entry: str, file: str, *, contrast: bool = False) -> State:
    """A file that is none was given, and the part says so."""
    place = f"{part} .error-text"

    def act(bench: Bench) -> None:
        given(bench, entry, file, b"none")
        bench.page.wait_for_selector(place)

    return State(name, part, act, contrast=contrast, still=place)


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
    out = io.BytesIO()
    Image.linear_gradient("L").convert("RGB").save(out, format="PNG")
    bench.open_picture({"name": "grey.png", "mimeType": "image/png", "buffer": out.getvalue()})
    bench.opened("grey.png")


def panels(bench: Bench) -> None:
    bench.choose("Panels", "3")


def cutting(bench: Bench) -> None:
    # It is worked out when it comes into sight.
    bench.page.locator("#cutting").scroll_into_view_if_needed()
    bench.page.wait_for_selector("#plan-says")


def one_panel(bench: Bench) -> None:
    bench.choose("Panels", "One")


def no_depths(bench: Bench) -> None:
    bench.page.locator("#compare-depths").fill("deep")
    bench.page.locator("#compare-depths").press("Enter")
    bench.page.wait_for_selector("#compare .error-text")


def own_side(bench: Bench) -> None:
    bench.page.get_by_label("Left side differs").check(force=True)
    bench.settled()


def sheet(bench: Bench) -> None:
    # Depths that stay compared would be compared again after each change.
    bench.page.locator("#compare").get_by_role("button", name="End the comparison").press("Enter")
    shown("#scene input[value=sheet]")(bench)


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


#: What is looked at each time.
LOOKS: Final = (
    [State("the list of jobs, empty", "#jobs", press("#open-jobs", "#jobs[open]"), contrast=True)],
    [
        State("the demo", ".page-header", press("#jobs .jobs-head button", "#jobs:not([open])")),
        State("as printed", ".stage", shown("#colour-view input[value=printed]")),
    ],
    [State("the gamut map", ".stage", shown("#colour-view input[value=clip]"), contrast=True)],
    [
        State("depths compared", "#compare", press("#start-depths", "#compare-figures"), contrast=True),
        State("their panes", ".stage", lambda bench: at_rest(bench.page), contrast=True),
    ],
    [
        State("the sheet", ".stage", sheet),
        refusal("a refused picture", "#picture", "picture", "none.jpg", contrast=True),
        refusal("a refused profile", "#colour", "profile", "none.icc"),
        refusal("a refused answer", "#client-answer", "open-answer", "none.txt"),
        State(
            "a refused field",
            "#bars",
            field("bars.depth_mm", "4"),
            still='[data-field="bars.depth_mm"] .error-text',
        ),
    ],
    [State("notes of what does not work", ".notes", too_large, contrast=True)],
    [
        State("a picture of one's own", "#picture", own_picture),
        State("the job in the header", ".page-header", lambda _: None),
    ],
    [State("the list of jobs with one", "#jobs", press("#open-jobs", "#jobs[open] li"), contrast=True)],
    [
        State("the crop", "#picture", press("#jobs .jobs-head button", "#jobs:not([open])")),
        refusal("a refused job", ".page-header", "job", "none.json"),
        State("panels", "#bars", panels),
        State("the cutting plan of panels", "#cutting", cutting, contrast=True, still="#plan-says"),
    ],
    [
        State("one panel again", "#bars", one_panel),
        refusal("a refused strip", "#proof-strip", "open-strip-values", "none.txt"),
        State("a side of its own", "#sides", own_side),
        refusal("refused sizes", "#sheet", "open-own-sizes", "none.json"),
        # Gone with the next change of the job.
        State("depths that are none", "#compare", no_depths, still="#compare .error-text"),
    ],
    [
        State("a measured strip", "#proof-strip", measured, contrast=True, still="#strip-check"),
        State("a roll", "#sheet", roll),
    ],
    [
        State("sizes of one's own", "#sheet", own_size),
        State("a wall", "#on-the-wall", wall),
        State("the wall on the stage", ".stage", lambda bench: at_rest(bench.page), contrast=True),
    ],
    [State("the dark theme", "#on-the-wall", shown("#theme input[value=dark]"), contrast=True)],
)


def test_axe_finds_nothing_in_any_state(module_bench: Bench) -> None:
    bench = module_bench.start()
    page: Page = bench.page
    page.evaluate("document.querySelectorAll('details').forEach(one => { one.open = true })")
    found: dict[str, list[str]] = {}
    for states in LOOKS:
        for state in states:
            state.act(bench)
            bench.settled()
        for state in states:
            if state.still:
                expect(page.locator(state.still).first).to_be_visible()
        # What is scrolled below the list of sections is covered, and no target meanwhile.
        page.locator("#work").evaluate("one => one.scrollTo(0, 0)")
        parts = [state.part for state in states]
        lines = violations(page, parts=parts, contrast=any(state.contrast for state in states))
        found |= {state.name: lines for state in states}
    assert len(found) >= LEAST_STATES
    assert {name: lines for name, lines in found.items() if lines} == {}
