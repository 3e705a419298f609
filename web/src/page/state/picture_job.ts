// What a job becomes with another picture, and how files are named after jobs. Pure.
import type { Job } from "../../contract/types";
import type { Work } from "./work";

/** The name without its ending, for naming a job after its picture. */
export function stem(name: string): string {
  return name.replace(/\.[^.]+$/, "") || name;
}

/** What a job becomes with another picture: the demo makes room for a new job, a job of one's own goes on. */
export function withPicture(now: Job, fresh: Job | undefined, name: string, picture: number): Work {
  if (fresh !== undefined) {
    // A canvas profile that was opened is the user's own, though the demo was still in hand.
    const colour = { ...fresh.colour, profile: now.colour.profile };
    return { job: { ...fresh, colour, name: stem(name), picture: { file: name, turn: 0, enlarging: "photograph" } }, picture, demo: false };
  }
  // A job file that names this picture was opened before it: its window and its turn hold.
  const same = now.picture.file === name;
  return { job: { ...now, picture: same ? now.picture : { file: name, turn: 0, enlarging: "photograph" } }, picture, demo: false };
}

/** A name that any disk takes. */
export function fileName(text: string): string {
  const plain = text
    .trim()
    .replace(/[\\/:*?"<>|\u0000-\u001f]+/g, "-")
    .replace(/^\.+/, "");
  return plain.slice(0, 80) || "canvas";
}
