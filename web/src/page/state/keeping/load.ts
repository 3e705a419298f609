// From the entries of the database to the work on the page.
import type { Job } from "../../../contract/types";
import { CoreError } from "../../../worker/client";
import { keepProfile, nameFor, profileFile } from "../colour/profiles";
import { getCore } from "../core/connection";
import { KINDS, type Plan } from "../compare/plan";
import { begin, type History, type Step } from "../work/history";
import { isOf } from "../work/picture_job";
import { asPictureFile, keepPicture, NO_PICTURE, pictureFile, pictureWith } from "../work/pictures";
import type { Work } from "../work/work";
import { enterKey } from "./keys";
import type { Part } from "./parts";
import { type StepEntry, VIEW } from "./records";
import { numbers, written } from "./save";
import { enterSmall } from "./small";
import { stepOf } from "./steps";
import type { JobRecord } from "./store";

/** A kept job, ready to be shown. */
export interface Loaded {
  readonly history: History<Work>;
  readonly words: string;
  readonly comparison: Plan | undefined;
  readonly parts: Readonly<Record<string, Part>>;
  /** The steps before and after the present one, once the core has checked them. */
  restOfHistory(): Promise<Pick<History<Work>, "past" | "future">>;
}

/** Read a kept job; with `candidate` the change that waited for the core when it was kept is done too. */
export async function loadedJob(record: JobRecord, candidate: boolean): Promise<Loaded | undefined> {
  const { entry, state } = record;
  for (const [key, blob] of record.blobs) {
    enterKey(blob, key);
    written.blobs.add(key);
  }
  written.steps.set(entry.id, new Set(record.steps.keys()));
  const pictures = await picturesOf(record);
  const names = await profileNames(record);
  const read = (step: StepEntry) => checkedStep(step, pictures, names);
  const number = state.steps[state.present];
  const presentEntry = number === undefined ? undefined : record.steps.get(number);
  const present = presentEntry && (await read(presentEntry));
  const ahead = candidate && state.candidate !== undefined ? await read(state.candidate) : undefined;
  const first = present ?? ahead;
  if (first === undefined) return undefined;
  if (present !== undefined && number !== undefined) numbers.enter(present, number);
  const small = entry.small;
  if (small !== undefined) enterSmall((ahead ?? first).state.picture, small);
  const started: History<Work> = { past: [], present: first, future: [] };
  const history = ahead === undefined || ahead === first ? started : { past: [first], present: ahead, future: [] };
  const rest = async (numbered: readonly number[]): Promise<Step<Work>[]> => {
    const steps: Step<Work>[] = [];
    for (const one of numbered) {
      const found = record.steps.get(one);
      const step = found && (await read(found));
      // What lies beyond a step that is no job any more cannot be reached.
      if (step === undefined) break;
      numbers.enter(step, one);
      steps.push(step);
    }
    return steps;
  };
  return {
    history,
    words: state.words,
    comparison: asPlan(state.comparison),
    parts: Object.fromEntries(partsBeside(record)),
    restOfHistory: async () => ({
      past: (await rest(state.steps.slice(0, state.present).toReversed())).toReversed(),
      future: await rest(state.steps.slice(state.present + 1)),
    }),
  };
}

/** A history of one state, for a job that begins. */
export function newHistory(work: Work): History<Work> {
  return begin(work);
}

async function picturesOf({ entry, blobs }: JobRecord): Promise<ReadonlyMap<string, number>> {
  const found = new Map<string, number>();
  for (const part of entry.parts.filter(({ role }) => role === "picture")) {
    const blob = blobs.get(part.key);
    if (blob === undefined) continue;
    // The key is the content where the browser computes it, so that what is known is not read again.
    const known = pictureWith(part.key);
    const isSame = pictureFile(known)?.name === part.name;
    found.set(part.key, isSame ? known : keepPicture(await asPictureFile(part.name, blob)));
  }
  return found;
}

/** The names under which the job's profiles are kept on this page: another job may have one of the same name. */
async function profileNames({ entry, blobs }: JobRecord): Promise<ReadonlyMap<string, string>> {
  const names = new Map<string, string>();
  for (const part of entry.parts.filter(({ role }) => role === "profile")) {
    const blob = blobs.get(part.key);
    if (blob === undefined) continue;
    const name = await nameFor(part.name, blob);
    if (profileFile(name) === undefined) keepProfile({ name, blob });
    names.set(part.name, name);
  }
  return names;
}

async function checkedStep(
  step: StepEntry,
  pictures: ReadonlyMap<string, number>,
  names: ReadonlyMap<string, string>,
): Promise<Step<Work> | undefined> {
  let job: Job;
  try {
    job = (await getCore().call("check", { text: step.job })).reply.job;
  } catch (failure) {
    if (failure instanceof CoreError && failure.code !== "crash") return undefined;
    throw failure;
  }
  const name = names.get(job.colour.profile) ?? job.colour.profile;
  const renamed = name === job.colour.profile ? job : { ...job, colour: { ...job.colour, profile: name } };
  const pictureOf = (key: string): number => pictures.get(key) ?? NO_PICTURE;
  const read = stepOf(step, renamed, pictureOf);
  const file = pictureFile(read.state.picture);
  // Whatever lay beside the job, only its own picture comes back.
  const own = file !== undefined && isOf(job.picture, file);
  return own || file === undefined ? read : { ...read, state: { ...read.state, picture: NO_PICTURE } };
}

function partsBeside({ entry, blobs }: JobRecord): (readonly [string, Part])[] {
  return entry.parts.flatMap(({ role, name, key, data }) => {
    const blob = blobs.get(key);
    if (blob === undefined || role === "picture" || role === "profile" || role === VIEW) return [];
    return [[role, { name, blob, ...(data === undefined ? {} : { data }) }] as const];
  });
}

function asPlan(text: string | undefined): Plan | undefined {
  if (text === undefined) return undefined;
  const plan: unknown = JSON.parse(text);
  return isPlan(plan) ? plan : undefined;
}

function isPlan(plan: unknown): plan is Plan {
  if (typeof plan !== "object" || plan === null || !("kind" in plan) || !("values" in plan)) return false;
  const { kind, values } = plan;
  if (typeof kind !== "string" || !(kind in KINDS) || !Array.isArray(values)) return false;
  const type = kind === "depth" || kind === "bring-in" ? "number" : "string";
  return values.every((value) => typeof value === type);
}
