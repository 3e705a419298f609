// What the viewer's modules find of the client's page, for tests that run without a browser.
import { vi } from "vitest";

/** An element as far as the viewer uses it. */
export class FakeElement extends EventTarget {
  value = "";
  defaultValue = "1";
  textContent = "";
  hidden = false;
  readOnly = false;
  files: readonly File[] = [];
  buttons: readonly FakeElement[] = [];
  readonly dataset: Record<string, string> = {};
  readonly style: Record<string, string> = {};
  get valueAsNumber(): number {
    return Number(this.value);
  }
  querySelectorAll(): readonly FakeElement[] {
    return this.buttons;
  }
  setAttribute(): void {}
  focus(): void {}
  select(): void {}
  click(): void {
    this.dispatchEvent(new Event("click"));
  }
}

/** Put such a page in the place of the document; returns the function that finds an element by its id. */
export function fakePage(): (id: string) => FakeElement {
  const all = new Map<string, FakeElement>();
  const at = (id: string): FakeElement => {
    const one = all.get(id) ?? new FakeElement();
    all.set(id, one);
    return one;
  };
  for (const kind of ["", "Input", "Select", "TextArea", "Button", "Pre"]) {
    vi.stubGlobal(`HTML${kind}Element`, FakeElement);
  }
  vi.stubGlobal("document", { getElementById: at });
  return at;
}

/** A row of buttons for so many words. */
export function buttonsFor(...words: readonly string[]): readonly FakeElement[] {
  return words.map((word) => {
    const button = new FakeElement();
    button.dataset["many"] = word;
    return button;
  });
}
