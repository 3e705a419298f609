// Which picture a job has: a picture belongs to a job by its content. What was set for a picture (crop, rotation, way of
// enlarging, single sides) stays with a newer file of its name and its size. Pure.
import type { Face, Job, Picture, PictureInfo } from "../../../contract/types";
import { say } from "../../../speech/on_page";
import { SIDES } from "./edit";
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

/** Of an upright picture, as the core has read it. */
export type PixelSize = Pick<PictureInfo, "width_px" | "height_px">;

/** A job after another picture was opened in it. */
export interface Fitted {
  readonly work: Work;
  /** For the person it has the same picture as before: no face is proposed for it. */
  readonly goesOn: boolean;
  /** What of the former picture's stays or goes, in a sentence; absent where nothing was set for it. */
  readonly told?: string;
}

/**
 * The work with a picture that was opened, once its size is known. `after` keeps what was set for the former picture of
 * that name; here that goes where the sizes differ. Of a picture that is not at hand no size is known.
 */
export function fitted(
  before: Work,
  after: Work,
  former: PixelSize | undefined,
  opened: PixelSize | undefined,
): Fitted {
  if (before.demo) return { work: after, goesOn: false };
  if (after.picture === NO_PICTURE || isSameContent(before.job.picture, after.job.picture)) {
    return { work: after, goesOn: true };
  }
  const [file, isNamed] = [after.job.picture.file, before.job.picture.file !== ""];
  const sameSize =
    former === undefined ||
    opened === undefined ||
    (former.width_px === opened.width_px && former.height_px === opened.height_px);
  const goesOn = before.job.picture.file === file && sameSize;
  const parts = setFor(before.job);
  if (!isNamed) return { work: after, goesOn };
  if (goesOn) return { work: after, goesOn, ...(parts === undefined ? {} : { told: keptSentence(file, parts) }) };
  const work = { ...after, job: begunAnew(after.job) };
  return { work, goesOn, ...(parts === undefined ? {} : { told: droppedSentence(file, parts) }) };
}

/** Whether a file is the picture that a job names: by content, and by name where the job knows no content. */
export function isOf(picture: Picture, file: PictureFile): boolean {
  if (picture.sha256 !== "" && file.sha256 !== "") return picture.sha256 === file.sha256;
  return picture.file !== "" && picture.file === file.name;
}

function sameFace(one: Face, other: Face): boolean {
  return one.width_mm === other.width_mm && one.height_mm === other.height_mm;
}

function isSameContent(one: Picture, other: Picture): boolean {
  return one.sha256 !== "" && one.sha256 === other.sha256;
}

function named({ job, proposed }: Work, file: PictureFile): Omit<Work, "picture"> {
  const { file: former, sha256 } = job.picture;
  const next = { ...job, picture: { ...job.picture, file: file.name, sha256: file.sha256 } };
  // A job that names no picture is a pattern for any.
  const keeps = isOf(job.picture, file) || former === file.name || (former === "" && sha256 === "");
  // The name follows the picture until the person types one.
  const follows = job.name === "" || job.name === stem(former);
  const name = follows ? stem(file.name) : job.name;
  return {
    job: { ...(keeps ? next : begunAnew(next)), name },
    demo: false,
    ...(proposed === undefined ? {} : { proposed }),
  };
}

/** The job without what was set for its picture. */
function begunAnew(job: Job): Job {
  const { file, sha256 } = job.picture;
  const { top: _top, right: _right, bottom: _bottom, left: _left, ...sides } = job.sides;
  return { ...job, picture: { file, sha256, turn: 0, enlarging: "photograph" }, sides };
}

/** What was set for a job's picture, in words; undefined where nothing was. */
function setFor({ picture, sides }: Job): string | undefined {
  const parts = [
    ...(picture.crop === undefined ? [] : [say("the crop")]),
    ...(picture.turn === 0 ? [] : [say("the rotation")]),
    ...(picture.enlarging === "photograph" ? [] : [say("the way of enlarging")]),
    ...(SIDES.some((side) => sides[side] !== undefined) ? [say("the fills of single sides")] : []),
  ];
  const last = parts.pop();
  if (last === undefined || parts.length === 0) return last;
  return [parts.join(", "), last].join(say(" and "));
}

function keptSentence(file: string, parts: string): string {
  return say("{file:s} takes the place of the former picture of that name; the job keeps {parts}.", { file, parts });
}

function droppedSentence(file: string, parts: string): string {
  return say("{file:s} is another picture, so the job drops {parts} of the former one.", { file, parts });
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
