// The current work, kept in the browser's database so that it survives a reload or a crash. Job and picture lie in
// one store under one key each and are written in one transaction, so that two tabs never mix theirs.
import { effect } from "@preact/signals";
import { createStore, get, promisifyRequest, setMany } from "idb-keyval";
import type { Face } from "../../../contract/types";
import { type ProfileFile, profileFile, profilesKept } from "../colour/profiles";
import { clientWords } from "./beside_job";
import { pictureFile } from "./pictures";
import { announce } from "../page/status";
import { history, type Work } from "./work";
import { say } from "../../../speech/on_page";

const WORK_KEY = "work";
const PICTURE_PREFIX = "picture:";
/** Of an earlier version, which kept the two apart. */
const FORMER_JOB_KEY = "job";
const FORMER_PICTURE_KEY = "picture";
const PROFILE_KEY = "profile";
const WAIT_MS = 250;

const store = createStore("keyval-store", "keyval");

/** The stored work: the job as text, which is checked like any file, and the picture's name and bytes. */
export interface Kept {
  readonly job: string;
  readonly picture?: { readonly name: string; readonly blob: Blob };
  /** The face that the page has proposed. */
  readonly proposed?: Face;
  /** To the client. */
  readonly words: string;
}

/** The record beside the job that leads to the picture. */
interface Stored {
  readonly job: string;
  /** The picture's key; empty where there is none. */
  readonly picture: string;
  readonly words: string;
  readonly proposed?: Face;
}

/** The work of the last visit, or nothing. */
export async function keptWork(): Promise<Kept | undefined> {
  const found = fieldsOf(await get<unknown>(WORK_KEY, store));
  const job = found.get("job");
  if (typeof job !== "string") return formerWork();
  const key = found.get("picture");
  const picture = typeof key === "string" && key !== "" ? asFile(await get<unknown>(key, store)) : undefined;
  const [words, proposed] = [found.get("words"), asFace(found.get("proposed"))];
  return {
    job,
    words: typeof words === "string" ? words : "",
    ...(picture === undefined ? {} : { picture }),
    ...(proposed === undefined ? {} : { proposed }),
  };
}

async function formerWork(): Promise<Kept | undefined> {
  const job = await get<unknown>(FORMER_JOB_KEY, store);
  if (typeof job !== "string") return undefined;
  const picture = asFile(await get<unknown>(FORMER_PICTURE_KEY, store));
  return { job, words: "", ...(picture === undefined ? {} : { picture }) };
}

/** The canvas profile of the last visit, or nothing. */
export async function keptProfile(): Promise<ProfileFile | undefined> {
  return asFile(await get<unknown>(PROFILE_KEY, store));
}

function asFile(stored: unknown): { readonly name: string; readonly blob: Blob } | undefined {
  const found = fieldsOf(stored);
  const [name, blob] = [found.get("name"), found.get("blob")];
  return typeof name === "string" && blob instanceof Blob ? { name, blob } : undefined;
}

function asFace(stored: unknown): Face | undefined {
  const found = fieldsOf(stored);
  const [width_mm, height_mm] = [found.get("width_mm"), found.get("height_mm")];
  return typeof width_mm === "number" && typeof height_mm === "number" ? { width_mm, height_mm } : undefined;
}

function fieldsOf(stored: unknown): ReadonlyMap<string, unknown> {
  return new Map(typeof stored === "object" && stored !== null ? Object.entries(stored) : []);
}

/** The key of a picture: its content, or, where that is not known, its number in this page. */
const unknownKeys = new Map<number, string>();
function keyOf(id: number): string {
  const file = pictureFile(id);
  if (file === undefined) return "";
  if (file.sha256 !== "") return PICTURE_PREFIX + file.sha256;
  const key = unknownKeys.get(id) ?? `${PICTURE_PREFIX}${Date.now()}-${Math.random()}`;
  unknownKeys.set(id, key);
  return key;
}

/** Write job and picture together; other pictures are let go of. */
async function writeWork({ job, picture, proposed }: Work, words: string): Promise<void> {
  const [key, file] = [keyOf(picture), pictureFile(picture)];
  const work: Stored = {
    job: JSON.stringify(job),
    picture: key,
    words,
    ...(proposed === undefined ? {} : { proposed }),
  };
  await store("readwrite", async (into) => {
    const keys = await promisifyRequest(into.getAllKeys());
    for (const other of keys) {
      const isFormer = other === FORMER_JOB_KEY || other === FORMER_PICTURE_KEY;
      const isPicture = typeof other === "string" && other.startsWith(PICTURE_PREFIX) && other !== key;
      if (isFormer || isPicture) into.delete(other);
    }
    // Another tab may have let go of it since.
    if (file !== undefined && !keys.includes(key)) into.put({ name: file.name, blob: file.blob }, key);
    into.put(work, WORK_KEY);
    return promisifyRequest(into.transaction);
  });
}

/** Keep the work when it changes. The demo is never kept. */
export function keepWork(): void {
  let waiting: ReturnType<typeof setTimeout> | undefined;
  let writing = Promise.resolve();
  let profile: ProfileFile | undefined;
  effect(() => {
    const work = history.value?.present.state;
    const words = clientWords.value;
    // A profile that the job has long named may be opened later than the job.
    void profilesKept.value;
    clearTimeout(waiting);
    if (work === undefined || work.demo) return;
    waiting = setTimeout(() => {
      writing = writing
        .then(async () => {
          await writeWork(work, words);
          const opened = profileFile(work.job.colour.profile);
          if (opened !== profile) await setMany([[PROFILE_KEY, opened]], store);
          profile = opened;
        })
        .catch((failure: unknown) => {
          console.error(failure);
          announce(
            say("This browser does not keep your work (its storage is full or switched off). Save the job to a file."),
          );
        });
    }, WAIT_MS);
  });
}
