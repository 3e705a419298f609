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

/**
 * What leads from one job to another, as a change of a job that may have gone on meanwhile: each field that differs takes
 * the later job's value, all others stay.
 */
export const changesTo =
  (before: Job, after: Job) =>
  (job: Job): Job => ({
    ...withDifferences(job, before, after),
    picture: withDifferences(job.picture, before.picture, after.picture),
    face: withDifferences(job.face, before.face, after.face),
    bars: withDifferences(job.bars, before.bars, after.bars),
    group: withDifferences(job.group, before.group, after.group),
    wrap: withDifferences(job.wrap, before.wrap, after.wrap),
    sides: withDifferences(job.sides, before.sides, after.sides),
    sheet: withDifferences(job.sheet, before.sheet, after.sheet),
    canvas: withDifferences(job.canvas, before.canvas, after.canvas),
    colour: withDifferences(job.colour, before.colour, after.colour),
    print: withDifferences(job.print, before.print, after.print),
  });

/** What the later one leaves out is undefined, which no text of a job holds. */
function withDifferences<P extends object>(now: P, before: P, after: P): P {
  const [old, next] = [
    new Map<string, unknown>(Object.entries(before)),
    new Map<string, unknown>(Object.entries(after)),
  ];
  const changed = [...new Set([...old.keys(), ...next.keys()])].filter(
    (name) => JSON.stringify(old.get(name)) !== JSON.stringify(next.get(name)),
  );
  return { ...now, ...Object.fromEntries(changed.map((name) => [name, next.get(name)])) };
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

/** The name, the client or the notes of the job, or the client's answer. */
export const setText =
  (part: Partial<Pick<Job, "name" | "client" | "notes" | "answer">>) =>
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

/** The width of a sheet or roll; what is loaded stays. */
export const setSheetWidth =
  (width_mm: number) =>
  (job: Job): Job => ({ ...job, sheet: { ...job.sheet, width_mm } });

/** The height of a sheet; a roll has none. */
export const setSheetHeight =
  (height_mm: number) =>
  (job: Job): Job =>
    job.sheet.height_mm === undefined ? job : { ...job, sheet: { ...job.sheet, height_mm } };

/** How much the canvas gives one way, in percent: 0 across, 1 down. */
export const setStretch =
  (place: 0 | 1, percent: number) =>
  (job: Job): Job => {
    const [across, down] = job.canvas.stretch_percent;
    return setCanvas({ stretch_percent: place === 0 ? [percent, down] : [across, percent] })(job);
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

/** A part of a side's own fill, where the side has one. */
export const setSidePart =
  (side: SideName, part: SideFill) =>
  (job: Job): Job => {
    const own = job.sides[side];
    return own === undefined ? job : setSide(side, { ...own, ...part })(job);
  };

/** A side with a fill of its own, at first that of the others, or as the others again. */
export const setSideOwn =
  (side: SideName, differs: boolean) =>
  (job: Job): Job =>
    setSide(side, differs ? { fill: job.sides.fill } : undefined)(job);

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
