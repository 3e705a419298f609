// The kept jobs: opened, begun, copied, deleted; and which of them this tab may change.
import { signal } from "@preact/signals";
import type { Job } from "../../../contract/types";
import { compare, endComparison } from "../compare/comparison";
import { getCore } from "../core/connection";
import { showWrittenView } from "../first_view/first_view";
import { fieldErrors } from "../page/fields";
import { announce } from "../page/status";
import { setPins } from "../plan/cutting";
import { choose } from "../plan/options";
import { clientWords } from "../work/beside_job";
import type { History } from "../work/history";
import { NO_PICTURE } from "../work/pictures";
import { add } from "../work/run";
import { history, type Work } from "../work/work";
import { type Database, openDatabase } from "./database";
import { takeOver } from "./former";
import { copyName, jobName } from "./job_lines";
import { endFollowing, startFollowing, tellWritten } from "./follow";
import { type Loaded, loadedJob, newHistory } from "./load";
import { currentId, readOnly, storage } from "./mode";
import { parts } from "./parts";
import { type JobEntry, VIEW } from "./records";
import { askToStay, watchRoom } from "./room";
import { flush, forgetSaved, isUnsaved, recordSaved, startSaving } from "./save";
import { startSmallPictures } from "./small";
import { copyJob, deleteJob, type JobRecord, listJobs, readJob, sweep } from "./store";
import { browserClaimer, type Claim, type Claimer, randomId } from "./writer";
import { say } from "../../../speech/on_page";

/** The tab's own job outlives a reload. */
const TAB_KEY = "tuckfold-job";
const DEMO = "demo";
/** Tells other tabs that the list has changed. */
const CHANNEL = "tuckfold-jobs";

let database: Database | undefined;
let claimer: Claimer | undefined;
let claim: Claim | undefined;
/** Set once the page keeps what changes. */
let keeping = false;
let channel: BroadcastChannel | undefined;

/** The jobs as they were last read. */
export const jobs = signal<readonly JobEntry[]>([]);

/** Open the browser's storage, and take over what an earlier version kept. */
export async function openStorage(): Promise<void> {
  if (database !== undefined) return;
  database = await openDatabase();
  if (database === undefined) {
    storage.value = "none";
    return;
  }
  try {
    await takeOver(database);
  } catch (failure) {
    console.warn(failure);
  }
  claimer = await browserClaimer(database);
  storage.value = "kept";
  if ("BroadcastChannel" in globalThis) {
    channel = new BroadcastChannel(CHANNEL);
    channel.onmessage = () => void readJobs();
  }
  void sweep(database);
}

/** Keep the job in hand from now on. */
export function startKeeping(): void {
  if (database === undefined || keeping) return;
  keeping = true;
  // A page that comes back as it was has let go of its job meanwhile.
  addEventListener("pageshow", ({ persisted }) => {
    if (persisted) location.reload();
  });
  startSmallPictures();
  startFollowing(database);
  startSaving(database, {
    begin: beginJob,
    mayWrite: (id) => id !== currentId.peek() || claim?.isSure() !== false,
    wrote: tellWritten,
  });
  watchRoom();
}

/** The job that this tab showed last, or the one that was changed last. */
export async function jobToOpen(): Promise<string | undefined> {
  if (database === undefined) return undefined;
  await readJobs();
  const own = tabJob();
  if (own === DEMO) return undefined;
  return jobs.value.find(({ id }) => id === own)?.id ?? jobs.value[0]?.id;
}

/** Read the list anew. */
export async function readJobs(): Promise<void> {
  if (database !== undefined) jobs.value = await listJobs(database);
}

/** A job of one's own has begun on the demo. Its id is new, so no other tab can hold it. */
function beginJob(): string {
  const id = randomId();
  setCurrent(id);
  void claimFor(id).then((made) => {
    claim?.release();
    claim = made;
  });
  void askToStay();
  return id;
}

/** Open a kept job; whether it could be. `change` makes the first step in it. */
export async function openKept(id: string, change?: (job: Job) => Job): Promise<boolean> {
  if (database === undefined) return false;
  await flush();
  const next = await claimFor(id);
  const { held } = next;
  const shown = (await shownKept(id, held, true, change)) || (await shownKept(id, held, false, change));
  if (!shown) {
    next.release();
    return false;
  }
  claim?.release();
  claim = next;
  // The other tab may have let go of the job while it was being opened here; it may have written it before that.
  if (!held && next.held) await takeUp(id);
  return true;
}

async function shownKept(
  id: string,
  held: boolean,
  candidate: boolean,
  change: ((job: Job) => Job) | undefined,
): Promise<boolean> {
  if (database === undefined) return false;
  endFollowing();
  const record = await readJob(database, id);
  const view = record && viewOf(record);
  if (view !== undefined) void showWrittenView(view);
  const loaded = record && (await loadedJob(record, candidate));
  if (loaded === undefined) return false;
  const { present } = loaded.history;
  const state: Work = change === undefined ? present.state : { ...present.state, job: change(present.state.job) };
  const from: History<Work> = change === undefined ? loaded.history : newHistory(state);
  const outcome = { shown: false };
  const opened = (): void => {
    outcome.shown = true;
    setCurrent(id);
    readOnly.value = !held;
    setBeside(loaded);
    if (change === undefined && loaded.history.past.length === 0) recordSaved(id);
  };
  await add({ kind: "load", work: state, label: present.label, history: from, opened });
  if (outcome.shown && change === undefined) await extendHistory(id, loaded);
  return outcome.shown;
}

/** The canvas of the state that is opened, where it was written. */
function viewOf({ entry, state, blobs }: JobRecord): Blob | undefined {
  const part = state.candidate === undefined ? entry.parts.find(({ role }) => role === VIEW) : undefined;
  return part && blobs.get(part.key);
}

function setBeside({ words, comparison, parts: kept }: Pick<Loaded, "words" | "comparison" | "parts">): void {
  clientWords.value = words;
  parts.value = kept;
  endComparison();
  // Both are of the order of one job.
  setPins([]);
  choose({ copies: 1 });
  if (comparison !== undefined) compare(comparison);
}

/** The rest of the history comes after the job is shown, so that it delays nothing. */
async function extendHistory(id: string, loaded: Loaded): Promise<void> {
  const { past, future } = await loaded.restOfHistory();
  const now = history.value;
  if (now === undefined || currentId.value !== id) return;
  const untouched = now.past.length === loaded.history.past.length && now.future.length === 0;
  const isSaved = untouched && loaded.history.past.length === 0;
  history.value = { past: [...past, ...now.past], present: now.present, future: untouched ? future : now.future };
  if (isSaved) recordSaved(id);
}

/** Show work that is a job of its own from here on: from a file, or begun anew. Resolves with whether it is shown. */
export async function openNew(work: Work, label: string): Promise<boolean> {
  endFollowing();
  await flush();
  const id = randomId();
  const next = database === undefined ? undefined : await claimFor(id);
  const outcome = { shown: false };
  const opened = (): void => {
    outcome.shown = true;
    setCurrent(database === undefined ? undefined : id);
    readOnly.value = false;
    setBeside({ words: "", comparison: undefined, parts: {} });
  };
  // Where the job before is kept nowhere, undo leads back to it.
  const isKept = database !== undefined && !isUnsaved(currentId.peek());
  await add({ kind: "load", work, label, ...(isKept ? { history: newHistory(work) } : {}), opened });
  if (outcome.shown) {
    claim?.release();
    claim = next;
  } else next?.release();
  return outcome.shown;
}

/** Begin a job with nothing set. */
export async function beginNew(): Promise<boolean> {
  const { reply } = await getCore().call("hello", {});
  // Its face is nobody's wish yet, so the first picture brings one of its own shape.
  const work = { job: reply.job, picture: NO_PICTURE, demo: false, proposed: reply.job.face };
  return openNew(work, say("a new job"));
}

/** Copy a job and open the copy. */
export async function openCopy(id: string): Promise<void> {
  if (database === undefined) return;
  await flush();
  const to = randomId();
  await readJobs();
  const name = copyName(jobName({ name: jobs.value.find((entry) => entry.id === id)?.name ?? "" }), jobs.value);
  if (!(await copyJob(database, id, to, name))) return;
  const shown = await openKept(to, (copied) => ({ ...copied, name }));
  await tellJobs();
  announce(shown ? say("A copy is open here: {name}.", { name }) : whyNot());
}

/** Delete a job, unless another tab has it open; the reason where it cannot be deleted. */
export async function remove(id: string): Promise<string | undefined> {
  if (database === undefined) return undefined;
  const own = id === currentId.value && !readOnly.value;
  const held = own ? undefined : await claimFor(id);
  if (held !== undefined && !held.held) {
    held.release();
    return say("This job is open in another tab. Close it there first.");
  }
  if (own) {
    await flush();
    const next = jobs.value.find((entry) => entry.id !== id);
    // Something else must be in hand before it goes.
    const shown = next === undefined ? await beginNew() : await openKept(next.id);
    if (!shown) return whyNot();
  }
  forgetSaved(id);
  await deleteJob(database, id);
  held?.release();
  await tellJobs();
  return undefined;
}

/** All that is kept of a job, for a bundle. */
export async function keptRecord(id: string) {
  await flush();
  return database === undefined ? undefined : readJob(database, id);
}

function whyNot(): string {
  return fieldErrors.value["job"]?.message ?? say("The job could not be opened; it is kept as it was.");
}

async function tellJobs(): Promise<void> {
  channel?.postMessage("changed");
  await readJobs();
}

async function claimFor(id: string): Promise<Claim> {
  if (claimer === undefined) return { held: true, isSure: () => true, release: () => {} };
  return claimer(id, { granted: () => void takeUp(id), lost: () => giveUp(id) });
}

/** The other tab has let go of the job: it is read anew, and can be changed here. */
async function takeUp(id: string): Promise<void> {
  if (currentId.value !== id || !readOnly.value) return;
  if (await shownKept(id, true, true, undefined))
    announce(say("No other tab has this job open now: it can be changed here."));
}

function giveUp(id: string): void {
  if (currentId.value !== id) return;
  readOnly.value = true;
  // What is not written yet must not overwrite what the other tab has.
  forgetSaved(id);
  announce(say("Another tab has taken this job, so it can only be looked at here."));
}

function setCurrent(id: string | undefined): void {
  currentId.value = id;
  try {
    sessionStorage.setItem(TAB_KEY, id ?? DEMO);
  } catch (forbidden) {
    if (!(forbidden instanceof DOMException)) throw forbidden;
  }
}

/** Whether the next start of this tab opens a kept job. */
export function tabHasJob(): boolean {
  return tabJob() !== DEMO && jobs.value.length > 0;
}

/** Start the page anew with the demo; what is kept stays as it is. */
export function startWithDemo(): void {
  setCurrent(undefined);
  location.reload();
}

function tabJob(): string | null {
  try {
    return sessionStorage.getItem(TAB_KEY);
  } catch (forbidden) {
    if (forbidden instanceof DOMException) return null;
    throw forbidden;
  }
}
