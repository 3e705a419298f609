/** The client's answer: a text to copy or to print. */
import { dayOf } from "../day";
import { element, reveal } from "./elements";
import type { Offer } from "./offer";
import { mark, say } from "../speech/say";

export interface AnswerParts {
  /** Of the chosen variant. */
  readonly lines: readonly string[];
  readonly by: string;
  readonly on: string;
  readonly remarks: string;
}

export function answerText({ lines, by, on, remarks }: AnswerParts): string {
  const trimmedRemarks = remarks.trim();
  const end = trimmedRemarks === "" ? [] : ["", `${say("Remarks")}: ${trimmedRemarks}`];
  return [
    ...lines,
    "",
    `${say("Name")}: ${by.trim()}`.trimEnd(),
    `${say("Date")}: ${on.trim()}`.trimEnd(),
    ...end,
  ].join("\n");
}

/**
 * Copy a text to the clipboard; resolves to whether that was allowed. The text stays selected for copying by keyboard.
 * `isLatest` says whether it is still the text that was asked for.
 */
async function copyFrom(area: HTMLTextAreaElement, isLatest: () => boolean): Promise<boolean> {
  area.focus();
  area.select();
  try {
    await navigator.clipboard.writeText(area.value);
    return true;
  } catch {
    // By now something else may be selected.
    if (!isLatest()) return false;
    // Not every browser gives its clipboard to a page from the disk; its older command copies the selection.
    // oxlint-disable-next-line typescript/no-deprecated -- nothing else copies where the clipboard is refused
    return document.execCommand("copy");
  }
}

const COPIED = mark("The text is copied.");
const NOT_COPIED = mark("Copying is not allowed here: the text is marked, copy it by hand.");

/** What an answer follows beside the entries. */
export interface Answering {
  /** Another variant is chosen. */
  readonly choose: (number: number) => void;
  /** Size and place on a photographed wall; none where the client has looked at none. */
  readonly place: (lines: readonly string[]) => void;
}

/** Keep the answer's text in step with the entries. */
export function answering(offer: Offer): Answering {
  const [by, on] = [element("by", HTMLInputElement), element("on", HTMLInputElement)];
  const remarks = element("remarks", HTMLTextAreaElement);
  const text = element("text", HTMLTextAreaElement);
  const printed = element("printed", HTMLPreElement);
  const status = element("said", HTMLElement);
  let chosen = 0;
  /** Which copy of the text is asked for; what comes late of an earlier one, or of an earlier text, is not said. */
  let copies = 0;
  let written: string | undefined;
  let place: readonly string[] = [];
  const write = (): void => {
    const lines = [...(offer.variants[chosen]?.answer ?? []), ...place];
    const next = answerText({ lines, by: by.value, on: on.value, remarks: remarks.value });
    if (next === written) return;
    text.value = written = next;
    copies += 1;
    printed.textContent = text.value;
    status.textContent = "";
  };
  text.readOnly = true;
  on.value = dayOf(new Date());
  for (const one of [by, on, remarks]) one.addEventListener("input", write);
  element("copy", HTMLButtonElement).addEventListener("click", () => {
    copies += 1;
    const mine = copies;
    void copyFrom(text, () => mine === copies).then((done) => {
      if (mine === copies) status.textContent = say(done ? COPIED : NOT_COPIED);
    });
  });
  element("print", HTMLButtonElement).addEventListener("click", () => window.print());
  reveal("entries", "hand");
  return {
    choose(number) {
      chosen = number;
      write();
    },
    place(said) {
      place = said;
      write();
    },
  };
}
