"""The page as a user's hands find it: opening, typing, folding, writing; for the browser tests."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Literal

from playwright.sync_api import Download, FilePayload, Locator, Page, expect
from rest import at_rest, watch

from pycore.errors import TuckfoldError

#: Python starts in the page and makes the first canvas; a busy machine takes its time.
START_MS = 120_000
#: A change reaches the stage.
CHANGE_MS = 20_000
#: Between one look at the page's state and the next.
LOOK_MS = 20
#: A print file of a few megapixels is written.
WRITE_MS = 120_000


#: Keeps the text of the next file that the page makes.
TAKE_TEXT = """() => {
  const make = URL.createObjectURL;
  window.savedText = new Promise((resolve) => {
    URL.createObjectURL = (blob) => {
      URL.createObjectURL = make;
      blob.text().then(resolve);
      return make.call(URL, blob);
    };
  });
}"""

#: Sets whether the words over the wall are seen.
HIDE_STATUS = """(visibility) => {
  const style = new CSSStyleSheet();
  style.replaceSync(visibility && `.status { visibility: ${visibility} }`);
  document.adoptedStyleSheets = [style];
}"""

#: Resolves when the tab's job in the browser's database is so; nothing waits for the core then.
KEPT_JOB = """async (longestMs) => {
  const fits = (job, words, parts) => CONDITION;
  const answer = (request) => new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  const begun = performance.now();
  for (let kept;;) {
    const id = sessionStorage.getItem("tuckfold-job");
    const database = await answer(indexedDB.open("tuckfold-jobs"));
    const reading = database.transaction(["jobs", "states", "steps"]);
    const entry = id === null ? undefined : await answer(reading.objectStore("jobs").get(id));
    const state = id === null ? undefined : await answer(reading.objectStore("states").get(id));
    const number = state?.steps[state.present] ?? -1;
    const step = state && await answer(reading.objectStore("steps").get([id, number]));
    database.close();
    kept = step?.job;
    const isSettled = kept !== undefined && state.candidate === undefined;
    if (isSettled && fits(JSON.parse(kept), state.words, entry.parts)) return;
    if (performance.now() - begun > longestMs) throw new Error(`the job that is kept: ${kept}`);
    await new Promise(requestAnimationFrame);
  }
}"""


class Bench:
    """One open page.

    Parameters
    ----------
    page : Page
        A fresh page.
    address : str
        Where the built site is served.
    """

    def __init__(self, page: Page, address: str) -> None:
        self.page = page
        self.address = address
        watch(page)

    def start(self) -> Bench:
        """Load the page and wait for the first canvas that Python made."""
        self.page.goto(self.address)
        self.wait_shown()
        return self

    def wait_shown(self) -> None:
        self.page.wait_for_selector("html[data-state=shown]", timeout=START_MS)

    def field(self, name: str) -> Locator:
        """The entry of a job field, by its dotted name."""
        return self.page.locator("#field-" + re.sub(r"[^a-z0-9]+", "-", name, flags=re.IGNORECASE))

    def message(self, name: str) -> Locator:
        """What stands beside a field when it is wrong."""
        return self.page.locator(f'[data-field="{name}"] .error-text, .page-header .error-text').first

    def type_in(self, name: str, text: str) -> None:
        """Type into a field and leave it by Enter."""
        self.field(name).fill(text)
        self.field(name).press("Enter")

    def set(self, name: str, text: str) -> None:
        """Type into a field and wait until the job has it."""
        self.type_in(name, text)
        self.settled()
        expect(self.message(name)).to_have_count(0)
        expect(self.field(name)).to_have_value(text)

    def choose(self, group: str, word: str) -> None:
        """Choose a word of a group, by the group's label."""
        self.page.get_by_role("group", name=group, exact=True).get_by_label(word, exact=True).click()
        self.settled()

    def settled(self) -> None:
        """Wait until nothing that was asked for is on its way any more."""
        # Asked at every frame, it would have the browser make one sixty times a second.
        self.page.wait_for_function(
            "() => document.documentElement.dataset.waiting === '0'", timeout=CHANGE_MS, polling=LOOK_MS
        )

    def open_picture(self, *files: Path | FilePayload) -> None:
        self.page.locator('input[data-open="picture"]').set_input_files(files[0])

    def open_job(self, file: Path | FilePayload) -> None:
        self.page.locator('input[data-open="job"]').set_input_files(file)

    def opened(self, file: str) -> None:
        """Wait until a picture is the one in hand."""
        expect(self.page.locator(".facts strong")).to_have_text(file, timeout=START_MS)
        self.settled()

    def button(self, name: str) -> Locator:
        return self.page.get_by_role("button", name=name, exact=True)

    def scene(self, which: Literal["Wall", "Sheet"]) -> None:
        self.page.locator("#scene").get_by_label(which, exact=True).click()

    def save_job(self, folder: Path) -> Path:
        """Save the job and keep the text that the page hands to the browser.

        The text is taken where it is handed over: a module saves dozens of jobs from one page, and Chromium
        does not tell of every one of that many small downloads. By the key, since a message that comes or
        goes may move the button away from under a pointer. It is looked for in the header alone: by its role,
        Playwright goes through the whole page.
        """
        self.page.evaluate(TAKE_TEXT)
        self.page.locator(".page-header-actions button", has_text="Save the job").press("Enter")
        text: str = self.page.evaluate("window.savedText")
        target = folder / f"job-{len(list(folder.glob('job-*.json')))}.json"
        target.write_text(text, encoding="utf-8")
        return target

    def write_file(self, word: str, folder: Path) -> Path:
        """Write the print file in a format and keep what the browser downloads."""
        self.page.locator("#print-kind").get_by_label(word, exact=True).click()
        with self.page.expect_download(timeout=WRITE_MS) as caught:
            self.button("Save the print file").click()
        return saved(caught.value, folder)

    def wall_picture(self) -> bytes:
        """What is drawn on the wall, once it has come to rest."""
        at_rest(self.page)
        # Words that come and go over the wall are no part of it. The page's policy lets no style element in.
        self.page.evaluate(HIDE_STATUS, "hidden")
        picture = self.page.locator(".wall-host").screenshot()
        self.page.evaluate(HIDE_STATUS, "")
        return picture

    def sheet_picture(self) -> bytes:
        """The flat canvas's pixels, once they have come to rest."""
        at_rest(self.page)
        text: str = self.page.locator("canvas.flat-texture").evaluate("one => one.toDataURL()")
        return text.encode()

    def kept(self, condition: str) -> None:
        """Wait until what the browser keeps is as a condition in JavaScript says.

        The condition is about `job`, `words` and `parts`: `words` are those to the client, `parts` the files
        that belong to the job.
        """
        self.page.evaluate(KEPT_JOB.replace("CONDITION", condition), CHANGE_MS)


def refusal(wrong: TuckfoldError) -> str:
    """What the page says of a file that the core refuses: the core's own sentences, and what was kept."""
    return str(wrong).replace(wrong.message, f"{wrong.message} The job is as it was.")


def saved(download: Download, folder: Path) -> Path:
    target = folder / download.suggested_filename
    download.save_as(target)
    return target
