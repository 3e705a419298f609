// Jobs in the database: written, read, listed, copied and deleted. Each of these is one transaction, so that no reader
// meets one job's fields with another's picture.
import type { Database } from "./database";
import type { JobEntry, StateEntry, StepEntry } from "./records";

/** A job as it is written: its entries, and the bytes that they name. */
export interface JobRecord {
  readonly entry: JobEntry;
  readonly state: StateEntry;
  /** All steps that `state` names, by number. */
  readonly steps: ReadonlyMap<number, StepEntry>;
  /** All bytes that the entries name, by key. */
  readonly blobs: ReadonlyMap<string, Blob>;
}

/** What this page knows to be in the database. */
export interface Written {
  readonly steps: Map<string, Set<number>>;
  readonly blobs: Set<string>;
}

export const nothingWritten = (): Written => ({ steps: new Map(), blobs: new Set() });

const STORES = ["jobs", "states", "steps", "blobs"] as const;
const MOST = Number.MAX_SAFE_INTEGER;

/** Bytes without a job are let go of when they are older than this. */
const ORPHAN_MS = 24 * 60 * 60 * 1000;

/**
 * Write a job. Everything is asked for and committed before this returns, so that it is kept even if the page goes away
 * in this moment. A write that still waited for its page to commit would be given up then, and hold up the next.
 */
export async function writeJob(
  database: Database,
  { entry, state, steps, blobs }: JobRecord,
  written: Written,
): Promise<void> {
  const { id } = entry;
  const known = written.steps.get(id) ?? new Set();
  const newBlobs = [...blobs].filter(([key]) => !written.blobs.has(key));
  const writing = database.transaction(STORES, "readwrite");
  const asked: Promise<unknown>[] = [];
  try {
    for (const [key, blob] of newBlobs) {
      asked.push(writing.objectStore("blobs").put({ blob, added_ms: Date.now() }, key));
    }
    for (const [number, step] of steps) {
      if (!known.has(number)) asked.push(writing.objectStore("steps").put(step, [id, number]));
    }
    for (const number of known) if (!steps.has(number)) asked.push(writing.objectStore("steps").delete([id, number]));
    asked.push(writing.objectStore("states").put(state));
    asked.push(writing.objectStore("jobs").put(entry));
    writing.commit();
  } catch (failure) {
    // What was asked for before must not be kept without the rest.
    writing.abort();
    await Promise.allSettled([...asked, writing.done]);
    throw failure;
  }
  // Known from here on, since transactions run in the order in which they were begun.
  written.steps.set(id, new Set(steps.keys()));
  for (const [key] of newBlobs) written.blobs.add(key);
  try {
    await Promise.all([...asked, writing.done]);
  } catch (failure) {
    // Every request of a transaction that was given up fails.
    await Promise.allSettled([...asked, writing.done]);
    written.steps.delete(id);
    for (const [key] of newBlobs) written.blobs.delete(key);
    throw failure;
  }
}

/** Which of some bytes are not there: another tab may have deleted a job with the same picture. They are to be written. */
export async function lackingBlobs(
  database: Database,
  keys: Iterable<string>,
  written: Written,
): Promise<readonly string[]> {
  const there = new Set(await database.getAllKeys("blobs"));
  const lacking = [...keys].filter((key) => !there.has(key));
  for (const key of lacking) written.blobs.delete(key);
  return lacking;
}

/** Keep bytes before the job that will name them is known. */
export async function writeBlob(database: Database, key: string, blob: Blob, written: Written): Promise<void> {
  const writing = database.transaction("blobs", "readwrite");
  const put = writing.store.put({ blob, added_ms: Date.now() }, key);
  writing.commit();
  await Promise.all([put, writing.done]);
  written.blobs.add(key);
}

/** A job with all that it names; undefined where there is none of this id. */
export async function readJob(database: Database, id: string): Promise<JobRecord | undefined> {
  const reading = database.transaction(STORES, "readonly");
  const ofJob = IDBKeyRange.bound([id, 0], [id, MOST]);
  const [entry, state, numbers, all] = await Promise.all([
    reading.objectStore("jobs").get(id),
    reading.objectStore("states").get(id),
    reading.objectStore("steps").getAllKeys(ofJob),
    reading.objectStore("steps").getAll(ofJob),
  ]);
  if (entry === undefined || state === undefined) return undefined;
  const keys = new Set(entry.parts.map(({ key }) => key));
  const found = await Promise.all(
    [...keys].map(async (key) => [key, (await reading.objectStore("blobs").get(key))?.blob] as const),
  );
  const blobs = new Map(found.flatMap(([key, blob]) => (blob === undefined ? [] : [[key, blob] as const])));
  const steps = new Map(
    numbers.flatMap(([, number], place) => {
      const step = all[place];
      return step === undefined ? [] : [[number, step] as const];
    }),
  );
  return { entry, state, steps, blobs };
}

/** All jobs, the latest first. */
export async function listJobs(database: Database): Promise<readonly JobEntry[]> {
  const all = await database.getAll("jobs");
  return all.toSorted((one, other) => other.changed_ms - one.changed_ms || one.id.localeCompare(other.id));
}

/** Copy a job under another id; the bytes lie there once. Returns whether there was such a job. */
export async function copyJob(database: Database, from: string, to: string, name: string): Promise<boolean> {
  const record = await readJob(database, from);
  if (record === undefined) return false;
  const entry = { ...record.entry, id: to, name, changed_ms: Date.now() };
  await writeJob(database, { ...record, entry, state: { ...record.state, id: to } }, nothingWritten());
  return true;
}

/** Delete a job and the bytes that no other job names. */
export async function deleteJob(database: Database, id: string): Promise<void> {
  const writing = database.transaction(STORES, "readwrite");
  const all = await writing.objectStore("jobs").getAll();
  const gone = all.find((entry) => entry.id === id);
  const named = new Set(all.flatMap((entry) => (entry.id === id ? [] : entry.parts.map(({ key }) => key))));
  const free = (gone?.parts ?? []).filter(({ key }) => !named.has(key));
  await Promise.all([
    writing.objectStore("jobs").delete(id),
    writing.objectStore("states").delete(id),
    writing.objectStore("steps").delete(IDBKeyRange.bound([id, 0], [id, MOST])),
    ...free.map(({ key }) => writing.objectStore("blobs").delete(key)),
    writing.done,
  ]);
}

/** Let go of bytes that no job names and that no tab has added lately. */
export async function sweep(database: Database, now_ms = Date.now()): Promise<void> {
  const writing = database.transaction(STORES, "readwrite");
  const [all, keys] = await Promise.all([
    writing.objectStore("jobs").getAll(),
    writing.objectStore("blobs").getAllKeys(),
  ]);
  const named = new Set(all.flatMap(({ parts }) => parts.map(({ key }) => key)));
  for (const key of keys) {
    if (named.has(key)) continue;
    const entry = await writing.objectStore("blobs").get(key);
    if (entry !== undefined && now_ms - entry.added_ms > ORPHAN_MS) await writing.objectStore("blobs").delete(key);
  }
  await writing.done;
}
