// Going to a field of the job: what a note says would mend it.

/** The id of the element that edits a field. */
export function fieldId(field: string): string {
  return `field-${field.replace(/[^a-z0-9]+/gi, "-")}`;
}

/** Bring a field into view and put the cursor there; its nearest relative where it has no place of its own. */
export function focusField(field: string): void {
  for (let at = field; at !== ""; at = at.slice(0, Math.max(0, at.lastIndexOf(".")))) {
    const found = document.getElementById(fieldId(at)) ?? document.querySelector(`[data-field^="${at}"]`);
    if (found instanceof HTMLElement) {
      reveal(found);
      return;
    }
  }
}

function reveal(found: HTMLElement): void {
  for (let up: HTMLElement | null = found; up !== null; up = up.parentElement) {
    if (up instanceof HTMLDetailsElement) up.open = true;
  }
  const inner = found.matches("input, select, textarea, button, [tabindex]")
    ? found
    : found.querySelector<HTMLElement>("input:checked, input, select, textarea, button, [tabindex]");
  const target = inner ?? found;
  target.focus({ preventScroll: true });
  const smooth = !matchMedia("(prefers-reduced-motion: reduce)").matches;
  target.scrollIntoView({ block: "center", behavior: smooth ? "smooth" : "auto" });
}
