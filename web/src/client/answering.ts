/** The part of the page where the client answers. */

import { dayOf } from "../day";
import { answerText, copyFrom } from "./answer";
import { element, reveal } from "./elements";
import type { Offer } from "./offer";

const COPIED = "The text is copied.";
const NOT_COPIED = "Copying is not allowed here: the text is marked, copy it by hand.";

/** Keep the answer's text in step with what is entered; gives what is to be called when another is chosen. */
export function answering(offer: Offer): (number: number) => void {
  const [by, on] = [element("by", HTMLInputElement), element("on", HTMLInputElement)];
  const remarks = element("remarks", HTMLTextAreaElement);
  const text = element("text", HTMLTextAreaElement);
  const printed = element("printed", HTMLPreElement);
  const said = element("said", HTMLElement);
  let chosen = 0;
  const write = (): void => {
    const lines = offer.variants[chosen]?.answer ?? [];
    text.value = answerText({ lines, by: by.value, on: on.value, remarks: remarks.value });
    printed.textContent = text.value;
    said.textContent = "";
  };
  text.readOnly = true;
  on.value = dayOf(new Date());
  for (const one of [by, on, remarks]) one.addEventListener("input", write);
  element("copy", HTMLButtonElement).addEventListener("click", () => {
    void copyFrom(text).then((done) => {
      said.textContent = done ? COPIED : NOT_COPIED;
    });
  });
  element("print", HTMLButtonElement).addEventListener("click", () => window.print());
  reveal("entries", "hand");
  return (number) => {
    chosen = number;
    write();
  };
}
