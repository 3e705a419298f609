// The output of the turntable: the stage draws the frames, and the core writes them as one animation.
import { signal } from "@preact/signals";
import type { TurntableKind, TurntableReport } from "../../../contract/types";
import type { Stage } from "../../../stage/types";
import { dependsOn } from "../../../contract/dependence";
import { CoreError } from "../../../worker/client";
import { getCore } from "../core/connection";
import { Maker, type MakingContext } from "./making";
import { mountedStage } from "../page/view";
import { job, work } from "../work/work";
import { say } from "../../../speech/on_page";

export const TURN_SIZES = [320, 480, 720, 1080] as const;
export const TURN_FRAMES = [24, 36, 48, 72] as const;

export const turnKind = signal<TurntableKind>("webp");
export const turnSize = signal<number>(480);
export const turnFrames = signal<number>(36);
export const turnSeconds = signal<number>(4);
export const turntable = new Maker<TurntableReport>();

/** Of the whole: drawing takes this share of the time, writing the rest. */
const DRAWING = 0.7;
const TYPES: Record<TurntableKind, string> = { webp: "image/webp", gif: "image/gif" };

/** Red, green and blue of RGBA pixels, written into `out` from `start` on. */
export function withoutAlpha(pixels: Uint8Array, out: Uint8Array, start: number): void {
  let to = start;
  for (let from = 0; from < pixels.length; from += 4) {
    out[to] = pixels[from] ?? 0;
    out[to + 1] = pixels[from + 1] ?? 0;
    out[to + 2] = pixels[from + 2] ?? 0;
    to += 3;
  }
}

/** How long each frame is shown: whole ms within what the core takes. */
export function frameMs(seconds: number, frames: number): number {
  return Math.min(1000, Math.max(20, Math.round((seconds * 1000) / frames)));
}

/** Draw one turn, let the core write it, and hand it to the downloads. */
export async function makeTurntable(): Promise<void> {
  const stage = mountedStage.value;
  if (stage === undefined) return;
  const [frames, px, kind] = [turnFrames.value, turnSize.value, turnKind.value];
  const frame_ms = frameMs(turnSeconds.value, frames);
  await turntable.run(async (task) => {
    const name = job.value?.name ?? "";
    const buffer = await drawn(stage, frames, px, task);
    const params = { name, kind, width_px: px, height_px: px, frames, frame_ms };
    const answer = await getCore().call("turntable", params, {
      signal: task.stopped,
      buffer,
      onProgress: ({ done, label }) => task.onProgress({ done: DRAWING + (1 - DRAWING) * done, label }),
    });
    task.deliver(answer, TYPES[kind]);
  });
}

/** What is drawn of the work in hand. */
function drawnMark(): string {
  const now = work.peek();
  return JSON.stringify(now && [now.picture, dependsOn(now.job, "texture"), dependsOn(now.job, "fold")]);
}

function changed(): CoreError {
  const message = say("The job has changed while the frames were drawn, so nothing was saved.");
  const remedy = say("save the turntable again");
  return new CoreError({ code: "changed", field: "", expected: "", got: "", remedy, values: {}, message });
}

/** The frames of one turn, RGB, one after the other. */
async function drawn(
  stage: Stage,
  frames: number,
  px: number,
  { stopped, onProgress }: MakingContext<TurntableReport>,
): Promise<ArrayBuffer> {
  const all = new Uint8Array(frames * px * px * 3);
  const mark = drawnMark();
  for (let frame = 0; frame < frames; frame += 1) {
    stopped.throwIfAborted();
    // The stage shows what is in hand, so the frames would be of two jobs.
    if (drawnMark() !== mark) throw changed();
    onProgress({
      done: (DRAWING * frame) / frames,
      label: say("Drawing frame {frame} of {frames}", { frame: frame + 1, frames }),
    });
    withoutAlpha(await stage.frame(px, px, (2 * Math.PI * frame) / frames), all, frame * px * px * 3);
  }
  stopped.throwIfAborted();
  return all.buffer;
}
