// Keeps the job in hand as it changes: within a quarter of a second, and at once when the page is hidden or left.
import { effect } from "@preact/signals";
import { profileFile, profilesKept } from "../colour/profiles";
import { plan } from "../compare/comparison";
import type { Plan } from "../compare/plan";
import { viewsWritten, writtenView } from "../first_view/first_view";
import { announce } from "../page/status";
import { clientWords } from "../work/beside_job";
import type { History, Step } from "../work/history";
import { NO_PICTURE, pictureFile } from "../work/pictures";
import { queued } from "../work/run";
import { history, type Work } from "../work/work";
import type { Database } from "./database";
import { keyOf, pictureKey } from "./keys";
import { currentId, keepingTrouble, readOnly, storage } from "./mode";
import { type Part, parts } from "./parts";
import { type PartEntry, type StepEntry, VIEW } from "./records";
import { smallMade, smallOf } from "./small";
import { candidateOf, entryOf, keptSteps, StepNumbers } from "./steps";
import { type JobRecord, lackingBlobs, nothingWritten, writeBlob, writeJob } from "./store";
import { say } from "../../../speech/on_page";

const WAIT_MS = 250;
/** After a failure the same is tried again, for room may have been made. */
const RETRY_MS = 5000;

export const numbers = new StepNumbers();
export const written = nothingWritten();

/** Everything that is kept of a job at one moment. */
interface Moment {
  readonly history: History<Work>;
  readonly candidate: Work | undefined;
  readonly words: string;
  readonly comparison: Plan | undefined;
  readonly parts: Readonly<Record<string, Part>>;
  readonly profilesKept: number;
  readonly smallMade: number;
  readonly viewsWritten: number;
  readonly changed_ms: number;
}

const unsaved = new Map<string, Moment>();
/** What lies in the database already, or is on its way there. */
const saved = new Map<string, Moment>();
const entries = new WeakMap<Step<Work>, StepEntry>();

let database: Database | undefined;
let isOurs = (_id: string): boolean => true;
let tellOthers = (_id: string): void => {};
let timer: ReturnType<typeof setTimeout> | undefined;
let writing: Promise<void> = Promise.resolve();

/** What keeping asks of those who know which jobs there are. */
export interface Keeper {
  /** Give a new job its id, and claim it. */
  readonly begin: () => string;
  /** Whether the job is still this tab's. */
  readonly mayWrite: (id: string) => boolean;
  /** The job was written. */
  readonly wrote: (id: string) => void;
}

/** Keep the job from now on. */
export function startSaving(into: Database, { begin, mayWrite, wrote }: Keeper): void {
  database = into;
  isOurs = mayWrite;
  tellOthers = wrote;
  effect(() => {
    const moment = momentNow();
    if (moment === undefined || storage.value !== "kept" || readOnly.value) return;
    const ofDemo = (work: Work | undefined): boolean => work === undefined || work.demo;
    if (moment.history.present.state.demo && ofDemo(moment.candidate)) return;
    const id = currentId.value ?? begin();
    const before = unsaved.get(id) ?? saved.get(id);
    if (before !== undefined && isSame(before, moment)) return;
    unsaved.set(id, moment);
    timer ??= setTimeout(() => void flush(), WAIT_MS);
  });
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "hidden") write();
  });
  addEventListener("pagehide", write);
}

function momentNow(): Moment | undefined {
  const now = history.value;
  const [queue, words, comparison] = [queued.value, clientWords.value, plan.value];
  const [beside, profiles, smalls] = [parts.value, profilesKept.value, smallMade.value];
  const views = viewsWritten.value;
  if (now === undefined) return undefined;
  return {
    history: now,
    candidate: candidateOf(now, queue),
    words,
    comparison,
    parts: beside,
    profilesKept: profiles,
    smallMade: smalls,
    viewsWritten: views,
    changed_ms: Date.now(),
  };
}

function isSame(one: Moment, other: Moment): boolean {
  return (
    one.history === other.history &&
    one.candidate === undefined &&
    other.candidate === undefined &&
    one.words === other.words &&
    one.comparison === other.comparison &&
    one.parts === other.parts &&
    one.profilesKept === other.profilesKept &&
    one.smallMade === other.smallMade &&
    one.viewsWritten === other.viewsWritten
  );
}

/** What is shown is what lies in the database: nothing is to be written until it changes. */
export function recordSaved(id: string): void {
  const moment = momentNow();
  if (moment !== undefined) saved.set(id, moment);
}

/** Forget a job that was deleted. */
export function forgetSaved(id: string): void {
  unsaved.delete(id);
  saved.delete(id);
  written.steps.delete(id);
}

/** Whether the latest change of a job could not be written yet. */
export function isUnsaved(id: string | undefined): boolean {
  return id !== undefined && unsaved.has(id);
}

/** Write what has changed; resolves when all of it is kept, or could not be. */
export function flush(): Promise<void> {
  write();
  return writing;
}

/** Keep a picture's bytes before the core has opened it, so that only few are to be written when the page is left. */
export function keepPictureBytes(id: number): void {
  const file = pictureFile(id);
  if (database === undefined || file === undefined || storage.value !== "kept" || readOnly.value) return;
  writeBlob(database, pictureKey(id), file.blob, written).catch(tell);
}

/** Hand what has changed to the browser, in this moment: the page may be going away. */
function write(): void {
  clearTimeout(timer);
  timer = undefined;
  if (database === undefined || unsaved.size === 0) return;
  for (const [id, moment] of [...unsaved]) {
    if (!isOurs(id)) {
      // A tab that has slept asks first whether another has taken the job.
      timer ??= setTimeout(() => void flush(), RETRY_MS);
      continue;
    }
    unsaved.delete(id);
    saved.set(id, moment);
    const record = recordOf(id, moment);
    const one = writeJob(database, record, written).then(
      () => {
        keepingTrouble.value = undefined;
        tellOthers(id);
        return checkBytes(id, record);
      },
      (failure: unknown) => {
        if (saved.get(id) === moment) saved.delete(id);
        if (!unsaved.has(id)) unsaved.set(id, moment);
        timer ??= setTimeout(() => void flush(), RETRY_MS);
        tell(failure);
      },
    );
    writing = Promise.all([writing, one]).then(() => {});
  }
}

/** Write the job once more where its bytes have been deleted with another tab's job. */
async function checkBytes(id: string, { blobs }: JobRecord): Promise<void> {
  const moment = saved.get(id);
  if (database === undefined || moment === undefined) return;
  if ((await lackingBlobs(database, blobs.keys(), written)).length === 0 || unsaved.has(id)) return;
  unsaved.set(id, moment);
  timer ??= setTimeout(() => void flush(), WAIT_MS);
}

function tell(failure: unknown): void {
  const full = failure instanceof DOMException && failure.name === "QuotaExceededError";
  if (!full) console.warn(failure);
  const sentence = full
    ? say(
        "The browser's storage for this page is full, so the latest change is not kept. Delete a job under Jobs, or save the bundle.",
      )
    : say("This browser does not keep your work: its storage refuses it. Save the bundle before you close the page.");
  if (keepingTrouble.peek() === sentence) return;
  keepingTrouble.value = sentence;
  announce(sentence);
}

function recordOf(id: string, moment: Moment): JobRecord {
  const { steps, present } = keptSteps(moment.history);
  // The demo before the first picture is nobody's job.
  const own = steps.filter(({ state }) => !state.demo);
  const shown = moment.candidate ?? moment.history.present.state;
  const blobs = new Map<string, Blob>();
  const listed = partsOf([...own.map(({ state }) => state), shown], moment, blobs);
  const small = smallOf(shown.picture);
  const { job } = shown;
  return {
    entry: {
      id,
      name: job.name,
      client: job.client,
      width_mm: job.face.width_mm,
      height_mm: job.face.height_mm,
      panels: job.group.panels,
      changed_ms: moment.changed_ms,
      ...(small === undefined ? {} : { small }),
      parts: listed,
    },
    state: {
      id,
      steps: own.map((step) => numbers.numberOf(step)),
      present: own.length === steps.length ? present : 0,
      words: moment.words,
      ...(moment.candidate === undefined
        ? {}
        : { candidate: entryOf({ state: moment.candidate, label: say("the latest change") }, pictureKey) }),
      ...(moment.comparison === undefined ? {} : { comparison: JSON.stringify(moment.comparison) }),
    },
    steps: new Map(own.map((step) => [numbers.numberOf(step), cachedEntry(step)])),
    blobs,
  };
}

function cachedEntry(step: Step<Work>): StepEntry {
  const known = entries.get(step) ?? entryOf(step, pictureKey);
  entries.set(step, known);
  return known;
}

/** The files of these states, and of the job beside them; their bytes go into `blobs`. */
function partsOf(states: readonly Work[], moment: Moment, blobs: Map<string, Blob>): readonly PartEntry[] {
  const listed = new Map<string, PartEntry>();
  const add = (role: string, { name, blob, data }: Part, key: string): void => {
    blobs.set(key, blob);
    const entry = { role, name, key, bytes: blob.size, ...(data === undefined ? {} : { data }) };
    listed.set(`${role} ${key} ${role === "profile" ? name : ""}`, entry);
  };
  const pictures = new Set(states.flatMap(({ picture, offered = NO_PICTURE }) => [picture, offered]));
  for (const id of pictures) {
    const file = pictureFile(id);
    if (file !== undefined) add("picture", file, pictureKey(id));
  }
  const compared = moment.comparison?.kind === "profile" ? moment.comparison.values : [];
  for (const name of new Set([...states.map(({ job }) => job.colour.profile), ...compared])) {
    const file = profileFile(name);
    if (file !== undefined) add("profile", file, keyOf(file.blob));
  }
  for (const [role, part] of Object.entries(moment.parts)) add(role, part, keyOf(part.blob));
  const view = moment.candidate === undefined ? writtenView(moment.history.present.state.job) : undefined;
  if (view !== undefined) add(VIEW, { name: VIEW, blob: view }, keyOf(view));
  return [...listed.values()];
}
