// The pictures to choose by: asked for while they are seen and nothing changes, dropped by the next change.
import { batch, computed, effect, signal } from "@preact/signals";
import { imageOf } from "../../../contract/buffers";
import type {
  Buffer as Sent,
  ChoicesParams,
  Fill,
  FillOption,
  FinishOption,
  IntentOption,
  Job,
  Viewing,
} from "../../../contract/types";
import { profilesKept } from "../colour/profiles";
import { viewing } from "../colour/viewing";
import { getCore } from "../core/connection";
import { openWorkInCore, queryQueue } from "../core/queries";
import { Query, type Question } from "../core/query";
import { firstShown } from "../page/status";
import { openInCore } from "../work/run";
import { shown, waiting, work } from "../work/work";
import { detailKey, fillsKey, finishesKey, intentsPicturesKey } from "./keys";

/** An option with its pictures. */
export interface Drawn<O> {
  readonly option: O;
  readonly pictures: readonly ImageData[];
}

export type Drawings<O> = readonly Drawn<O>[];

export const fillsQuery = new Query<Drawings<FillOption>>("fill pictures", queryQueue);
/** Lines are continued on the whole canvas, which takes longer. */
export const continuedQuery = new Query<Drawings<FillOption>>("continued picture", queryQueue);
export const finishesQuery = new Query<Drawings<FinishOption>>("finish pictures", queryQueue);
export const intentPicturesQuery = new Query<Drawings<IntentOption>>("intent pictures", queryQueue);

/** A part of the print file at its own pixels. */
export interface Detail {
  readonly plain: ImageData;
  readonly sharpened: ImageData;
}

export const detailQuery = new Query<Detail>("detail of the print file", queryQueue);

export type PictureChoiceKind = "fills" | "finishes" | "intents" | "detail";

const ALL = [fillsQuery, continuedQuery, finishesQuery, intentPicturesQuery, detailQuery];

/** Which choices are on the screen. */
export const choicesSeen = {
  fills: signal(false),
  finishes: signal(false),
  intents: signal(false),
  detail: signal(false),
} satisfies Record<PictureChoiceKind, unknown>;

/** Every fill that has been drawn. */
export const drawnFills = computed<Drawings<FillOption>>(() => [
  ...(fillsQuery.known.value?.value ?? []),
  ...(continuedQuery.known.value?.value ?? []),
]);

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
    if (waiting.value > 0) {
      for (const query of ALL) if (query.pending.peek()) query.stop();
      return;
    }
    const { job, picture } = now;
    const on = { picture, profiles: profilesKept.value, viewing: viewing.value };
    if (choicesSeen.fills.value) {
      const key = fillsKey(job, on);
      request(fillsQuery, key, askFills(job, picture, QUICK_FILLS));
      request(continuedQuery, key, askFills(job, picture, ["continued"]));
    }
    if (choicesSeen.finishes.value) request(finishesQuery, finishesKey(job, on), askFinishes(job, picture));
    if (choicesSeen.intents.value) {
      request(intentPicturesQuery, intentsPicturesKey(job, on), askIntents(job, on.viewing));
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

function askFills(job: Job, picture: number, fills: readonly Fill[]) {
  return async (stopped: AbortSignal): Promise<Drawings<FillOption>> => {
    await openInCore(picture);
    const { reply, buffers } = await ask({ job, kind: "fills", fills: [...fills] }, stopped);
    return reply.fills.map((option) => drawn(option, [option.picture], buffers));
  };
}

function askFinishes(job: Job, picture: number) {
  return async (stopped: AbortSignal): Promise<Drawings<FinishOption>> => {
    await openInCore(picture);
    const { reply, buffers } = await ask({ job, kind: "finishes", fills: [] }, stopped);
    return reply.finishes.map((option) => drawn(option, [option.folded, option.folding], buffers));
  };
}

function askDetail(job: Job, picture: number, sizePx: number) {
  return async (stopped: AbortSignal): Promise<Detail> => {
    await openInCore(picture);
    const params = { job, width_px: sizePx, height_px: sizePx };
    const { reply, buffers } = await getCore().call("detail", params, { signal: stopped });
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

function askIntents(job: Job, seen: Viewing) {
  return async (stopped: AbortSignal): Promise<Drawings<IntentOption>> => {
    await openWorkInCore();
    const { reply, buffers } = await ask({ job, kind: "intents", fills: [], viewing: seen }, stopped);
    return reply.intents.map((option) => drawn(option, [option.picture], buffers));
  };
}

function ask(params: ChoicesParams, stopped: AbortSignal) {
  return getCore().call("choices", params, { signal: stopped });
}

function drawn<O>(option: O, pictures: readonly (Sent | undefined)[], buffers: readonly ArrayBuffer[]): Drawn<O> {
  return { option, pictures: pictures.flatMap((one) => (one === undefined ? [] : [imageOf(one, buffers)])) };
}
