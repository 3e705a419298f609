// The small picture of a job in the list: its picture's thumbnail, made once for each picture.
import { effect, signal } from "@preact/signals";
import { canvasOf, canvasWith, jpegOf } from "../page/jpeg";
import { NO_PICTURE } from "../work/pictures";
import { picture } from "../work/work";

const LONGEST_PX = 192;

/** By the picture's number. */
const made = new Map<number, Blob>();
/** Rises with each that has been made. */
export const smallMade = signal(0);

export function smallOf(id: number): Blob | undefined {
  return made.get(id);
}

/** One that came from the database. */
export function enterSmall(id: number, small: Blob): void {
  if (id !== NO_PICTURE && !made.has(id)) made.set(id, small);
}

/** Make one of each picture that the core opens. */
export function startSmallPictures(): void {
  effect(() => {
    const open = picture.value;
    if (open === undefined || made.has(open.id)) return;
    void smallBlob(open.thumbnail).then((small) => {
      if (small === undefined) return;
      made.set(open.id, small);
      smallMade.value += 1;
    });
  });
}

async function smallBlob(image: ImageData): Promise<Blob | undefined> {
  const share = Math.min(1, LONGEST_PX / Math.max(image.width, image.height));
  const side = (px: number): number => Math.max(1, Math.round(px * share));
  const small = canvasOf(side(image.width), side(image.height));
  small.getContext("2d")?.drawImage(canvasWith(image), 0, 0, small.width, small.height);
  return jpegOf(small, 0.85);
}
