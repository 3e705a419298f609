// What was wrong with what was typed, beside the field it is about.
import { signal } from "@preact/signals";

/** Expected, got and remedy, as the core says them. */
export interface FieldMessage {
  readonly field: string;
  readonly expected: string;
  readonly got: string;
  readonly remedy: string;
}

export const messages = signal<Readonly<Record<string, FieldMessage>>>({});

/** Rises when drafts no longer hold, since another job has taken the place of the one they were typed for. */
export const draftsDropped = signal(0);

export function say(place: string, message: FieldMessage): void {
  messages.value = { ...messages.value, [place]: message };
}

export function unsay(...fields: readonly string[]): void {
  if (!fields.some((field) => field in messages.value)) return;
  messages.value = Object.fromEntries(Object.entries(messages.value).filter(([field]) => !fields.includes(field)));
}

export function unsayAll(): void {
  messages.value = {};
  draftsDropped.value += 1;
}

/** The message as one sentence, for live regions. */
export function sentence(message: FieldMessage): string {
  return `Expected ${message.expected}; got ${message.got}. ${upper(message.remedy)}.`;
}

export function upper(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

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
