// The job's fields on the page: errors beside them, and moving the focus to them.
import { signal } from "@preact/signals";
import { asCoreError } from "../../../worker/errors";
import { fieldName } from "./names";
import { unit } from "./settings";
import { say } from "../../../speech/on_page";

/** What is wrong and what to do, as the core words its errors. */
export interface FieldError {
  /** Empty where it is about no field. */
  readonly field: string;
  /** A sentence. */
  readonly message: string;
  readonly remedy: string;
  /** A sentence about what is as it was, where a file was refused. */
  readonly kept?: string;
}

export const fieldErrors = signal<Readonly<Record<string, FieldError>>>({});

/** Rises when another job replaces the one that the drafts were typed for. */
export const draftsDropped = signal(0);

export function setFieldError(place: string, message: FieldError): void {
  fieldErrors.value = { ...fieldErrors.value, [place]: message };
}

export function clearFieldErrors(...fields: readonly string[]): void {
  if (!fields.some((field) => field in fieldErrors.value)) return;
  fieldErrors.value = Object.fromEntries(
    Object.entries(fieldErrors.value).filter(([field]) => !fields.includes(field)),
  );
}

export function clearAllFieldErrors(): void {
  fieldErrors.value = {};
  draftsDropped.value += 1;
}

/** The error with its remedy, for live regions. */
export function errorSentence({ message, remedy, kept }: FieldError): string {
  return [message, kept, `${capitalised(remedy)}.`].filter((part) => part !== undefined).join(" ");
}

/** Why a file was refused, and that the job did not change. */
export function fileFailure(failure: unknown, kept = say("The job is as it was.")): FieldError {
  return { ...failureText(failure), kept };
}

/**
 * Why a call failed, in the core's own words. The core says a refused length without its unit, mm; where the page
 * shows inches the unit stands behind it, so that it is shown in them too.
 */
export function failureText(failure: unknown): FieldError {
  const { field, message, expected, got, remedy } = asCoreError(failure);
  // Alone, or in one of several variants.
  const [length] = / mm$/.test(expected) ? (/^-?[\d.,]*\d(?=$| in )/.exec(got) ?? []) : [];
  const at = message.lastIndexOf(got);
  if (length === undefined || at < 0 || unit.peek() !== "inch") return { field, message, remedy };
  const end = at + length.length;
  return { field, message: `${message.slice(0, end)} mm${message.slice(end)}`, remedy };
}

/** The error of an entry that the page itself cannot read, worded as the core words its own. */
export function entryError(field: string, expected: string, got: string, remedy: string): FieldError {
  return {
    field,
    message: say("{fieldName} must be {expected}; you gave {got}.", {
      fieldName: capitalised(fieldName(field)),
      expected,
      got,
    }),
    remedy,
  };
}

/** What was typed, in the language's quotation marks. */
export function quoted(typed: string): string {
  return typed.trim() === "" ? say("nothing") : say("“{typed:s}”", { typed });
}

export function capitalised(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

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
