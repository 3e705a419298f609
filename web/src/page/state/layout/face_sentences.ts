// The largest face that is held, as text. Pure.
import type { Job, LargestFace } from "../../../contract/types";
import { sizeShown, type Unit } from "../../../units";
import { loaded } from "./consequences";

/** What rounding one side may take of the picture; more is a crop. */
const MOST_CROPPED = 0.01;

/** What the sheet holds at most, in a sentence. */
export function largestFaceSentence(face: LargestFace | undefined, job: Job, inUnit: Unit): string {
  const holder = loaded(job);
  if (face === undefined) return `This ${holder} holds no face with these bars and this turn-over.`;
  const size = sizeShown(face.width_mm, face.height_mm, inUnit);
  const crops = face.cropped_share > MOST_CROPPED ? "; it crops the picture, whose shape is too slender" : "";
  if (face.width_mm === job.face.width_mm && face.height_mm === job.face.height_mm)
    return `This is the largest face that this ${holder} holds${crops}.`;
  return `The largest face that this ${holder} holds is ${size}${crops}.`;
}

/** The sentence that tells of a face that was proposed. */
export function proposedSentence(face: LargestFace, job: Job, inUnit: Unit): string {
  const size = sizeShown(face.width_mm, face.height_mm, inUnit);
  const shape =
    face.cropped_share > MOST_CROPPED ? "as near to the picture's shape as it can be" : "in the picture's shape";
  return `The face is ${size}: the largest round size on this ${loaded(job)}, ${shape}. Undo takes it back.`;
}
