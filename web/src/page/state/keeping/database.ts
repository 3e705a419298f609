// The browser's database for jobs, or nothing where the browser does not give one.
import { type IDBPDatabase, openDB } from "idb";
import type { KeepingSchema } from "./records";

export type Database = IDBPDatabase<KeepingSchema>;

const NAME = "tuckfold-jobs";
const VERSION = 1;
/** Some browsers refuse, some never answer; the page does not wait longer than this. */
export const ANSWER_MS = 4000;

/** Open the database; undefined where the browser refuses or does not answer in time. */
export async function openDatabase(
  wait_ms = ANSWER_MS,
  open: () => Promise<Database> = openJobs,
): Promise<Database | undefined> {
  const opening = opened(open);
  const answer = await within(opening, wait_ms);
  // One that answers too late is not used, and must not stand in another tab's way.
  if (answer === undefined) void opening.then((late) => late?.close());
  return answer;
}

async function opened(open: () => Promise<Database>): Promise<Database | undefined> {
  try {
    return await open();
  } catch (refused) {
    console.warn(refused);
    return undefined;
  }
}

/** The answer, or undefined when it has not come in time. */
export async function within<T>(answer: Promise<T>, wait_ms: number): Promise<T | undefined> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<undefined>((resolve) => {
    timer = setTimeout(() => resolve(undefined), wait_ms);
  });
  try {
    return await Promise.race([answer, late]);
  } finally {
    clearTimeout(timer);
  }
}

function openJobs(): Promise<Database> {
  return openDB<KeepingSchema>(NAME, VERSION, {
    upgrade(made) {
      made.createObjectStore("jobs", { keyPath: "id" });
      made.createObjectStore("states", { keyPath: "id" });
      // By job and number.
      made.createObjectStore("steps");
      made.createObjectStore("blobs");
      made.createObjectStore("leases", { keyPath: "id" });
    },
    blocking(_current, _blocked, event) {
      // A newer page wants to change the database.
      if (event.target instanceof IDBDatabase) event.target.close();
    },
  });
}
