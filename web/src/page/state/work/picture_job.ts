// Which picture a job has: a picture belongs to a job by its content. Pure.
import type { Face, Job, Picture } from "../../../contract/types";
import { NO_PICTURE, type PictureFile, pictureFile, pictureWith, stem } from "./pictures";
import type { Work } from "./work";

/** A job with nothing set, and the demo's job as it was shown at first. */
export interface Start {
  readonly fresh: Job;
  readonly demo: Job;
}

/** The work with another picture. A job of one's own goes on; of the demo only what was set on it stays. */
export function withPicture(now: Work, file: PictureFile, picture: number, start: Start | undefined): Work {
  if (now.demo && start !== undefined) return firstPicture(now.job, file, picture, start);
  const { file: name, sha256 } = now.job.picture;
  const lacksOne = now.picture === NO_PICTURE && (name !== "" || sha256 !== "");
  if (lacksOne && !isOf(now.job.picture, file)) return { ...now, offered: picture };
  return { ...named(now, file), picture };
}

/** The work with the picture that was offered in place of its own. */
export function withOffered(now: Work): Work {
  const file = now.offered === undefined ? undefined : pictureFile(now.offered);
  if (now.offered === undefined || file === undefined) return now;
  return { ...named(now, file), picture: now.offered };
}

/** A job that was opened, with its picture where that is at hand; the one in hand is offered where it is not. */
export function openedJob(job: Job, now: Work): Work {
  const inHand = pictureFile(now.picture);
  const known = pictureWith(job.picture.sha256);
  const picture =
    known === NO_PICTURE && inHand !== undefined && !now.demo && isOf(job.picture, inHand) ? now.picture : known;
  const offers = picture === NO_PICTURE && inHand !== undefined && !now.demo;
  return { job, picture, demo: false, ...(offers ? { offered: now.picture } : {}) };
}

/** Whether the page may propose a face: none was set, or the one that was proposed still stands. */
export function isFaceOpen(now: Work, start: Start | undefined): boolean {
  const set = now.demo ? start?.demo.face : now.proposed;
  return set !== undefined && sameFace(set, now.job.face);
}

/** Whether a file is the picture that a job names: by content, and by name where the job knows no content. */
export function isOf(picture: Picture, file: PictureFile): boolean {
  if (picture.sha256 !== "" && file.sha256 !== "") return picture.sha256 === file.sha256;
  return picture.file !== "" && picture.file === file.name;
}

function sameFace(one: Face, other: Face): boolean {
  return one.width_mm === other.width_mm && one.height_mm === other.height_mm;
}

function named({ job, proposed }: Work, file: PictureFile): Omit<Work, "picture"> {
  const picture = isOf(job.picture, file)
    ? { ...job.picture, file: file.name, sha256: file.sha256 }
    : { file: file.name, sha256: file.sha256, turn: 0 as const, enlarging: "photograph" as const };
  // The name follows the picture until the person types one.
  const follows = job.name === "" || job.name === stem(job.picture.file);
  const name = follows ? stem(file.name) : job.name;
  return { job: { ...job, name, picture }, demo: false, ...(proposed === undefined ? {} : { proposed }) };
}

function firstPicture(now: Job, { name, sha256 }: PictureFile, picture: number, { fresh, demo }: Start): Work {
  const set = <K extends keyof Job>(part: K): Job[K] =>
    JSON.stringify(now[part]) === JSON.stringify(demo[part]) ? fresh[part] : now[part];
  const job: Job = {
    ...fresh,
    name: now.name === demo.name ? stem(name) : now.name,
    client: set("client"),
    notes: set("notes"),
    picture: { file: name, sha256, turn: 0, enlarging: "photograph" },
    face: set("face"),
    bars: set("bars"),
    group: set("group"),
    wrap: set("wrap"),
    sides: set("sides"),
    sheet: set("sheet"),
    canvas: set("canvas"),
    colour: set("colour"),
    print: set("print"),
  };
  return { job, picture, demo: false };
}
