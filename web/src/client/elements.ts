/** The page's elements, by id and kind. */

export function element<K extends HTMLElement>(id: string, kind: { new (): K }): K {
  const found = document.getElementById(id);
  if (!(found instanceof kind)) throw new TypeError(`the page has no ${id}`);
  return found;
}

/** Show elements that need a running program. */
export function reveal(...ids: readonly string[]): void {
  for (const id of ids) element(id, HTMLElement).hidden = false;
}

/** A row of buttons, one of them pressed; `choose` gets the pressed button's word. */
export function pressable(id: string, key: "view" | "many", choose: (word: string) => void): (word: string) => void {
  const buttons = [...element(id, HTMLElement).querySelectorAll("button")];
  const press = (word: string): void => {
    for (const one of buttons) one.setAttribute("aria-pressed", String(one.dataset[key] === word));
  };
  for (const one of buttons) {
    one.addEventListener("click", () => {
      const word = one.dataset[key] ?? "";
      press(word);
      choose(word);
    });
  }
  return press;
}

/** Which variant is chosen, and word of every change. */
export function choices(chosen: (number: number) => void): () => number {
  const entries = [...document.querySelectorAll<HTMLInputElement>('input[name="choice"]')];
  const now = (): number =>
    Math.max(
      0,
      entries.findIndex((one) => one.checked),
    );
  for (const one of entries) one.addEventListener("change", () => chosen(now()));
  return now;
}
