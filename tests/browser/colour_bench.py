"""The section about colour as a user's hands find it; for the browser tests."""

from __future__ import annotations

import base64
import json
import re
from pathlib import Path
from typing import Any

from bench import Bench
from playwright.sync_api import FilePayload, Page, expect

#: Working something out on a busy machine.
WORK_MS = 60_000

#: Notes every call that the page sends to the core, and which were sent when the first canvas was shown.
LISTEN = """
  window.calls = [];
  const post = Worker.prototype.postMessage;
  Worker.prototype.postMessage = function (message, ...rest) {
    if (message.kind === "call") window.calls.push(message.method);
    return post.call(this, message, ...rest);
  };
  new MutationObserver(() => {
    if (document.documentElement.dataset.state === "shown") window.atShown ??= [...window.calls];
  }).observe(document, { attributes: true, subtree: true });
"""

#: The bytes come as base64: a list of numbers costs Playwright more than all that the page does with them.
DROP = """([text, name, kind, how]) => {
  const letters = atob(text);
  const bytes = new Uint8Array(letters.length);
  for (let i = 0; i < bytes.length; i++) bytes[i] = letters.charCodeAt(i);
  const data = new DataTransfer();
  data.items.add(new File([bytes], name, { type: kind }));
  document.body.dispatchEvent(how === "drop"
    ? new DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true })
    : new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true }));
}"""


def hand_over(page: Page, file: FilePayload, how: str) -> None:
    """Drop a file on the page, or paste it."""
    text = base64.b64encode(file["buffer"]).decode("ascii")
    page.evaluate(DROP, [text, file["name"], file["mimeType"], how])


def colour_at_work(bench: Bench, picture: Path) -> Bench:
    """Start a page, open a picture, bring the section about colour into view, and note what is sent."""
    bench.page.add_init_script(LISTEN)
    bench.start()
    bench.open_picture(picture)
    bench.opened(picture.name)
    see_colour(bench)
    return bench


def see_colour(bench: Bench) -> None:
    bench.page.locator("#colour-title").evaluate("one => one.scrollIntoView()")
    # The figures are asked for when the browser has seen that they are in view.
    expect(bench.page.locator("#clip-says")).not_to_contain_text("worked out", timeout=WORK_MS)
    known(bench)


def known(bench: Bench) -> None:
    """Wait until everything known of colour is that of the job in hand."""
    bench.settled()
    bench.page.wait_for_function("() => document.documentElement.dataset.colour === 'known'", timeout=WORK_MS)


def look_at(bench: Bench, word: str) -> None:
    bench.page.locator("#colour-view").get_by_label(word, exact=True).click()


def calls(page: Page) -> list[str]:
    """What was sent since this was last asked, but for the question about edges that follows any change."""
    sent: list[str] = page.evaluate("window.calls.splice(0)")
    return [method for method in sent if method != "edges"]


def job_of(bench: Bench, folder: Path) -> dict[str, Any]:
    job: dict[str, Any] = json.loads(bench.save_job(folder).read_text(encoding="utf-8"))
    return job


def open_profile(bench: Bench, file: Path | FilePayload) -> None:
    bench.page.locator('input[data-open="profile"]').set_input_files(file)


def profile_shown(bench: Bench) -> str:
    return bench.page.locator('[data-field="colour.profile"] .measures').inner_text()


def share(bench: Bench, row: str, column: int) -> float:
    """A percentage of the table of parts."""
    cells = bench.page.locator("#clip-parts tbody tr").filter(has_text=row).locator("td")
    text = cells.nth(column).inner_text()
    found = re.search(r"[\d.]+", text)
    assert found, text
    return 0.05 if text.startswith("<") else float(found.group())
