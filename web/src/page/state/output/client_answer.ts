// The client's answer: taken into the job as one step, or refused.
import { computed, signal } from "@preact/signals";
import { getCore } from "../core/connection";
import type { Note } from "../../../contract/types";
import { clearFieldErrors, fileFailure, setFieldError } from "../page/fields";
import { textOf } from "../page/read_file";
import { changesTo, setText } from "../work/edit";
import { propose, settledWork } from "../work/run";
import { job } from "../work/work";
import { say } from "../../../speech/on_page";

/** The place of an error about the pasted text. */
export const ANSWER = "answer";

/** A text that was pasted or opened and is not taken yet. */
export const answerDraft = signal("");

export interface Taken {
  /** The answer's first sentence. */
  readonly chosen: string;
  readonly changed: readonly string[];
  readonly notes: readonly Note[];
}

const taken = signal<(Taken & { readonly words: string }) | undefined>(undefined);

/** The answer that was taken last, as long as the job in hand has it. */
export const takenAnswer = computed<Taken | undefined>(() =>
  taken.value?.words === job.value?.answer ? taken.value : undefined,
);

/** More than an answer has, and little enough to read: the core counts the characters. */
const LARGEST_BYTES = 64 * 1024;

/** Pick what the text names, and keep the words with the job. */
export async function takeAnswer(text: string): Promise<void> {
  clearFieldErrors(ANSWER);
  taken.value = undefined;
  try {
    const now = await settledWork();
    if (now === undefined) return;
    const { reply } = await getCore().call("answer", { job: now.job, text });
    await propose({ field: ANSWER, label: say("the client's answer"), change: changesTo(now.job, reply.job) });
    taken.value = { ...reply, words: reply.job.answer };
    if (takenAnswer.value !== undefined) answerDraft.value = "";
  } catch (failure) {
    setFieldError(ANSWER, fileFailure(failure));
  }
}

export async function openAnswer(file: File): Promise<void> {
  clearFieldErrors(ANSWER);
  if (file.size > LARGEST_BYTES) {
    const message = say("The file {file} has {size} kB, which is no client's answer.", {
      file: file.name,
      size: Math.round(file.size / 1024),
    });
    const remedy = say("open the text that the client page gave");
    setFieldError(ANSWER, { field: ANSWER, message, remedy, kept: say("The job is as it was.") });
    return;
  }
  try {
    answerDraft.value = await textOf(file);
    await takeAnswer(answerDraft.value);
  } catch (failure) {
    setFieldError(ANSWER, fileFailure(failure));
  }
}

/** Leave the words out of the job; what they picked stays. */
export function forgetAnswer(): Promise<void> {
  return propose({ field: ANSWER, label: say("leaving out the answer"), change: setText({ answer: "" }) });
}
