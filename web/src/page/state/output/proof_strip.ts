// The proof strip: saved with its values, and what a device measured on it.
import { signal } from "@preact/signals";
import type { StripCheck, StripReport } from "../../../contract/types";
import { dayOf } from "../../../day";
import { openProfileInCore } from "../colour/profiles";
import { getCore } from "../core/connection";
import { fileFailure, type FieldError } from "../page/fields";
import { bytesIn, textOf } from "../page/read_file";
import { download } from "../work/files";
import { Maker } from "./making";
import { say } from "../../../speech/on_page";

export const proofStrip = new Maker<StripReport>();

/** The values that the profile promises for a strip. */
export interface ExpectedValues {
  readonly file: string;
  readonly text: string;
}

/** Of the strip that was saved last, or as they were opened. */
export const expectedValues = signal<ExpectedValues | undefined>(undefined);

export type MeasuredState =
  | { readonly state: "none" }
  | { readonly state: "read"; readonly file: string; readonly check: StripCheck }
  | { readonly state: "refused"; readonly why: FieldError };

export const measuredStrip = signal<MeasuredState>({ state: "none" });

/** The core takes no more; the page need not read it first. */
const LARGEST_BYTES = 4 * 1024 * 1024;

/** Save the strip of the current job, and beside it its values. */
export function saveStrip(): Promise<void> {
  return proofStrip.run(async ({ now, ask, deliver }) => {
    await openProfileInCore(now.job.colour.profile);
    const params = { job: now.job, date: dayOf(new Date()) };
    const answer = await ask("strip", params);
    const { report, values } = answer.reply;
    expectedValues.value = { file: report.values_file, text: values };
    measuredStrip.value = { state: "none" };
    deliver(answer, "image/tiff");
    saveExpectedValues();
  });
}

export function saveExpectedValues(): void {
  const values = expectedValues.value;
  if (values !== undefined) download(new Blob([values.text], { type: "text/plain" }), values.file);
}

/** Open the values that were saved beside a strip, for example in an earlier session. */
export async function openExpectedValues(file: File): Promise<void> {
  if (tooLarge(file)) return;
  try {
    const text = await textOf(file);
    // A strip that measures what was promised: the core reads the file in full, and refuses what is none.
    await getCore().call("measure_strip", { expected: text }, { buffer: await bytesIn(file) });
    expectedValues.value = { file: file.name, text };
    measuredStrip.value = { state: "none" };
  } catch (failure) {
    measuredStrip.value = { state: "refused", why: fileFailure(failure) };
  }
}

/** Open what a device measured on the strip and compare it with what the profile promised. */
export async function openMeasuredValues(file: File): Promise<void> {
  const expected = expectedValues.value;
  if (expected === undefined || tooLarge(file)) return;
  try {
    const buffer = await bytesIn(file);
    const { reply } = await getCore().call("measure_strip", { expected: expected.text }, { buffer });
    measuredStrip.value = { state: "read", file: file.name, check: reply };
  } catch (failure) {
    measuredStrip.value = { state: "refused", why: fileFailure(failure) };
  }
}

function tooLarge(file: File): boolean {
  if (file.size <= LARGEST_BYTES) return false;
  const message = say("The file {file} has {size} MB; the values of a strip have at most 4 MB.", {
    file: file.name,
    size: Math.round(file.size / 1e6),
  });
  measuredStrip.value = {
    state: "refused",
    why: { field: "", message, remedy: say("choose the file with the values"), kept: say("The job is as it was.") },
  };
  return true;
}
