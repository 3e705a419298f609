import { expect, it } from "vitest";
import { askBeforeLeaving, bundledJob } from "../../../../../web/src/page/state/keeping/leave";
import { keepingTrouble, readOnly, storage } from "../../../../../web/src/page/state/keeping/mode";
import { begin } from "../../../../../web/src/page/state/work/history";
import { history } from "../../../../../web/src/page/state/work/work";
import { JOB } from "../../jobs";

/** Whether the browser would ask before the page is left. */
function asks(page: EventTarget): boolean {
  return !page.dispatchEvent(new Event("beforeunload", { cancelable: true }));
}

it("asks before the page is left while the work in hand is kept nowhere, and at no other time", () => {
  const page = new EventTarget();
  const { addEventListener, removeEventListener } = globalThis;
  globalThis.addEventListener = page.addEventListener.bind(page);
  globalThis.removeEventListener = page.removeEventListener.bind(page);
  try {
    askBeforeLeaving();
    expect(asks(page)).toBe(false);
    storage.value = "none";
    history.value = begin({ job: JOB, picture: 1, demo: true });
    expect(asks(page)).toBe(false);
    history.value = begin({ job: JOB, picture: 1, demo: false });
    expect(asks(page)).toBe(true);
    bundledJob.value = JOB;
    expect(asks(page)).toBe(false);
    history.value = begin({ job: { ...JOB, name: "Dune" }, picture: 1, demo: false });
    expect(asks(page)).toBe(true);
    storage.value = "kept";
    expect(asks(page)).toBe(false);
    keepingTrouble.value = "The browser's storage is full.";
    expect(asks(page)).toBe(true);
    // Another tab has the work.
    readOnly.value = true;
    expect(asks(page)).toBe(false);
  } finally {
    Object.assign(globalThis, { addEventListener, removeEventListener });
  }
});
