// The pictures to choose by: asked for while they are seen and nothing changes, dropped by the next change.
import { batch, computed, effect, signal } from "@preact/signals";
import { imageOf } from "../../../contract/buffers";
import type {
  Buffer as Sent,
  Fill,
  FillOption,
  FinishOption,
  IntentOption,
  Job,
  Viewing,
} from "../../../contract/types";
import { openProfileInCore, profilesKept } from "../colour/profiles";
import { viewing } from "../colour/viewing";
import { queryQueue } from "../core/queries";
import { Query, type Question } from "../core/query";
import { firstShown } from "../page/status";
import { SIDES, type SideName } from "../work/edit";
import { callAbout } from "../work/run";
import { lacksPicture, shown, waiting, work } from "../work/work";
import { detailKey, fillsKey, finishesKey, intentsPicturesKey } from "./keys";
import { say } from "../../../speech/on_page";

/** An option with its pictures. */
export interface Drawn<O> {
  readonly option: O;
  readonly pictures: readonly ImageData[];
}

export type Drawings<O> = readonly Drawn<O>[];

/** The pictures of the fills: on the sides that have none of their own, or on one that has. */
export class FillPictures {
  readonly quick: Query<Drawings<FillOption>>;
  /** Lines are continued on the whole canvas, which takes longer. */
  readonly continued: Query<Drawings<FillOption>>;
  /** Whether the choice is on the screen. */
  readonly seen = signal(false);
  /** Every fill that has been drawn. */
  readonly drawn = computed<Drawings<FillOption>>(() => [
    ...(this.quick.known.value?.value ?? []),
    ...(this.continued.known.value?.value ?? []),
  ]);

  constructor(where: string) {
    this.quick = new Query(`fill pictures, ${where}`, queryQueue);
    this.continued = new Query(`continued picture, ${where}`, queryQueue);
  }
}

export type FillPlace = "all" | SideName;

export const fillPictures: Readonly<Record<FillPlace, FillPictures>> = {
  all: new FillPictures(say("all sides")),
  top: new FillPictures("top"),
  right: new FillPictures("right"),
  bottom: new FillPictures("bottom"),
  left: new FillPictures("left"),
};
const FILL_PLACES: readonly FillPlace[] = ["all", ...SIDES];

export const finishesQuery = new Query<Drawings<FinishOption>>("finish pictures", queryQueue);
export const intentPicturesQuery = new Query<Drawings<IntentOption>>("intent pictures", queryQueue);

/** A part of the print file at its own pixels. */
export interface Detail {
  readonly plain: ImageData;
  readonly sharpened: ImageData;
}

export const detailQuery = new Query<Detail>("detail of the print file", queryQueue);

const ALL = [
  ...FILL_PLACES.flatMap((where) => [fillPictures[where].quick, fillPictures[where].continued]),
  finishesQuery,
  intentPicturesQuery,
  detailQuery,
];

/** Which of the other choices are on the screen. */
export const choicesSeen = { finishes: signal(false), intents: signal(false), detail: signal(false) };

const QUICK_FILLS: readonly Fill[] = ["run-on", "mirror", "drawn-out", "plain", "fade"];

/** Goes up when pictures that could not be drawn are asked for again. */
const attempts = signal(0);

/** Ask again after a failure. */
export function drawAgain(): void {
  batch(() => {
    for (const query of ALL) if (query.failure.value !== undefined) query.stop();
    attempts.value += 1;
  });
}

/** So long nothing changes before anything is drawn: longer than between two steps of somebody who tries values. */
const CALM_MS = 700;

const isCalm = signal(true);

/** Ask from now on. */
export function startChoiceQueries(): void {
  let calming: ReturnType<typeof setTimeout> | undefined;
  effect(() => {
    void work.value;
    void waiting.value;
    isCalm.value = false;
    clearTimeout(calming);
    calming = setTimeout(() => (isCalm.value = true), CALM_MS);
  });
  effect(() => {
    const now = work.value;
    void attempts.value;
    if (now === undefined || shown.value === undefined || !firstShown.value) return;
    // A change is on its way: what is being drawn would come too late, and would keep it waiting.
    if (waiting.value > 0 || lacksPicture.value) {
      for (const query of ALL) if (query.pending.peek()) query.stop();
      return;
    }
    const { job, picture } = now;
    const on = { picture, profiles: profilesKept.value, viewing: viewing.value };
    for (const where of FILL_PLACES) {
      const { quick, continued, seen } = fillPictures[where];
      if (!seen.value) continue;
      const key = fillsKey(job, on, where);
      request(quick, key, askFills(job, picture, QUICK_FILLS, where));
      request(continued, key, askFills(job, picture, ["continued"], where));
    }
    if (choicesSeen.finishes.value) request(finishesQuery, finishesKey(job, on), askFinishes(job, picture));
    if (choicesSeen.intents.value) {
      request(intentPicturesQuery, intentsPicturesKey(job, on), askIntents(job, picture, on.viewing));
    }
    if (choicesSeen.detail.value && job.print.sharpening > 0) {
      const sizePx = detailPx();
      request(detailQuery, detailKey(job, on, sizePx), askDetail(job, picture, sizePx));
    }
  });
  // Tests read this from outside.
  effect(() => {
    const drawing = ALL.some(({ pending }) => pending.value);
    document.documentElement.dataset["choices"] = drawing || !isCalm.value ? "asking" : "known";
  });
}

/** Ask once it is calm; until then what is known of another canvas counts as stale. */
function request<T>(query: Query<T>, key: string, question: Question<T>): void {
  if (isCalm.value || query.known.peek()?.key === key) query.request(key, question);
  else if (query.requested.peek() !== key) query.stop();
}

function askFills(job: Job, picture: number, fills: readonly Fill[], where: FillPlace) {
  const side = where === "all" ? {} : { side: where };
  return async (stopped: AbortSignal): Promise<Drawings<FillOption>> => {
    const params = { job, kind: "fills" as const, fills: [...fills], ...side };
    const { reply, buffers } = await callAbout(picture, "choices", params, { signal: stopped });
    return reply.fills.map((option) => drawn(option, [option.picture], buffers));
  };
}

function askFinishes(job: Job, picture: number) {
  return async (stopped: AbortSignal): Promise<Drawings<FinishOption>> => {
    const params = { job, kind: "finishes" as const, fills: [] };
    const { reply, buffers } = await callAbout(picture, "choices", params, { signal: stopped });
    return reply.finishes.map((option) => drawn(option, [option.folded, option.folding], buffers));
  };
}

function askDetail(job: Job, picture: number, sizePx: number) {
  return async (stopped: AbortSignal): Promise<Detail> => {
    const params = { job, width_px: sizePx, height_px: sizePx };
    const { reply, buffers } = await callAbout(picture, "detail", params, { signal: stopped });
    return { plain: imageOf(reply.plain, buffers), sharpened: imageOf(reply.sharpened, buffers) };
  };
}

/** Two stand side by side in the narrowest column. */
const DETAIL_CSS_PX = 152;
/** The contract's greatest. */
const DETAIL_MOST_PX = 1024;

/** In pixels of the screen, which has more of them than of the page's own. */
function detailPx(): number {
  return Math.min(DETAIL_MOST_PX, Math.round(DETAIL_CSS_PX * devicePixelRatio));
}

function askIntents(job: Job, picture: number, seen: Viewing) {
  return async (stopped: AbortSignal): Promise<Drawings<IntentOption>> => {
    await openProfileInCore(job.colour.profile);
    const params = { job, kind: "intents" as const, fills: [], viewing: seen };
    const { reply, buffers } = await callAbout(picture, "choices", params, { signal: stopped });
    return reply.intents.map((option) => drawn(option, [option.picture], buffers));
  };
}

function drawn<O>(option: O, pictures: readonly (Sent | undefined)[], buffers: readonly ArrayBuffer[]): Drawn<O> {
  return { option, pictures: pictures.flatMap((one) => (one === undefined ? [] : [imageOf(one, buffers)])) };
}
