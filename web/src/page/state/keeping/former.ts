// What an earlier version of the page kept: one job, one picture and one profile. It becomes a job in the list.
import { createStore, delMany, get, keys } from "idb-keyval";
import type { Database } from "./database";
import type { PartEntry, StepEntry } from "./records";
import { nothingWritten, readJob, writeJob } from "./store";

const WORK_KEY = "work";
const PICTURE_PREFIX = "picture:";
/** Of the version before that, which kept the two apart. */
const EARLIER_JOB_KEY = "job";
const EARLIER_PICTURE_KEY = "picture";
const PROFILE_KEY = "profile";

/** The id of that job; always the same, so that two tabs make one job of it. */
export const FORMER_ID = "kept-before";

/** Take over what an earlier version kept, unless that is done. */
export async function takeOver(database: Database): Promise<void> {
  const store = createStore("keyval-store", "keyval");
  const work = fieldsOf(await get<unknown>(WORK_KEY, store));
  const job = work.get("job") ?? (await get<unknown>(EARLIER_JOB_KEY, store));
  if (typeof job !== "string") return;
  if ((await readJob(database, FORMER_ID)) === undefined) {
    const key = work.has("job") ? work.get("picture") : EARLIER_PICTURE_KEY;
    const picture = typeof key === "string" && key !== "" ? asFile(await get<unknown>(key, store)) : undefined;
    const profile = asFile(await get<unknown>(PROFILE_KEY, store));
    await write(database, job, work, picture, profile);
  }
  const old = (await keys(store)).filter((key) => typeof key === "string" && isOurs(key));
  await delMany(old, store);
}

function isOurs(key: string): boolean {
  return [WORK_KEY, EARLIER_JOB_KEY, EARLIER_PICTURE_KEY, PROFILE_KEY].includes(key) || key.startsWith(PICTURE_PREFIX);
}

interface NamedBlob {
  readonly name: string;
  readonly blob: Blob;
}

async function write(
  database: Database,
  job: string,
  work: ReadonlyMap<string, unknown>,
  picture: NamedBlob | undefined,
  profile: NamedBlob | undefined,
): Promise<void> {
  const blobs = new Map<string, Blob>();
  const parts: PartEntry[] = [];
  const add = (role: string, file: NamedBlob | undefined): string => {
    if (file === undefined) return "";
    const key = `${FORMER_ID}-${role}`;
    blobs.set(key, file.blob);
    parts.push({ role, name: file.name, key, bytes: file.blob.size });
    return key;
  };
  const [words, proposed] = [work.get("words"), asFace(work.get("proposed"))];
  const step: StepEntry = {
    job,
    picture: add("picture", picture),
    label: "",
    ...(proposed === undefined ? {} : { proposed }),
  };
  add("profile", profile);
  const face = fieldsOf(fieldsOf(parsed(job)).get("face"));
  const text = (value: unknown): string => (typeof value === "string" ? value : "");
  const length = (value: unknown): number => (typeof value === "number" ? value : 0);
  const entry = {
    id: FORMER_ID,
    name: text(fieldsOf(parsed(job)).get("name")),
    client: text(fieldsOf(parsed(job)).get("client")),
    width_mm: length(face.get("width_mm")),
    height_mm: length(face.get("height_mm")),
    panels: 1,
    changed_ms: Date.now(),
    parts,
  };
  const state = { id: FORMER_ID, steps: [1], present: 0, words: text(words) };
  await writeJob(database, { entry, state, steps: new Map([[1, step]]), blobs }, nothingWritten());
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (wrong) {
    if (wrong instanceof SyntaxError) return undefined;
    throw wrong;
  }
}

function asFile(stored: unknown): NamedBlob | undefined {
  const found = fieldsOf(stored);
  const [name, blob] = [found.get("name"), found.get("blob")];
  return typeof name === "string" && blob instanceof Blob ? { name, blob } : undefined;
}

function asFace(stored: unknown): StepEntry["proposed"] {
  const found = fieldsOf(stored);
  const [width_mm, height_mm] = [found.get("width_mm"), found.get("height_mm")];
  return typeof width_mm === "number" && typeof height_mm === "number" ? { width_mm, height_mm } : undefined;
}

function fieldsOf(stored: unknown): ReadonlyMap<string, unknown> {
  return new Map(typeof stored === "object" && stored !== null ? Object.entries(stored) : []);
}
