"""The page by keys alone: the whole job, the focus after every button, how far a control is, and its name."""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path
from typing import Final

import pytest
from bench import CHANGE_MS, START_MS, WRITE_MS, Bench, saved
from playwright.sync_api import expect
from tab_stops import tab_stops

pytestmark = pytest.mark.browser

#: The page's promise (common practice has no figure): a control is at most so many presses of Tab away.
MOST_PRESSES: Final = 15

#: Roles that one acts on. Radio buttons are named by their group.
ROLES: Final = ("textbox", "slider", "button", "checkbox", "combobox", "group", "radiogroup")

#: The same setting stands in two sections under one name.
SHARED: Final = {("group", "Unit")}

#: So begins what a note offers, and the table beside the choice too: the same act under the same name.
OFFERED: Final = ("Take ", "Move ")

#: Presses every button of the header and the sections once, and those that come with it, and looks at what
#: has the focus then. Swatches stay as they are, and what opens a file opens a dialog of the browser's. A
#: button is known by its section and its name. Work that can be stopped is stopped.
PRESS_ALL: Final = """async (longestMs) => {
  const page = document.documentElement.dataset;
  const frame = () => new Promise((go) => requestAnimationFrame(() => requestAnimationFrame(go)));
  const begun = performance.now();
  const until = async (isSo) => {
    while (!isSo() && performance.now() - begun < longestMs) await frame();
  };
  const place = (one) => one.closest("section[id], header, .notes, .stage");
  const nameOf = (one) => `${place(one)?.id}: ${one.getAttribute("aria-label") ?? one.textContent.trim()}`;
  const isLeft = (one) =>
    one.nextElementSibling?.type === "file" || one.matches(".swatch, .notes *, .stage *");
  const lost = [], pressed = new Set();
  const look = (name) => {
    const now = document.activeElement;
    if (now === document.body || !now.checkVisibility() || now.matches(":disabled")) lost.push(name);
  };
  for (;;) {
    for (const one of document.querySelectorAll("details")) one.open = true;
    const found = [...document.querySelectorAll("button")].find(
      (one) => one.checkVisibility() && !one.disabled && !isLeft(one) && !pressed.has(nameOf(one)),
    );
    if (found === undefined) return { lost, pressed: [...pressed] };
    if (performance.now() - begun > longestMs) throw new Error([...pressed].join("; "));
    const name = nameOf(found);
    pressed.add(name);
    found.focus();
    found.click();
    await frame();
    look(name);
    await until(() => page.waiting === "0");
    look(`${name}, when it is done`);
    const stop = document.activeElement;
    if (stop.textContent !== "Stop") continue;
    pressed.add(nameOf(stop));
    stop.click();
    await until(() => !stop.isConnected);
    await frame();
    look(`${name}, when it is stopped`);
  }
}"""

EDGES_KNOWN: Final = "() => document.documentElement.dataset.edges === 'known'"

#: How many presses of Tab lead to an element at least: a group of radio buttons is one stop, its chosen one.
AHEAD: Final = """(wanted) => {
  const entries = "input:not([type=radio]:not(:checked)), select, textarea";
  const reached = `a[href], button, ${entries}, summary, [tabindex]`;
  const stops = [...document.querySelectorAll(reached)].filter(
    (one) => one.tabIndex >= 0 && !one.matches(":disabled") && one.checkVisibility(),
  );
  const [now, there] = [stops.indexOf(document.activeElement), stops.findIndex((one) => one.matches(wanted))];
  return there > now ? there - now : 1;
}"""

OPEN_OUTWARDS: Final = """one => {
  for (let up = one; up !== null; up = up.parentElement) if (up.matches("details")) up.open = true;
}"""


#: The controls whose focus nobody sees: no line round them, or one that is cut off on all four sides. Where a
#: drawing fills its frame, the frame draws the line. Radio buttons show it on their words.
UNSEEN: Final = """() => {
  const reached = "a[href], button, input, select, textarea, summary, [tabindex]";
  const isCut = (one, by) => {
    const [top, right, bottom, left] = ((box) => [box.top, box.right, box.bottom, box.left])(
      one.getBoundingClientRect());
    for (let up = one.parentElement; up !== null; up = up.parentElement) {
      if (getComputedStyle(up).overflowX === "visible") continue;
      const box = up.getBoundingClientRect();
      const isHigher = top - by < box.top && bottom + by > box.bottom;
      if (isHigher && left - by < box.left && right + by > box.right) return true;
    }
    return false;
  };
  const unseen = [];
  for (const one of document.querySelectorAll(reached)) {
    if (one.tabIndex < 0 || one.matches(":disabled") || !one.checkVisibility()) continue;
    one.focus();
    if (!one.matches(":focus-visible")) continue;
    const shown = one.type === "radio" ? one.closest(".picture-option") ?? one.nextElementSibling : one;
    const line = getComputedStyle(shown);
    const frame = one.closest(".wall-host, .solid");
    const framed = frame !== null && getComputedStyle(frame, "::after").borderTopStyle === "solid";
    const isLine = line.outlineStyle !== "none" && parseFloat(line.outlineWidth) >= 2;
    const by = parseFloat(line.outlineOffset) + parseFloat(line.outlineWidth);
    if (!framed && (!isLine || isCut(shown, by))) unseen.push(one.getAttribute("aria-label") ?? one.id);
  }
  return unseen;
}"""


@pytest.fixture(scope="module")
def at_work(module_bench: Bench) -> Bench:
    """One page for all tests here, once its edges are judged."""
    module_bench.start()
    module_bench.page.wait_for_function(EDGES_KNOWN)
    return module_bench


def open_details(bench: Bench, *, are_open: bool) -> None:
    bench.page.evaluate(
        "to => document.querySelectorAll('details').forEach(one => { one.open = to })", are_open
    )


def test_every_control_has_a_name_of_its_own(at_work: Bench) -> None:
    open_details(at_work, are_open=True)
    session = at_work.page.context.new_cdp_session(at_work.page)
    nodes = session.send("Accessibility.getFullAXTree")["nodes"]
    session.detach()
    open_details(at_work, are_open=False)
    named = Counter(
        (node["role"]["value"], node.get("name", {}).get("value", ""))
        for node in nodes
        if not node["ignored"] and node["role"]["value"] in ROLES
    )
    assert named[("textbox", "Sheet width")] == 1
    described = {
        node["name"]["value"]: node.get("description", {}).get("value", "")
        for node in nodes
        if not node["ignored"] and node["role"]["value"] == "textbox"
    }
    # With their units, which stand behind the entries.
    assert described["Sheet width"] == "mm"
    assert described["Bar depth"].startswith("mm ")
    assert described["Face sizes"] == "mm"
    several = {one: count for one, count in named.items() if count > 1 and one[1] != "" and one not in SHARED}
    assert {one: count for one, count in several.items() if not one[1].startswith(OFFERED)} == {}
    assert all(count == 2 for count in several.values())
    assert [one for one in named if one[1] == "" and one[0] != "group"] == []


def test_every_control_is_few_presses_away(at_work: Bench) -> None:
    stops = tab_stops(at_work.page)
    # Derived: eleven links of the list alone, and far more controls than the promise allows in a row.
    assert len(stops) > 100
    assert [one for one in stops if one["presses"] > MOST_PRESSES] == []
    details = at_work.page.locator("#work details")
    for number in range(details.count()):
        details.nth(number).evaluate(OPEN_OUTWARDS)
        far = [one for one in tab_stops(at_work.page) if one["presses"] > MOST_PRESSES]
        assert far == [], details.nth(number).locator("summary").first.text_content()
        open_details(at_work, are_open=False)


def test_the_focus_is_seen_on_every_control(at_work: Bench) -> None:
    open_details(at_work, are_open=True)
    at_work.page.keyboard.press("Tab")
    assert at_work.page.evaluate(UNSEEN) == []
    open_details(at_work, are_open=False)


def test_the_whole_job_by_keys_alone(at_work: Bench, china: Path, tmp_path: Path) -> None:
    bench, page = at_work, at_work.page
    keys = page.keyboard

    def tab_to(wanted: str, *, key: str = "Tab") -> None:
        """Press Tab until an element is reached, as anybody without a pointer must."""
        # To look after each of a hundred presses costs as much as the presses.
        for _ in range(page.evaluate(AHEAD, wanted) - 1):
            keys.press(key)
        for _ in range(200):
            keys.press(key)
            if page.evaluate("wanted => document.activeElement?.matches(wanted) ?? false", wanted):
                assert page.evaluate("document.activeElement.matches(':focus-visible')")
                return
        raise AssertionError(f"Tab never reaches {wanted}")

    def has_focus(wanted: str) -> None:
        expect(page.locator(f"{wanted}:focus")).to_have_count(1, timeout=CHANGE_MS)

    def choose(group: str, key: str) -> None:
        tab_to(f'input[name="{group}"]')
        keys.press(key)
        bench.settled()

    page.evaluate("document.activeElement.blur()")
    tab_to("#fold")
    keys.press("Home")
    expect(page.locator("#fold")).to_have_attribute("aria-valuetext", "0 %, Flat")
    expect(page.locator("#stage-text")).to_contain_text("flat")
    keys.press("End")
    expect(page.locator("#stage-text")).to_contain_text("folded")
    # On the sheet the 3D view draws nothing meanwhile.
    tab_to("#scene input", key="Shift+Tab")
    keys.press("ArrowRight")
    expect(page.locator(".flat-texture")).to_be_visible()
    with page.expect_file_chooser() as chooser:
        tab_to("#field-picture-file")
        keys.press("Enter")
    chooser.value.set_files(china)
    bench.opened("china.jpg")
    expect(page.locator(".page-header [aria-live=polite]")).to_have_text("china")
    tab_to("#field-picture-crop")
    keys.press("+")
    keys.press("Shift+ArrowRight")
    bench.settled()
    # The first press counts on from what is typed, each further one from the last: none waits for the core.
    tab_to("#field-sheet-width-mm")
    keys.press("Control+a")
    keys.type("400")
    for _ in range(4):
        keys.press("ArrowUp")
    bench.settled()
    expect(bench.field("sheet.width_mm")).to_have_value("404")
    tab_to("#field-bars-depth-mm")
    keys.press("Control+a")
    keys.type("22")
    keys.press("Enter")
    bench.settled()
    choose("field-wrap-finish", "ArrowRight")
    choose("field-sides-fill", "ArrowRight")
    choose("field-colour-intent", "ArrowRight")
    tab_to("#start-depths")
    keys.press("Enter")
    expect(page.locator("#compare-figures")).to_be_visible(timeout=START_MS)
    has_focus("#start-depths")
    tab_to("#compare-figures > button")
    keys.press("Enter")
    has_focus("#compare *")
    tab_to("#field-print-ppi")
    keys.press("Control+a")
    keys.type("72")
    keys.press("Enter")
    bench.settled()
    with page.expect_download(timeout=WRITE_MS) as caught:
        tab_to("#write-print")
        keys.press("Enter")
        has_focus(".write button")
    assert saved(caught.value, tmp_path).stat().st_size > 100_000
    has_focus("#write-print")
    tab_to("#client-words")
    # While something is typed, the keys of undo take back what was typed, and nothing of the job.
    keys.type("See the sides.")
    keys.press("Control+z")
    expect(page.locator("#client-words")).to_have_value("")
    keys.press("Control+Shift+z")
    expect(page.locator("#client-words")).to_have_value("See the sides.")
    with page.expect_download(timeout=WRITE_MS) as caught:
        tab_to("#save-client-page")
        keys.press("Enter")
    assert saved(caught.value, tmp_path).stat().st_size > 100_000
    has_focus("#save-client-page")
    job = json.loads(bench.save_job(tmp_path).read_text())
    assert job["bars"]["depth_mm"] == 22
    assert job["wrap"]["finish"] == "lapped"
    assert job["picture"]["crop"]["width"] < 1


def test_no_button_loses_the_focus(at_work: Bench) -> None:
    # On the sheet the 3D view draws nothing meanwhile.
    at_work.scene("Sheet")
    at_work.choose("Side fill", "Plain colour")
    # What the buttons make is small.
    for side in ("width", "height"):
        at_work.type_in(f"stills.{side}", "320")
    for group, word in (("size", "320"), ("frames", "24")):
        at_work.page.locator(f"#turn-{group}").get_by_label(word, exact=True).click()
    found = at_work.page.evaluate(PRESS_ALL, 100_000)
    # Derived: Undo, Save, Compare, makers of seven kinds of file and their stops are among them.
    assert len(found["pressed"]) > 30
    assert found["lost"] == []
    at_work.page.locator("#open-jobs").press("Enter")
    expect(at_work.page.locator("#jobs button").first).to_be_focused()
    at_work.page.keyboard.press("Escape")
    expect(at_work.page.locator("#open-jobs")).to_be_focused()
