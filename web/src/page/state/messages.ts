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
