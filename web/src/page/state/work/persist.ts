// The current work, kept in the browser's database so that it survives a reload or a crash.
import { effect } from "@preact/signals";
import { get, setMany } from "idb-keyval";
import { type ProfileFile, profileFile, profilesKept } from "../colour/profiles";
import { pictureFile } from "./pictures";
import { announce } from "../page/status";
import { history } from "./work";

const JOB_KEY = "job";
const PICTURE_KEY = "picture";
const PROFILE_KEY = "profile";
const WAIT_MS = 250;

/** The stored work: the job as text, which is checked like any file, and the picture's name and bytes. */
export interface Kept {
  readonly job: string;
  readonly name: string;
  readonly blob: Blob;
}

/** The work of the last visit, or nothing. */
export async function keptWork(): Promise<Kept | undefined> {
  const [job, stored] = await Promise.all([get<unknown>(JOB_KEY), get<unknown>(PICTURE_KEY)]);
  if (typeof job !== "string" || typeof stored !== "object" || stored === null) return undefined;
  if (!("name" in stored) || !("blob" in stored)) return undefined;
  const { name, blob } = stored;
  return typeof name === "string" && blob instanceof Blob ? { job, name, blob } : undefined;
}

/** The canvas profile of the last visit, or nothing. */
export async function keptProfile(): Promise<ProfileFile | undefined> {
  const stored = await get<unknown>(PROFILE_KEY);
  if (typeof stored !== "object" || stored === null || !("name" in stored) || !("blob" in stored)) return undefined;
  const { name, blob } = stored;
  return typeof name === "string" && blob instanceof Blob ? { name, blob } : undefined;
}

/** Keep the work when it changes. The demo is never kept. */
export function keepWork(): void {
  let waiting: ReturnType<typeof setTimeout> | undefined;
  let writing = Promise.resolve();
  let keptPicture = 0;
  let profile: ProfileFile | undefined;
  effect(() => {
    const work = history.value?.present.state;
    // A profile that the job has long named may be opened later than the job.
    void profilesKept.value;
    clearTimeout(waiting);
    if (work === undefined || work.demo) return;
    waiting = setTimeout(() => {
      writing = writing
        .then(async () => {
          const entries: [string, unknown][] = [[JOB_KEY, JSON.stringify(work.job)]];
          if (work.picture !== keptPicture) entries.push([PICTURE_KEY, pictureFile(work.picture)]);
          const opened = profileFile(work.job.colour.profile);
          if (opened !== profile) entries.push([PROFILE_KEY, opened]);
          await setMany(entries);
          keptPicture = work.picture;
          profile = opened;
        })
        .catch((failure: unknown) => {
          console.error(failure);
          announce(
            "This browser does not keep the work in hand (its storage is full or switched off): save the job to a file.",
          );
        });
    }, WAIT_MS);
  });
}
