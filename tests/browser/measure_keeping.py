"""Two tabs with a job each are edited, reloaded and killed at random; each job must stay its own.

    python tests/browser/measure_keeping.py [--rounds N] [--edits N] [--seed S] [--address URL]

In each round both tabs make some random edits (lengths, words, new pictures) in a random order and undo some.
Then each may be reloaded at once after one more change, closed, or have its process killed. What the tab then
opens is compared with what it showed: its fields, its picture by content, the bytes in the database. A
reload may lose nothing; a kill at most what was changed in the last half second. It prints what was done and
what was lost, and ends with status 1 where anything was mixed or more was lost than that.
"""

from __future__ import annotations

import argparse
import contextlib
import hashlib
import io
import json
import random
import sys
import tempfile
import time
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Final

from PIL import Image
from playwright.sync_api import BrowserContext, Error, ViewportSize, expect, sync_playwright

ROOT: Final = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "web"), str(ROOT)]

from bench import Bench  # noqa: E402 (beside this file)
from build.places import places  # noqa: E402 (web/ holds the build's modules)
from chromium import LIGHT, launch_options  # noqa: E402
from demo_given import give_demo, reduced_demo  # noqa: E402
from served import served  # noqa: E402

from pycore.serving.server import open_server  # noqa: E402 (after web/ is named)

#: What a killed tab may lose.
LOST_MS: Final = 500
CRASH_MS: Final = 3000
SMALL: Final[ViewportSize] = {"width": 1000, "height": 700}

#: The hash of the bytes that the database names as the picture of the tab's job.
KEPT_PICTURE: Final = """async () => {
  const answer = (request) => new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  const database = await answer(indexedDB.open("tuckfold-jobs"));
  const reading = database.transaction(["states", "steps", "blobs"]);
  const id = sessionStorage.getItem("tuckfold-job");
  const state = await answer(reading.objectStore("states").get(id));
  const number = state.steps[state.present];
  const step = state.candidate ?? await answer(reading.objectStore("steps").get([id, number]));
  const { blob } = await answer(reading.objectStore("blobs").get(step.picture));
  database.close();
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", await blob.arrayBuffer()));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
}"""


class MixedError(Exception):
    """A job has what is not its own, or lost more than it may."""


@dataclass
class Tab:
    """One tab with its own job.

    Attributes
    ----------
    name : str
        Its pictures' names and its words to the client begin with it.
    bench : Bench
    id : str
        Of its job.
    seen : list of (float, dict)
        What the page showed, and when, in seconds.
    pictures : dict of str to str
        The hash of each of its pictures, by file name.
    """

    name: str
    bench: Bench
    id: str = ""
    seen: list[tuple[float, dict[str, Any]]] = field(default_factory=list)
    pictures: dict[str, str] = field(default_factory=dict)

    def look(self, folder: Path) -> dict[str, Any]:
        """What the page shows: its job, and the words to the client."""
        job: dict[str, Any] = json.loads(self.bench.save_job(folder).read_text(encoding="utf-8"))
        words = self.bench.page.locator("#client-words").input_value()
        return {"job": job, "words": words}

    def record(self, folder: Path) -> None:
        self.seen.append((time.monotonic(), self.look(folder)))


class Trial:
    """The two tabs, and what was done to them."""

    def __init__(self, context: BrowserContext, address: str, folder: Path, *, seed: int) -> None:
        self.context, self.address, self.folder = context, address, folder
        self.chance = random.Random(seed)
        self.done: Counter[str] = Counter()
        self.lost_ms: list[float] = []
        self.tabs = [Tab(name, self.opened()) for name in ("ash", "oak")]
        for tab in self.tabs:
            self.begin(tab)

    def opened(self) -> Bench:
        page = self.context.new_page()
        page.set_default_timeout(20_000)
        self.done["starts"] += 1
        return Bench(page, self.address).start()

    def begin(self, tab: Tab) -> None:
        """The tab's own job: a new one, since the page opens the latest."""
        page = tab.bench.page
        page.locator("#open-jobs").click()
        page.get_by_role("button", name="New job").click()
        expect(page.locator("#jobs")).not_to_be_visible()
        self.new_picture(tab)
        tab.id = page.evaluate("sessionStorage.getItem('tuckfold-job')")
        tab.record(self.folder)

    def new_picture(self, tab: Tab) -> None:
        name = f"{tab.name}-{len(tab.pictures) + 1}.png"
        colour = tuple(self.chance.randrange(256) for _ in range(3))
        out = io.BytesIO()
        Image.new("RGB", (120, 80), colour).save(out, format="PNG")
        tab.pictures[name] = hashlib.sha256(out.getvalue()).hexdigest()
        tab.bench.open_picture({"name": name, "mimeType": "image/png", "buffer": out.getvalue()})
        tab.bench.opened(name)
        offered = tab.bench.page.locator("#use-picture")
        if offered.count() > 0:
            offered.click()
            tab.bench.settled()
        self.done["pictures"] += 1

    def edit(self, tab: Tab) -> None:
        """One random change, and what the page shows then."""
        kind = self.chance.choices(["depth", "turnover", "words", "picture", "undo"], [40, 20, 20, 8, 12])[0]
        bench = tab.bench
        if kind == "depth":
            bench.set("bars.depth_mm", str(self.chance.randrange(15, 46)))
        elif kind == "turnover":
            bench.set("wrap.turnover_mm", str(self.chance.randrange(30, 41)))
        elif kind == "words":
            bench.page.locator("#client-words").fill(f"{tab.name} {self.chance.randrange(10**6)}")
        elif kind == "picture":
            self.new_picture(tab)
        elif self.undoes(tab):
            # By the key: a message that comes or goes may move the button away from under a pointer.
            bench.button("Undo").press("Enter")
            bench.settled()
        self.done["edits"] += 1
        tab.record(self.folder)

    def undoes(self, tab: Tab) -> bool:
        """Whether there is a step to take back, and not the one that brought the first picture."""
        button = tab.bench.button("Undo")
        first = f"Undo: opening {tab.name}-1.png"
        return button.is_enabled() and button.get_attribute("title") != first

    def round(self, *, edits: int) -> None:
        order = [tab for tab in self.tabs for _ in range(edits)]
        self.chance.shuffle(order)
        for tab in order:
            self.edit(tab)
        for tab in self.tabs:
            what = self.chance.choices(["stay", "reload", "close", "kill"], [45, 30, 10, 15])[0]
            if what == "reload":
                self.reload(tab)
            elif what != "stay":
                self.kill(tab, what)
        self.done["rounds"] += 1

    def reload(self, tab: Tab) -> None:
        """Change something and reload in the same moment: that change too must be there."""
        before = tab.seen[-1][1]
        depth = self.chance.choice([mm for mm in range(15, 46) if mm != before["job"]["bars"]["depth_mm"]])
        tab.bench.type_in("bars.depth_mm", str(depth))
        tab.bench.page.reload()
        tab.bench.wait_shown()
        tab.bench.settled()
        self.done["reloads"] += 1
        self.done["starts"] += 1
        expected = json.loads(json.dumps(before))
        expected["job"]["bars"]["depth_mm"] = depth
        now = tab.look(self.folder)
        self.check_own(tab, now)
        if now != expected:
            raise MixedError(f"{tab.name} after a reload:\n{now}\ninstead of\n{expected}")
        tab.seen = [(time.monotonic(), now)]

    def kill(self, tab: Tab, how: str) -> None:
        ended = time.monotonic()
        page = tab.bench.page
        if how == "close":
            page.close()
        else:
            # The process ends in this moment; nothing in the page hears of it.
            with contextlib.suppress(Error):
                page.goto("chrome://crash", timeout=CRASH_MS)
            page.close()
        self.done["kills" if how == "kill" else "closed"] += 1
        tab.bench = self.opened()
        self.open_own(tab)
        now = tab.look(self.folder)
        self.check_own(tab, now)
        # Undo may bring a former state back: the latest equal one counts.
        places_equal = [place for place, (_, one) in enumerate(tab.seen) if one == now]
        if not places_equal:
            raise MixedError(f"{tab.name} after a {how}: {now} was never shown")
        late = [when for when, _ in tab.seen[places_equal[-1] + 1 :]]
        lost = 1000 * (ended - late[0]) if late else 0.0
        self.lost_ms.append(lost)
        if lost > LOST_MS:
            changes = ", ".join(f"{1000 * (ended - when):.0f}" for when in late)
            raise MixedError(f"{tab.name} lost changes by a {how} that were seen {changes} ms before it")
        tab.seen = [(time.monotonic(), now)]

    def open_own(self, tab: Tab) -> None:
        """A new tab opens the job that changed last; its own is in the list."""
        page = tab.bench.page
        if page.evaluate("sessionStorage.getItem('tuckfold-job')") != tab.id:
            page.locator("#open-jobs").click()
            own = page.locator(f'#jobs li[data-job="{tab.id}"]')
            own.get_by_role("button", name="Open:").click()
            expect(page.locator("#jobs")).not_to_be_visible()
        expect(page.locator("html")).to_have_attribute("data-keeping", "writing")
        tab.bench.settled()

    def check_own(self, tab: Tab, now: dict[str, Any]) -> None:
        """Fields, picture and bytes are the tab's own."""
        picture = now["job"]["picture"]
        shown = tab.bench.page.locator(".facts strong").inner_text()
        bytes_kept = tab.bench.page.evaluate(KEPT_PICTURE)
        hashes = {picture["sha256"], tab.pictures.get(picture["file"]), bytes_kept}
        if len(hashes) != 1 or shown != picture["file"]:
            raise MixedError(f"{tab.name} has {picture}, shows {shown}, keeps {bytes_kept}")
        if now["words"] and not now["words"].startswith(tab.name):
            raise MixedError(f"{tab.name} has the words of another job: {now['words']}")
        self.done["checks"] += 1


def main() -> int:
    """Run the trial and print its figures."""
    options = argparse.ArgumentParser(description="Two tabs, random edits, reloads and kills.")
    options.add_argument("--rounds", type=int, default=200)
    options.add_argument("--edits", type=int, default=10, help="of a tab in a round")
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--address", help="of a site that is served already, for a small demo")
    given = options.parse_args()
    # A busy machine takes its time; what is not there by then does not come.
    expect.set_options(timeout=60_000)
    address = given.address
    serving = contextlib.nullcontext(address) if address else served(open_server(places(ROOT).dist, port=0))
    with (
        tempfile.TemporaryDirectory() as folder,
        serving as opened,
        sync_playwright() as playwright,
    ):
        chromium = launch_options()
        # The 3D view keeps nothing, and without a graphics card to draw it takes most of the time.
        chromium["args"] = [*chromium["args"], "--disable-3d-apis"]
        browser = playwright.chromium.launch(**chromium)
        context = browser.new_context(viewport=SMALL, accept_downloads=True, **LIGHT)
        if address:
            give_demo(context, reduced_demo())
        trial = Trial(context, opened, Path(folder), seed=given.seed)
        status = 0
        try:
            while trial.done["rounds"] < given.rounds:
                trial.round(edits=given.edits)
                if trial.done["rounds"] % 10 == 0:
                    print(f"{trial.done['rounds']} rounds", file=sys.stderr, flush=True)
        except MixedError as wrong:
            print(f"round {trial.done['rounds'] + 1}: {wrong}")
            status = 1
        browser.close()
    for what, count in sorted(trial.done.items()):
        print(f"{what}: {count}")
    print(f"most lost by a kill or a closed tab: {max(trial.lost_ms, default=0.0):.0f} ms of changes")
    return status


if __name__ == "__main__":
    sys.exit(main())
