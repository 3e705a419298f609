// A tab that only looks at a job shows what the tab that writes it has kept.
import { clientWords } from "../work/beside_job";
import { add } from "../work/run";
import { work } from "../work/work";
import type { Database } from "./database";
import { keyOf } from "./keys";
import { loadedJob } from "./load";
import { currentId, readOnly } from "./mode";
import { type Part, parts } from "./parts";
import { readJob } from "./store";

/** Tells other tabs which job was written. */
const CHANNEL = "tuckfold-written";

let channel: BroadcastChannel | undefined;
let database: Database | undefined;
/** Counts the jobs that are being opened: what is read meanwhile of the one before is let go. */
let openings = 0;
let reading: Promise<void> | undefined;
/** The job has been written since it was read. */
let isStale = false;

/** Follow the other tabs from now on. A hidden tab follows when it is looked at again. */
export function startFollowing(from: Database): void {
  database = from;
  if (!("BroadcastChannel" in globalThis)) return;
  channel = new BroadcastChannel(CHANNEL);
  channel.onmessage = ({ data }) => {
    if (data === currentId.peek()) follow();
  };
  document.addEventListener("visibilitychange", () => {
    if (isStale) follow();
  });
}

/** Tell the tabs that look at a job that it was written. */
export function tellWritten(id: string): void {
  channel?.postMessage(id);
}

/** A job is being opened in this tab, or has become its own: it is not followed meanwhile. */
export function endFollowing(): void {
  openings += 1;
  isStale = false;
}

function follow(): void {
  isStale = readOnly.peek();
  if (!isStale || document.visibilityState === "hidden") return;
  reading ??= readAnew()
    .catch((failure: unknown) => console.warn(failure))
    .finally(() => {
      reading = undefined;
      if (isStale) follow();
    });
}

async function readAnew(): Promise<void> {
  const id = currentId.peek();
  isStale = false;
  if (database === undefined || id === undefined) return;
  const opening = openings;
  const record = await readJob(database, id);
  // Only the present step is shown here; the others come with the job once this tab may change it.
  const loaded = record && (await loadedJob(record, false));
  if (loaded === undefined || opening !== openings || !readOnly.peek()) return;
  const { state, label } = loaded.history.present;
  const opened = (): void => {
    clientWords.value = loaded.words;
    parts.value = sameParts(parts.peek(), loaded.parts) ? parts.peek() : loaded.parts;
  };
  const now = work.peek();
  const isShown = now?.picture === state.picture && JSON.stringify(now.job) === JSON.stringify(state.job);
  if (isShown) opened();
  else await add({ kind: "load", work: state, label, history: loaded.history, opened });
}

/** Whether the parts have the same bytes and texts; blobs that are read anew are other objects. */
function sameParts(one: Readonly<Record<string, Part>>, other: Readonly<Record<string, Part>>): boolean {
  const textOf = (all: Readonly<Record<string, Part>>): string =>
    JSON.stringify(Object.entries(all).map(([role, { name, blob, data }]) => [role, name, keyOf(blob), data]));
  return textOf(one) === textOf(other);
}
