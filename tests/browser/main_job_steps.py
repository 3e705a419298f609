"""The main job's steps in JavaScript, for any browser: open, size, wall, sheet, gamut map, compare, files.

Selectors and scripts stand here alone. Every step waits for what the page says of itself, not for a time,
and returns what there is to see.
"""

from __future__ import annotations

import base64
import json
from pathlib import Path
from typing import Any, Final

from driven import LONGEST_S, Driven
from rest import AT_REST, WATCH

#: What the steps are written with. A wait looks at the page twenty times a second.
WORDS: Final = """
const find = (selector) => {
  const found = document.querySelector(selector);
  if (found === null) throw new Error(`the page has no ${selector}`);
  return found;
};
const text = (selector) => document.querySelector(selector)?.textContent.trim() ?? "";
const pause = () => new Promise((go) => setTimeout(go, 50));
const until = async (what, isSo) => {
  const begun = performance.now();
  while (!isSo()) {
    if (performance.now() - begun > LONGEST_MS)
      throw new Error(`in vain for ${what}; ${text(".error-text")}`);
    await pause();
  }
};
const page = document.documentElement.dataset;
const settled = () => until("the answer to a change", () => page.waiting === "0");
const press = (selector) => find(selector).click();
const all = (selector) => [...document.querySelectorAll(selector)];
const pressNamed = (name) => all("button").find((one) => one.textContent === name).click();
const entryOf = (field) => find("#field-" + field.replace(/[^a-z0-9]+/gi, "-"));
const typeIn = (field, written) => {
  const entry = entryOf(field);
  entry.value = written;
  entry.dispatchEvent(new Event("input", { bubbles: true }));
  entry.dispatchEvent(new Event("change", { bubbles: true }));
};
const typed = (field) =>
  until(`${field} in the job`, () => page.waiting === "0" && entryOf(field).dataset.draft === "false");
const onWall = () => find(".wall-host canvas").toDataURL();
const atRest = () => (AT_REST)(LONGEST_MS);
const drawn = async (isNew) => {
  await settled();
  await atRest();
  await until("another picture on the wall", () => isNew(onWall()));
  await atRest();
  return onWall();
};
const savedBy = async (act) => {
  const make = URL.createObjectURL;
  let kept;
  URL.createObjectURL = (blob) => {
    kept = blob;
    return make.call(URL, blob);
  };
  try {
    act();
    await until("a saved file", () => kept !== undefined);
  } finally {
    URL.createObjectURL = make;
  }
  const bytes = new Uint8Array(await kept.arrayBuffer());
  let binary = "";
  for (let at = 0; at < bytes.length; at += 32768)
    binary += String.fromCharCode(...bytes.subarray(at, at + 32768));
  return btoa(binary);
};
""".replace("AT_REST", AT_REST).replace("LONGEST_MS", str((LONGEST_S - 20) * 1000))


class MainJob:
    """The main job on the page in a browser.

    Parameters
    ----------
    driven : Driven
        A page of that browser; nothing is loaded yet.
    address : str
        Where the built site is served.
    """

    def __init__(self, driven: Driven, address: str) -> None:
        self.driven = driven
        self.address = address

    def start(self) -> None:
        """Load the page and wait for the first canvas; from here on it gathers what is thrown."""
        self.driven.open(self.address)
        self.driven.run(WATCH)
        self._run("""
          window.thrown = [];
          addEventListener("error", ({ message }) => window.thrown.push(message));
          addEventListener("unhandledrejection", ({ reason }) => window.thrown.push(String(reason)));
          await until("the first canvas", () => page.state === "shown");
          press("#unit input[value=mm]");
        """)

    def open_picture(self, file: Path) -> str:
        """Open a picture; returns what the page says of it."""
        self.driven.give_file("input[data-open=picture]", file)
        facts: str = self._run(
            """
            await until("the picture's facts", () => text(".facts strong") === given[0]);
            await settled();
            return text(".facts");
            """,
            file.name,
        )
        return facts

    def set_fields(self, fields: dict[str, str]) -> None:
        """Type into fields of the job, one after another, as quickly as the page takes it."""
        self._run(
            """
            for (const [field, written] of given) typeIn(field, written);
            for (const [field] of given) await typed(field);
            """,
            *([name, written] for name, written in fields.items()),
        )

    def saved_job(self) -> dict[str, Any]:
        """Save the job; returns what stands in the file."""
        data = self._run('return await savedBy(() => pressNamed("Save the job"));')
        job: dict[str, Any] = json.loads(base64.b64decode(data))
        return job

    def wall(self) -> dict[str, str]:
        """Look at the wall; returns it folded, flat, and folded again, each as a picture's address."""
        seen: dict[str, str] = self._run("""
          press("#scene input[value=wall]");
          const fold = async (to, isNew) => {
            const slider = find("#fold");
            slider.value = to;
            slider.dispatchEvent(new Event("input", { bubbles: true }));
            return drawn(isNew);
          };
          const folded = await fold("1", () => true);
          const flat = await fold("0", (now) => now !== folded);
          const again = await fold("1", (now) => now !== flat);
          return { folded, flat, again };
        """)
        return seen

    def sheet(self) -> dict[str, Any]:
        """Look at the sheet; returns what it says and the canvas's pixels: width, height and a hash."""
        seen: dict[str, Any] = self._run("""
          // A page that cannot draw the wall shows the sheet alone, and offers no choice.
          const choose = (scene) => all(`#scene input[value=${scene}]`).forEach((one) => one.click());
          choose("sheet");
          await until("the sheet", () => document.querySelector("canvas.flat-texture") !== null);
          const canvas = find("canvas.flat-texture");
          const pixels = () => canvas.getContext("2d").getImageData(0, 0, canvas.width, canvas.height).data;
          await until("its pixels", () => pixels().some((byte) => byte !== 0));
          const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", pixels()));
          const says = text(".sheet-says");
          choose("wall");
          return { says, size: [canvas.width, canvas.height], hash: [...hash] };
        """)
        return seen

    def gamut_map(self) -> dict[str, str]:
        """Look at the gamut map on the wall; returns the wall before and with it, its caption and figures."""
        seen: dict[str, str] = self._run("""
          find("#colour-title").scrollIntoView();
          await until("the figures", () => page.colour === "known" && text("#clip-parts") !== "");
          const before = await drawn(() => true);
          press("#colour-view input[value=clip]");
          const map = await drawn((now) => now !== before);
          const caption = text("#colour-caption"), says = text("#clip-says");
          press("#colour-view input[value=filed]");
          await drawn((now) => now !== map);
          return { before, map, caption, says };
        """)
        return seen

    def compare_depths(self) -> dict[str, list[str]]:
        """Compare the usual depths and end that; returns the captions and their figures."""
        seen: dict[str, list[str]] = self._run("""
          const alone = await drawn(() => true);
          press("#start-depths");
          await until("the comparison", () => page.compare === "shown");
          const texts = (selector) => all(selector).map((one) => one.textContent.trim());
          const names = texts(".pane-caption strong");
          const canvases = texts(".pane-caption [data-figure=canvas] dd");
          await drawn((now) => now !== alone);
          return { names, canvases };
        """)
        return seen

    def print_file(self, word: str) -> bytes:
        """Save the print file in a format: tiff, png or jpeg."""
        data = self._run(
            """
            press(`#print-kind input[value=${given[0]}]`);
            const file = await savedBy(() => press("#write-print"));
            await until("the report", () => text("#print-report") !== "");
            return file;
            """,
            word,
        )
        return base64.b64decode(data)

    def client_page(self, words: str) -> bytes:
        """Save the client page with a few words."""
        data = self._run(
            """
            const entry = find("#client-words");
            entry.value = given[0];
            entry.dispatchEvent(new Event("input", { bubbles: true }));
            const file = await savedBy(() => press("#save-client-page"));
            await until("the report", () => text("#client-report") !== "");
            return file;
            """,
            words,
        )
        return base64.b64decode(data)

    def faults(self, axe: str, tags: list[str]) -> dict[str, list[str]]:
        """Look the page over by axe in eight states; returns what it finds in each pass.

        Where a state differs in one part alone, that part is looked at; two that are there at the same time
        share a pass, since axe goes through the whole document before it looks at a part.
        """
        found: dict[str, list[str]] = self.driven.run(
            axe
            + WORDS
            + """
            const [tags] = given, faults = {};
            const look = async (state, part, only = tags) => {
              await settled();
              // What is scrolled below the stage is covered, and no target meanwhile.
              scrollTo(0, 0);
              const options = { runOnly: only, resultTypes: ["violations"], preload: false };
              const { violations } = await window.axe.run(part, options);
              faults[state] = violations.map(({ id, nodes }) => `${id}: ${nodes[0].target}`);
            };
            const colours = { type: "rule", values: ["color-contrast", "link-in-text-block"] };
            press("#scene input[value=wall]");
            await look("at work", document);
            for (const one of all("details")) one.open = true;
            press("#start-depths");
            await until("the comparison", () => page.compare === "shown");
            typeIn("bars.depth_mm", "4");
            await until("a refusal", () => text("[data-field='bars.depth_mm'] .error-text") !== "");
            await look("compared, and refused", { include: ["#compare", "#bars"] });
            press("#compare-figures > button");
            typeIn("bars.depth_mm", "20");
            await typed("bars.depth_mm");
            press("#colour-view input[value=clip]");
            await look("mended, with the gamut map", { include: [".stage", "#bars"] });
            press("#scene input[value=sheet]");
            press("#colour-view input[value=filed]");
            await look("with the sheet, opened out", { include: [".stage", "#sheet"] });
            press("#theme input[value=dark]");
            await look("dark", document, colours);
            press("#theme input[value=system]");
            press("#scene input[value=wall]");
            return faults;
            """,
            tags,
        )
        return found

    def thrown(self) -> list[str]:
        """What the page has thrown since it was started."""
        found: list[str] = self._run("return window.thrown;")
        return found

    def hung_client_page(self, file: Path) -> str:
        """Open a client page from the disk, wait until the canvas hangs; returns the words to the client."""
        self.driven.open(file.as_uri())
        words: str = self._run("""
          await until("the canvas on the wall", () => page.state === "hung");
          return text(".message");
        """)
        return words

    def _run(self, body: str, *given: object) -> Any:
        return self.driven.run(WORDS + body, *given)
