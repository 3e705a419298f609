// What is on the wall until the core has made the canvas: the demo as the build has made it, or the job as it was last shown.
import { effect, signal } from "@preact/signals";
import { runtimeFolder } from "../../../worker/client";
import { fetchRuntimePart } from "../../../worker/runtime_index";
import { firstShown } from "../page/status";
import { history, type Shown, shown } from "../work/work";
import { readView, type ShownJob, writeView } from "./view_file";
import type { Job } from "../../../contract/types";

/** So long nothing changes before a canvas is written. */
const CALM_MS = 2000;

/** The canvas from an earlier time; nothing once the core has made one. */
export const firstView = signal<ShownJob | undefined>(undefined);

const written = new WeakMap<Job, Blob>();
/** Rises with each canvas that was written. */
export const viewsWritten = signal(0);

/** The canvas of a job as it was shown, where it was written. */
export function writtenView(job: Job): Blob | undefined {
  return written.get(job);
}

/** Put the demo on the wall, as it came with the page. */
export async function showDemoView(): Promise<void> {
  await show(() => fetchRuntimePart(runtimeFolder(), ({ snapshot }) => snapshot.demo_view));
}

/** Put a job on the wall as it was last shown. */
export async function showWrittenView(view: Blob): Promise<void> {
  await show(() => view.arrayBuffer());
}

async function show(fetched: () => Promise<ArrayBuffer>): Promise<void> {
  if (shown.peek() !== undefined) return;
  try {
    const view = await readView(await fetched());
    // The core may have been quicker.
    if (shown.peek() === undefined) firstView.value = view;
  } catch (reason) {
    console.info(`The wall waits for the core: ${String(reason)}`);
  }
}

/** Write each canvas that stays for a while, for the next visit. */
export function startWritingViews(): void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  effect(() => {
    const [now, work] = [shown.value, history.value?.present.state];
    clearTimeout(timer);
    if (now === undefined || work === undefined || work.demo || !firstShown.value || written.has(work.job)) return;
    timer = setTimeout(() => void write(work.job, now), CALM_MS);
  });
  effect(() => {
    if (shown.value !== undefined) firstView.value = undefined;
  });
}

async function write(job: Job, now: Shown): Promise<void> {
  const view = await writeView(job, now);
  if (view === undefined) return;
  written.set(job, view);
  viewsWritten.value += 1;
}
