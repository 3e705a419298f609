// Changes of the job: each names its field, has a label, and makes a new job from the old one.
import type {
  Bars,
  Canvas,
  Colour,
  Crop,
  Enlarging,
  Face,
  Group,
  Job,
  Print,
  SideFill,
  Sides,
  Wrap,
} from "../../../contract/types";

export type SideName = "top" | "right" | "bottom" | "left";
export const SIDES: readonly SideName[] = ["top", "right", "bottom", "left"];

export interface Edit {
  /** The contract's dotted name; a message about the change stands beside this field. */
  readonly field: string;
  /** In words, for undo. */
  readonly label: string;
  readonly change: (job: Job) => Job;
  /** The id of the gesture; changes of one gesture count as one step of undo. */
  readonly gesture?: string;
}

type Setter<P> = (part: Partial<P>) => (job: Job) => Job;

export const setFace: Setter<Face> = (part) => (job) => ({ ...job, face: { ...job.face, ...part } });
export const setBars: Setter<Bars> = (part) => (job) => ({ ...job, bars: { ...job.bars, ...part } });
/** How the panels share the picture and the wall. */
export const setGroup: Setter<Group> = (part) => (job) => ({ ...job, group: { ...job.group, ...part } });
export const setWrap: Setter<Wrap> = (part) => (job) => ({ ...job, wrap: { ...job.wrap, ...part } });
export const setSides: Setter<Sides> = (part) => (job) => ({ ...job, sides: { ...job.sides, ...part } });
export const setCanvas: Setter<Canvas> = (part) => (job) => ({ ...job, canvas: { ...job.canvas, ...part } });
export const setColour: Setter<Colour> = (part) => (job) => ({ ...job, colour: { ...job.colour, ...part } });
export const setPrint: Setter<Print> = (part) => (job) => ({ ...job, print: { ...job.print, ...part } });

/** How the picture is enlarged. */
export const setEnlarging =
  (enlarging: Enlarging) =>
  (job: Job): Job => ({ ...job, picture: { ...job.picture, enlarging } });

/** The name, the client or the notes of the job. */
export const setText =
  (part: Partial<Pick<Job, "name" | "client" | "notes">>) =>
  (job: Job): Job => ({ ...job, ...part });

/** A crop of the picture, or the largest centred one. */
export const setCrop =
  (crop: Crop | undefined) =>
  (job: Job): Job => {
    const { crop: _former, ...picture } = job.picture;
    return { ...job, picture: crop === undefined ? picture : { ...picture, crop } };
  };

/** A quarter turn clockwise; the crop is dropped, since its shape does not fit. */
export function turnPicture(job: Job): Job {
  const turned = setCrop(undefined)(job);
  const next = { 0: 90, 90: 180, 180: 270, 270: 0 } as const;
  return { ...turned, picture: { ...turned.picture, turn: next[job.picture.turn] } };
}

/** A sheet with a height, or a roll without one. */
export const setSheet =
  (width_mm: number, height_mm: number | undefined) =>
  (job: Job): Job => {
    const { height_mm: _former, ...sheet } = job.sheet;
    return { ...job, sheet: height_mm === undefined ? { ...sheet, width_mm } : { ...sheet, width_mm, height_mm } };
  };

/** One unprintable margin, in the order top, right, bottom, left. */
export const setMargin =
  (place: number, mm: number) =>
  (job: Job): Job => {
    const [top, right, bottom, left] = job.sheet.margin_mm;
    const now = [top, right, bottom, left].map((old, index) => (index === place ? mm : old));
    const [a = top, b = right, c = bottom, d = left] = now;
    return { ...job, sheet: { ...job.sheet, margin_mm: [a, b, c, d] } };
  };

/** One side's own fill; `undefined` lets it follow the others again. */
export const setSide =
  (side: SideName, own: SideFill | undefined) =>
  (job: Job): Job => {
    const { [side]: _former, ...others } = job.sides;
    return { ...job, sides: own === undefined ? others : { ...others, [side]: own } };
  };

/** Another number of panels or direction of hanging; the crop is dropped, since its shape does not fit. */
export const regroup =
  (part: Partial<Group>) =>
  (job: Job): Job =>
    setGroup(part)(setCrop(undefined)(job));

/** Width and height of the face exchanged; the crop is dropped. */
export function swapFace(job: Job): Job {
  const face = { width_mm: job.face.height_mm, height_mm: job.face.width_mm };
  return { ...setCrop(undefined)(job), face };
}
