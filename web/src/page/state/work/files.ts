// Files that the user opens and saves: pictures, job files, profiles, and the core's files.
import type { Job } from "../../../contract/types";
import { isProfileFile, openProfileFile } from "../colour/open_profile";
import { getCore } from "../core/connection";
import { asCoreError } from "../../../worker/errors";
import { setFieldError, clearFieldErrors } from "../page/fields";
import { fileName, keepPicture, withPicture } from "./pictures";
import { add } from "./run";
import { announce } from "../page/status";
import { firstWork, job, type Work } from "./work";

/** Open a picture, a job file or a canvas profile, chosen, dropped or pasted. */
export async function openFile(file: File): Promise<void> {
  if (/\.json$/i.test(file.name) || file.type === "application/json") await openJobFile(file);
  else if (isProfileFile(file)) await openProfileFile(file);
  else await openPictureFile(file);
}

async function openPictureFile(file: File): Promise<void> {
  clearFieldErrors("picture.file");
  const name = file.name || "pasted.png";
  try {
    // A copy: the file itself may change or go away on the disk while the page is open.
    const blob = new Blob([await file.arrayBuffer()], { type: file.type });
    const { demo } = await firstWork();
    const fresh = demo ? (await getCore().call("hello", {})).reply.job : undefined;
    const picture = keepPicture({ name, blob });
    const change = (now: Job): Work => withPicture(now, fresh, name, picture);
    await add({ kind: "picture", picture, label: `opening ${name}`, change });
  } catch (failure) {
    showFailure("picture.file", failure);
  }
}

async function openJobFile(file: File): Promise<void> {
  clearFieldErrors("job");
  try {
    const text = await file.text();
    const now = await firstWork();
    const { reply } = await getCore().call("check", { text });
    const work = { job: reply.job, picture: now.picture, demo: false };
    await add({ kind: "load", work, label: `opening ${file.name}` });
    const named = reply.job.picture.file;
    if (named !== "" && named !== now.job.picture.file) {
      announce(`The job is made for ${named}. Open that picture to see it.`);
    }
  } catch (failure) {
    showFailure("job", failure);
  }
}

function showFailure(place: string, failure: unknown): void {
  const { field, expected, got, remedy } = asCoreError(failure);
  setFieldError(place, { field: field === "" ? place : field, expected, got, remedy });
}

/** Save the job as a file; it holds no pixels. */
export function saveJob(): void {
  const now = job.value;
  if (now === undefined) return;
  const text = `${JSON.stringify(now, null, 2)}\n`;
  download(new Blob([text], { type: "application/json" }), `${fileName(now.name || "canvas")}.json`);
}

/** Hand a file to the browser's own downloads. */
export function download(blob: Blob, name: string): void {
  const url = URL.createObjectURL(blob);
  const link = document.createElement("a");
  link.href = url;
  link.download = name;
  link.click();
  // The browser reads the address after this turn; a minute is ample even for a slow disk.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}
