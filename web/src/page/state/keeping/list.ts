// The list of jobs on the page: open or closed, and what each of its buttons does.
import { signal } from "@preact/signals";
import { CoreError } from "../../../worker/client";
import { getCore } from "../core/connection";
import { clearFieldErrors, errorSentence, failureText, fieldErrors } from "../page/fields";
import { announce } from "../page/status";
import { download } from "../work/files";
import { fileOf } from "../output/making";
import { saveBundle } from "../output/bundle";
import { type BundleFile, bundleOf, wallFiles } from "./bundled";
import { jobName } from "./job_lines";
import { beginNew, keptRecord, openCopy, openKept, readJobs, remove } from "./jobs";
import { currentId, readOnly } from "./mode";
import type { JobEntry } from "./records";
import { measureRoom } from "./room";
import { flush } from "./save";
import { say } from "../../../speech/on_page";

export const listOpen = signal(false);
/** When it was opened, in ms since 1970. */
export const listOpened_ms = signal(0);
/** What is being done, in a word; the buttons wait for it. */
export const listBusy = signal(false);
/** Why the latest wish could not be met. */
export const listTrouble = signal("");
/** The job that the person has asked to delete and not yet confirmed. */
export const toDelete = signal<string | undefined>(undefined);

export async function openList(): Promise<void> {
  listTrouble.value = "";
  toDelete.value = undefined;
  await flush();
  await Promise.all([readJobs(), measureRoom()]);
  listOpened_ms.value = Date.now();
  listOpen.value = true;
}

export function closeList(): void {
  listOpen.value = false;
}

/** Do something for a button; what goes wrong is said in the list. */
async function doing(work: () => Promise<string | undefined>): Promise<void> {
  if (listBusy.peek()) return;
  listBusy.value = true;
  listTrouble.value = "";
  clearFieldErrors("job");
  try {
    listTrouble.value = (await work()) ?? "";
  } catch (failure) {
    if (!(failure instanceof CoreError)) console.error(failure);
    listTrouble.value = errorSentence(failureText(failure));
  } finally {
    listBusy.value = false;
  }
}

export const openFromList = (entry: JobEntry): Promise<void> =>
  doing(async () => {
    if (!(await openKept(entry.id))) {
      const why = fieldErrors.value["job"];
      return why === undefined
        ? say("{jobName} could not be opened. It is kept as it was.", { jobName: jobName(entry) })
        : errorSentence(why);
    }
    closeList();
    announce(
      readOnly.value
        ? say("{jobName} is open in another tab, so it can only be looked at here.", { jobName: jobName(entry) })
        : say("{jobName} is open.", { jobName: jobName(entry) }),
    );
    return undefined;
  });

export const beginFromList = (): Promise<void> =>
  doing(async () => {
    if (!(await beginNew())) return say("A new job could not be begun.");
    closeList();
    announce(say("A new job has begun. The job before it is kept under Jobs."));
    return undefined;
  });

export const copyFromList = (entry: JobEntry): Promise<void> =>
  doing(async () => {
    await openCopy(entry.id);
    closeList();
    return undefined;
  });

export const deleteFromList = (entry: JobEntry): Promise<void> =>
  doing(async () => {
    toDelete.value = undefined;
    const why = await remove(entry.id);
    await measureRoom();
    if (why === undefined) announce(say("{jobName} was deleted.", { jobName: jobName(entry) }));
    return why;
  });

/** Save a kept job with its files as one file. */
export const saveFromList = (entry: JobEntry): Promise<void> =>
  doing(async () => {
    if (entry.id === currentId.value) {
      await saveBundle();
      const why = fieldErrors.value["job"];
      return why === undefined ? undefined : errorSentence(why);
    }
    const record = await keptRecord(entry.id);
    const number = record?.state.steps[record.state.present];
    const step = record?.state.candidate ?? (number === undefined ? undefined : record?.steps.get(number));
    if (record === undefined || step === undefined)
      return say("{jobName} is no longer there.", { jobName: jobName(entry) });
    const { job } = (await getCore().call("check", { text: step.job })).reply;
    const files = record.entry.parts.flatMap(({ role, name, key, data }): BundleFile[] => {
      const blob = record.blobs.get(key);
      if (blob === undefined) return [];
      if (role === "wall") return wallFiles({ name, blob, ...(data === undefined ? {} : { data }) });
      const wanted = role === "picture" ? key === step.picture : role === "profile" && name === job.colour.profile;
      return wanted && isRole(role) ? [{ role, name, blob }] : [];
    });
    if (!files.some(({ role }) => role === "picture"))
      return say("{jobName} has no picture, so it is no bundle. Open it and save the job instead.", {
        jobName: jobName(entry),
      });
    const { reply, buffers } = await bundleOf(job, files);
    download(fileOf(reply.parts, buffers, "application/zip"), reply.report.file);
    announce(say("{file} was saved and opened again.", { file: reply.report.file }));
    return undefined;
  });

function isRole(role: string): role is "picture" | "profile" {
  return role === "picture" || role === "profile";
}
