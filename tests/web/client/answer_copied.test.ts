import { beforeEach, expect, it, vi } from "vitest";
import { answering } from "../../../web/src/client/answer";
import type { Offer } from "../../../web/src/client/offer";
import { fakePage } from "./client_page";

const OFFER = {
  variants: [{ answer: ["I choose A."] }, { answer: ["I choose B."] }],
} as unknown as Offer;
const copied: ((ok: boolean) => void)[] = [];
const execCommand = vi.fn<() => boolean>(() => true);
const settled = () => new Promise((resolve) => setTimeout(resolve));
let page = fakePage();

beforeEach(() => {
  page = fakePage();
  copied.length = 0;
  execCommand.mockClear();
  Object.assign(document, { execCommand });
  vi.stubGlobal("navigator", {
    clipboard: {
      writeText: () =>
        new Promise<void>((resolve, reject) => {
          copied.push((ok) => (ok ? resolve() : reject(new Error("refused"))));
        }),
    },
  });
});

it.each([true, false])("says nothing of a copy once the text is another (copied: %s)", async (ok) => {
  const answer = answering(OFFER);
  answer.choose(0);
  page("copy").click();
  answer.choose(1);
  copied[0]?.(ok);
  await settled();
  expect(page("text").value).toContain("I choose B.");
  expect(page("said").textContent).toBe("");
  // The older command would copy what is selected by now.
  expect(execCommand).not.toHaveBeenCalled();
});

it("goes on saying so while the text stays", async () => {
  const answer = answering(OFFER);
  answer.choose(0);
  page("copy").click();
  copied[0]?.(true);
  await settled();
  answer.place([]);
  expect(page("said").textContent).toBe("The text is copied.");
});
