// The pictures opened since the page was loaded, so that undo can bring a former one back; a job with another picture.
import type { Job } from "../../../contract/types";
import type { Work } from "./work";

export interface PictureFile {
  readonly name: string;
  readonly blob: Blob;
}

const pictures = new Map<number, PictureFile>();
let latestId = 0;

/** Keep a picture; the number stands for it from now on. */
export function keepPicture(file: PictureFile): number {
  latestId += 1;
  pictures.set(latestId, file);
  return latestId;
}

export function pictureFile(id: number): PictureFile | undefined {
  return pictures.get(id);
}

/** The name without its ending, for naming a job after its picture. */
export function stem(name: string): string {
  return name.replace(/\.[^.]+$/, "") || name;
}

/** The work with another picture: a new job replaces the demo, the user's own job stays. */
export function withPicture(now: Job, fresh: Job | undefined, name: string, picture: number): Work {
  if (fresh !== undefined) {
    // A canvas profile that was opened is the user's own, even while the demo was the current work.
    const colour = { ...fresh.colour, profile: now.colour.profile };
    return { job: { ...fresh, colour, name: stem(name), picture: { file: name, turn: 0 } }, picture, demo: false };
  }
  // A job file that names this picture was opened before it: its window and its turn hold.
  const same = now.picture.file === name;
  return { job: { ...now, picture: same ? now.picture : { file: name, turn: 0 } }, picture, demo: false };
}

/** A name that any disk takes. */
export function fileName(text: string): string {
  const safe = text
    .trim()
    .replace(/[\\/:*?"<>|\p{Cc}]+/gu, "-")
    .replace(/^\.+/, "");
  return safe.slice(0, 80) || "canvas";
}
