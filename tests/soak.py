#!/usr/bin/env python3
"""Use the page in Chromium for a long time, at random, and watch memory, messages and stale pictures.

    python3 tests/soak.py [--minutes 60] [--seed 1] [--site FOLDER] [--address URL]

It needs the built site and Chromium. What is done depends on the seed alone: sliders and fields, fills,
pictures, profiles, comparisons, undo and redo, print files, jobs. Every so often, and at the end, the page
rests and is judged: the memory of JavaScript's objects after a collection, the WebAssembly memory, that of
all of the browser's processes (its profile lies on the disk, as a person's does), and whether the flat
canvas is that of a page which has just opened the same bundle. A fault is a message on the console, a
request to another machine, a picture that is not that of the job, a call that never ends, or memory that
grows by more than a third after the first ten minutes (WebAssembly's, which never shrinks: in the second
half). The status is 1 where one is found.
"""

from __future__ import annotations

import argparse
import hashlib
import io
import random
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager, nullcontext, suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final
from urllib.parse import urlsplit

from playwright.sync_api import Error, FilePayload, Page, Playwright, sync_playwright

ROOT: Final = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(ROOT), str(ROOT / "tests" / "browser")]

from bench import Bench  # noqa: E402 (beside the browser tests)
from chromium import LIGHT, launch_options  # noqa: E402
from demo_given import give_demo, reduced_demo  # noqa: E402
from PIL import Image  # noqa: E402
from served import served  # noqa: E402

from pycore.serving.server import HOST, open_server  # noqa: E402 (the repository's own core)
from tests.soak_memory import PageMemory, browsers_mb  # noqa: E402

#: How often the page is judged, which takes no time of the soak's: each five minutes, or twice.
JUDGED_MIN: Final = 5.0
#: From when on memory may grow no further, as a share of the time and in minutes at most.
WARM_SHARE, WARM_MIN = 0.35, 10.0
#: By which it may, as a share, and in MB: collections come when they come.
MOST_GROWTH, MOST_MB = 1 / 3, 60.0
SLIDERS: Final = {"#fold": (0.0, 1.0)}
FIELDS: Final = {
    "face.width_mm": (120, 600),
    "face.height_mm": (120, 600),
    "bars.depth_mm": (8, 60),
    "wrap.turnover_mm": (10, 60),
    "sides.blur_mm": (0, 8),
}
FILLS: Final = ("Mirror", "Edge drawn out", "Plain colour", "Mirror into plain", "Lines continued")


@dataclass
class Watched:
    """What is measured while the page rests."""

    minutes: float
    objects_mb: float
    """JavaScript's objects of the page after a collection."""
    wasm_mb: float
    """WebAssembly memories of its workers."""
    processes_mb: float
    """All of the browser's processes."""


@dataclass
class Soak:
    """One page that is used at random."""

    bench: Bench
    chance: random.Random
    folder: Path
    done: Counter[str] = field(default_factory=Counter)
    demo: bytes | None = None
    """What the page gets as the demo's picture, where that is not the whole one."""
    faults: list[str] = field(default_factory=list)
    watched: list[Watched] = field(default_factory=list)

    def act(self) -> None:
        """Do one thing, and wait until it has had its answer, but for some that follow at once."""
        acts: list[tuple[int, Callable[[], None]]] = [
            (6, self.slide),
            (6, self.type_in),
            (3, self.fill),
            (2, self.undo),
            (2, self.picture),
            (1, self.profile),
            (1, self.compare),
            (1, self.save_job),
            (1, self.print_file),
        ]
        act = self.chance.choices([one for _, one in acts], [weight for weight, _ in acts])[0]
        self.done[act.__name__] += 1
        act()
        if self.chance.random() < 0.7:
            self.bench.settled()

    def slide(self) -> None:
        for _ in range(self.chance.randint(1, 25)):
            slider, (low, high) = self.chance.choice(list(SLIDERS.items()))
            self.bench.page.locator(slider).fill(f"{self.chance.uniform(low, high):.3f}")

    def type_in(self) -> None:
        name, (low, high) = self.chance.choice(list(FIELDS.items()))
        entry = self.bench.field(name)
        if entry.count() == 1 and entry.is_visible() and entry.is_enabled():
            self.bench.type_in(name, str(self.chance.randint(low, high)))

    def fill(self) -> None:
        word = self.chance.choice(FILLS)
        choice = self.bench.page.locator("#sides").get_by_label(word, exact=True).first
        if choice.is_visible():
            choice.click()

    def undo(self) -> None:
        for name in self.chance.choices(("Undo", "Redo"), k=self.chance.randint(1, 4)):
            # In one moment: a change on its way may take the step away between a look and a click.
            self.bench.button(name).first.evaluate("button => button.click()")

    def picture(self) -> None:
        wide, high = self.chance.choice([(640, 427), (1600, 1200), (900, 1400), (300, 200), (2400, 800)])
        noise = self.chance.randint(10, 120)
        file = io.BytesIO()
        Image.effect_noise((wide, high), noise).convert(self.chance.choice(["RGB", "L"])).save(file, "JPEG")
        name = f"noise-{wide}-{high}-{noise}.jpg"
        self.bench.open_picture(FilePayload(name=name, mimeType="image/jpeg", buffer=file.getvalue()))
        self.bench.opened(name)

    def profile(self) -> None:
        name = self.chance.choice(["cmyk-v2", "curves-lab-v4", "grey-v2"])
        data = (ROOT / "tests" / "pycore" / "colour" / "data" / f"{name}.icc").read_bytes()
        file = FilePayload(name=f"{name}.icc", mimeType="application/vnd.iccprofile", buffer=data)
        self.bench.page.locator('input[data-open="profile"]').set_input_files(file)

    def compare(self) -> None:
        page = self.bench.page
        start = page.locator(self.chance.choice(["#start-depths", "#start-fill"]))
        if start.count() == 1 and start.is_visible() and start.is_enabled():
            start.press("Enter")
            self.bench.settled()
        for _ in range(3):
            end = page.get_by_role("button", name="End the comparison").first
            if end.is_visible():
                end.press("Enter")
            self.bench.settled()

    def save_job(self) -> None:
        self.bench.save_job(self.folder)

    def print_file(self) -> None:
        self.bench.settled()
        self.bench.type_in("print.ppi", "72")
        self.bench.settled()
        self.bench.page.get_by_role("button", name="Save the print file").first.click()
        self.bench.settled()

    def judge(self, playwright: Playwright, memory: PageMemory, minutes: float) -> None:
        """Measure memory, and hold the picture against that of a page of its own."""
        self.bench.settled()
        found = Watched(minutes, memory.objects_mb(), memory.wasm_mb(), browsers_mb())
        self.watched.append(found)
        mine, bundle = flat_picture(self.bench), self.save_bundle()
        # A browser of its own, which is not there when memory is measured.
        with watched_page(playwright, self.faults, self.demo) as page:
            fresh = Bench(page, self.bench.address).start()
            fresh.open_job(FilePayload(name="soak.zip", mimeType="application/zip", buffer=bundle))
            fresh.opened(self.bench.page.locator(".facts strong").inner_text())
            if flat_picture(fresh) != mine:
                kept = self.folder / f"stale-{minutes:.0f}.zip"
                kept.write_bytes(bundle)
                self.faults.append(f"after {minutes:.1f} min the picture is not that of the job ({kept})")
        memories = f"objects {found.objects_mb:.1f}, WebAssembly {found.wasm_mb:.0f}"
        print(
            f"{minutes:5.1f} min: {sum(self.done.values())} acts; {memories}, processes "
            f"{found.processes_mb:.0f} MB; faults: {len(self.faults)}",
            flush=True,
        )

    def save_bundle(self) -> bytes:
        """The job and its files."""
        with self.bench.page.expect_download() as caught:
            self.bench.button("Save the bundle").click()
        return Path(caught.value.path()).read_bytes()


def flat_picture(bench: Bench) -> str:
    """The hash of the flat canvas as it is shown."""
    bench.scene("Sheet")
    found = hashlib.sha256(bench.sheet_picture()).hexdigest()
    bench.scene("Wall")
    return found


@contextmanager
def watched_page(playwright: Playwright, faults: list[str], demo: bytes | None) -> Iterator[Page]:
    """A page in a browser of its own with a profile on the disk, whose complaints become faults.

    Without a profile on the disk, what the page keeps would lie in the browser's memory. `demo` is what it
    gets as the demo's picture, where that is not the whole one.
    """
    given = {**launch_options(), **LIGHT}
    with tempfile.TemporaryDirectory(prefix="tuckfold-profile-", ignore_cleanup_errors=True) as profile:
        context = playwright.chromium.launch_persistent_context(
            profile, viewport={"width": 1280, "height": 800}, accept_downloads=True, **given
        )
        if demo is not None:
            give_demo(context, demo)
        page = context.new_page()
        page.on(
            "console", lambda said: faults.append(f"console: {said.text}") if said.type == "error" else None
        )
        page.on("pageerror", lambda wrong: faults.append(f"uncaught: {wrong}"))
        context.on("request", lambda asked: faults.extend(_foreign(asked.url)))
        try:
            yield page
        finally:
            context.close()


def _foreign(address: str) -> list[str]:
    parts = urlsplit(address)
    known = parts.scheme in ("blob", "data") or parts.hostname == HOST
    return [] if known else [f"request to another machine: {address}"]


def growth(watched: list[Watched], *, minutes: float) -> list[str]:
    """What has grown too much since the page was warm.

    Parameters
    ----------
    watched : list of Watched
        In order.
    minutes : float
        How long the whole soak lasts.

    Returns
    -------
    list of str

    Examples
    --------
    >>> level = [Watched(one, 20.0, 300.0, 900.0) for one in (1, 20, 40, 60)]
    >>> growth(level, minutes=60)
    []
    >>> growth([*level, Watched(61, 20.0, 900.0, 900.0)], minutes=60)
    ['WebAssembly memory has grown from 300 to 900 MB']
    """
    warm = [one for one in watched if one.minutes >= min(WARM_MIN, WARM_SHARE * minutes)]
    if len(warm) < 2:
        return []
    faults = []
    for name, called in (
        ("objects_mb", "the memory of objects"),
        ("wasm_mb", "WebAssembly memory"),
        ("processes_mb", "the processes' memory"),
    ):
        # WebAssembly's memory never shrinks: it rises to what the largest work needs, and must then stay.
        early = warm[len(warm) // 2 - 1] if name == "wasm_mb" else warm[0]
        first, last = getattr(early, name), getattr(warm[-1], name)
        if last > first * (1 + MOST_GROWTH) and last > first + MOST_MB:
            faults.append(f"{called} has grown from {first:.0f} to {last:.0f} MB")
    return faults


def soak(site: Path, *, minutes: float, seed: int, address: str | None = None) -> Soak:
    """Use the page for some minutes.

    Parameters
    ----------
    site : Path
        The built site.
    minutes : float
    seed : int
    address : str, optional
        Of the site where it is served already; the page there gets a small demo.

    Returns
    -------
    Soak
        With its faults.
    """
    folder = Path(tempfile.mkdtemp(prefix="tuckfold-soak-"))
    serving = served(open_server(site, port=0)) if address is None else nullcontext(address)
    with serving as opened, sync_playwright() as playwright:
        faults: list[str] = []
        demo = None if address is None else reduced_demo()
        with watched_page(playwright, faults, demo) as page:
            memory = PageMemory(page.context, page)
            bench = Bench(page, opened).start()
            used = Soak(bench, random.Random(seed), folder, demo=demo, faults=faults)
            print(f"the page has started; {folder} holds what is saved", flush=True)
            # A picture that no fresh page has tells there that the bundle is open.
            used.picture()
            used_min, judged_min = 0.0, 0.0
            every = min(JUDGED_MIN, minutes / 2)
            try:
                while used_min < minutes:
                    begun = time.monotonic()
                    used.act()
                    used_min += (time.monotonic() - begun) / 60
                    if used_min - judged_min >= every or used_min >= minutes:
                        judged_min = used_min
                        used.judge(playwright, memory, used_min)
            except Error as wrong:
                used.faults.append(f"after {dict(used.done)}: {wrong}")
                with suppress(Error):
                    page.screenshot(path=folder / "fault.png")
    used.faults += growth(used.watched, minutes=minutes)
    return used


def main() -> int:
    """Soak and print; 1 where a fault is found."""
    parser = argparse.ArgumentParser(description="Use the page at random for a long time.")
    parser.add_argument("--minutes", type=float, default=60.0, help="(default: %(default)s)")
    parser.add_argument("--seed", type=int, default=1, help="(default: %(default)s)")
    parser.add_argument("--address", help="of a site that is served already, for a small demo")
    parser.add_argument("--site", type=Path, default=ROOT / "web" / "dist", help="the built site")
    given = parser.parse_args()
    used = soak(given.site, minutes=given.minutes, seed=given.seed, address=given.address)
    print("acts: " + ", ".join(f"{count} {name}" for name, count in sorted(used.done.items())))
    for fault in used.faults:
        print(f"fault: {fault}")
    print(f"faults: {len(used.faults)}")
    return int(bool(used.faults))


if __name__ == "__main__":
    sys.exit(main())
