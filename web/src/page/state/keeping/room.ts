// How much room the browser gives this page, and whether it promises to keep what lies there.
import { effect, signal } from "@preact/signals";
import { announce } from "../page/status";
import { history } from "../work/work";
import { pictureFile } from "../work/pictures";
import { currentId } from "./mode";
import { say } from "../../../speech/on_page";

export interface Room {
  readonly used_bytes: number;
  readonly whole_bytes: number;
}

/** The room, where the browser says. */
export const room = signal<Room | undefined>(undefined);
/** Whether the browser has promised not to delete the jobs by itself; undefined where it does not say. */
export const promised = signal<boolean | undefined>(undefined);

/** Full enough to say so: four fifths, or no room for another picture of the same size. */
const NEARLY_SHARE = 0.8;

export function isNearlyFull({ used_bytes, whole_bytes }: Room, next_bytes: number): boolean {
  return used_bytes > NEARLY_SHARE * whole_bytes || whole_bytes - used_bytes < next_bytes;
}

/** Megabytes as a person reads them. */
export function bytesShown(bytes: number): string {
  if (bytes < 950_000) return say("{value} kB", { value: Math.max(1, Math.round(bytes / 1000)) });
  if (bytes >= 995_000_000) return say("{bytes} GB", { bytes: (bytes / 1e9).toFixed(1) });
  return bytes < 9_950_000
    ? say("{bytes} MB", { bytes: (bytes / 1e6).toFixed(1) })
    : say("{bytes} MB", { bytes: Math.round(bytes / 1e6) });
}

export async function measureRoom(): Promise<void> {
  // Absent outside secure contexts, although the types do not say so.
  const manager = "storage" in navigator ? navigator.storage : undefined;
  if (manager === undefined) return;
  const { usage, quota } = await manager.estimate();
  if (usage !== undefined && quota !== undefined && quota > 0) room.value = { used_bytes: usage, whole_bytes: quota };
  promised.value = await manager.persisted();
}

/** Ask the browser to keep the jobs: when there is a first one, and not before. Some browsers ask the person. */
export async function askToStay(): Promise<void> {
  const manager = "storage" in navigator ? navigator.storage : undefined;
  if (manager === undefined) return;
  try {
    promised.value = (await manager.persisted()) || (await manager.persist());
  } catch (refused) {
    console.warn(refused);
  }
}

/** Measure after each new picture, and say when it gets narrow. */
export function watchRoom(): void {
  let measured: string | undefined;
  let told = false;
  effect(() => {
    const picture = history.value?.present.state.picture;
    const key = `${currentId.value} ${picture}`;
    if (key === measured) return;
    measured = key;
    void measureRoom().then(() => {
      const now = room.value;
      const bytes = (picture === undefined ? undefined : pictureFile(picture)?.blob.size) ?? 0;
      if (now === undefined || told || !isNearlyFull(now, bytes)) return;
      told = true;
      announce(
        say("The browser's storage for this page is nearly full: {used_bytes} of {whole_bytes}. ", {
          used_bytes: bytesShown(now.used_bytes),
          whole_bytes: bytesShown(now.whole_bytes),
        }) + say("Under Jobs you see what is large; save it as a bundle and delete it there."),
      );
    });
  });
}
