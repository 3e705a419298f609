"""The 3D model and the ticket, saved from the page and as measured, and what is fetched late and once."""

from __future__ import annotations

import base64

import pytest
from bench import WRITE_MS, Bench
from playwright.sync_api import expect

from pycore.model.reread import ModelFile, check_model
from pycore.ticket.report import Paper
from pycore.ticket.reread import check_ticket

pytestmark = pytest.mark.browser

#: Pyodide makes the files, and fetches what they need.
IN_PYODIDE = True

#: The 3D view has no part in it.
WITHOUT_WALL = True

#: Keeps the bytes of the next file that the page makes, as base64.
TAKE_FILE = """() => {
  const make = URL.createObjectURL;
  window.savedFile = new Promise((resolve) => {
    URL.createObjectURL = (blob) => {
      URL.createObjectURL = make;
      const reader = new FileReader();
      reader.onload = () => resolve(reader.result.split(",")[1]);
      reader.readAsDataURL(blob);
      return make.call(URL, blob);
    };
  });
}"""


@pytest.fixture(scope="module")
def asked_before(module_bench: Bench) -> list[str]:
    """The first word of the name of every file that the page has asked for."""
    asked: list[str] = []
    module_bench.page.context.on(
        "request", lambda request: asked.append(request.url.rsplit("/", 1)[-1].split("-")[0])
    )
    return asked


@pytest.fixture(scope="module")
def bench(module_bench: Bench, asked_before: list[str]) -> Bench:
    """One page for all tests, with the demo."""
    module_bench.start()
    assert asked_before != []
    return module_bench


def test_the_model_is_made_and_measured(bench: Bench) -> None:
    page = bench.page
    page.locator("#model-pixels").get_by_label("1 million").click()
    page.evaluate(TAKE_FILE)
    with page.expect_download(timeout=WRITE_MS) as saved:
        page.get_by_role("button", name="Save the model").click()
    report = page.locator("#model-report")
    expect(report).to_contain_text("was saved, opened again and measured", timeout=WRITE_MS)
    name = saved.value.suggested_filename
    assert name.endswith(".glb")
    expect(report.locator("strong")).to_have_text(name)

    data = base64.b64decode(page.evaluate("window.savedFile"))
    # Derived: the demo is 240 x 180 x 32 mm, tucked and whole, in canvas of 0.45 mm.
    shown = report.get_by_text("pixels").inner_text().split()
    texture = (int(shown[0]), int(shown[2]))
    found = check_model(data, file=name, size_mm=(240.9, 182.7, 34.7), texture_px=texture)
    assert 500_000 < texture[0] * texture[1] <= 1_000_000
    assert found.animation_s == 6
    expect(report).to_contain_text("182.7 mm, 34.7 mm deep")
    # The demo's notes and the name of its picture are the photographer's own.
    assert "estuary" not in str(ModelFile(data).tree)


def test_it_can_be_stopped(bench: Bench) -> None:
    page = bench.page
    page.locator("#model-pixels").get_by_label("16 million").click()
    page.get_by_role("button", name="Save the model").click()
    page.locator("#model").get_by_role("button", name="Stop").click()
    expect(page.locator("#model")).to_contain_text("Stopped; no model was saved.", timeout=WRITE_MS)
    expect(page.locator("#model-report")).to_have_count(0)


def test_a_ticket_whose_part_of_the_program_does_not_come_says_so(bench: Bench) -> None:
    page = bench.page
    page.route("**/fpdf2-*", lambda route: route.abort())
    page.get_by_role("button", name="Save the ticket").click()
    expect(page.locator("#ticket")).to_contain_text("did not come", timeout=WRITE_MS)
    page.unroute("**/fpdf2-*")


def test_the_ticket_is_made_and_what_it_needs_is_fetched_once(bench: Bench) -> None:
    page = bench.page
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url.rsplit("/", 1)[-1].split("-")[0]))
    page.locator("#ticket-paper").get_by_label("Letter").click()
    for _ in range(2):
        page.evaluate(TAKE_FILE)
        with page.expect_download(timeout=WRITE_MS) as saved:
            page.get_by_role("button", name="Save the ticket").click()
        report = page.locator("#ticket-report")
        expect(report).to_contain_text("2 pages", timeout=WRITE_MS)
    name = saved.value.suggested_filename
    data = base64.b64decode(page.evaluate("window.savedFile"))
    assert name.endswith("-ticket.pdf")
    found = check_ticket(data, file=name, paper=Paper.LETTER, pages=2)
    expect(report.locator("strong")).to_have_text(found.file)
    # Derived: of fpdf2 and what it needs, see web/pins.json, all but the one that failed before are there;
    # the second ticket asks for nothing.
    assert asked == ["fpdf2"]
    assert b"estuary" not in data


def test_the_planner_is_fetched_once_and_when_a_plan_is_first_asked_for(
    bench: Bench, asked_before: list[str]
) -> None:
    page = bench.page
    assert "rectpack" not in asked_before
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url.rsplit("/", 1)[-1].split("-")[0]))
    page.locator("#cutting").scroll_into_view_if_needed()
    expect(page.locator("#plan-says")).to_be_visible(timeout=WRITE_MS)
    for copies in ("2", "5"):
        entry = page.locator("#field-plan-copies")
        entry.fill(copies)
        entry.press("Enter")
        expect(page.locator("#plan-says")).to_contain_text(f"{copies} canvases on", timeout=WRITE_MS)
        page.wait_for_function("() => document.documentElement.dataset.plan === 'known'")
        expect(page.locator(".cutting-piece")).to_have_count(int(copies))
    assert asked == ["rectpack"]
