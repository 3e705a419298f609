// Files that come in and go out: pictures, job files, and what the core has written.
import type { Job } from "../../../contract/types";
import { isProfileFile, takeProfile } from "../colour/open_profile";
import { theCore } from "../core/connection";
import { asCoreError } from "../../../worker/errors";
import { say, unsay } from "../page/fields";
import { fileName, keepPicture, withPicture } from "./pictures";
import { add } from "./run";
import { tell } from "../page/status";
import { firstWork, job, type Work } from "./work";

/** A picture, a job file or a canvas profile, by whatever way it came. */
export async function takeFile(file: File): Promise<void> {
  if (/\.json$/i.test(file.name) || file.type === "application/json") await takeJob(file);
  else if (isProfileFile(file)) await takeProfile(file);
  else await takePicture(file);
}

async function takePicture(file: File): Promise<void> {
  unsay("picture.file");
  const name = file.name || "pasted.png";
  try {
    // A copy: the file itself may change or go away on the disk while the page is open.
    const blob = new Blob([await file.arrayBuffer()], { type: file.type });
    const { demo } = await firstWork();
    const fresh = demo ? (await theCore().call("hello", {})).reply.job : undefined;
    const picture = keepPicture({ name, blob });
    const change = (now: Job): Work => withPicture(now, fresh, name, picture);
    await add({ kind: "picture", picture, label: `opening ${name}`, change });
  } catch (failure) {
    sayFailure("picture.file", failure);
  }
}

async function takeJob(file: File): Promise<void> {
  unsay("job");
  try {
    const text = await file.text();
    const now = await firstWork();
    const { reply } = await theCore().call("check", { text });
    const work = { job: reply.job, picture: now.picture, demo: false };
    await add({ kind: "load", work, label: `opening ${file.name}` });
    const named = reply.job.picture.file;
    if (named !== "" && named !== now.job.picture.file) {
      tell(`The job is made for ${named}. Open that picture to see it.`);
    }
  } catch (failure) {
    sayFailure("job", failure);
  }
}

function sayFailure(place: string, failure: unknown): void {
  const { field, expected, got, remedy } = asCoreError(failure);
  say(place, { field: field === "" ? place : field, expected, got, remedy });
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
