// The largest face that is held, as text. Pure.
import type { Job, LargestFace } from "../../../contract/types";
import { sizeShown, type Unit } from "../../../units";
import { loaded } from "./consequences";
import { say } from "../../../speech/on_page";

/** What the sheet holds at most, in a sentence. */
export function largestFaceSentence(face: LargestFace | undefined, job: Job, inUnit: Unit): string {
  const holder = loaded(job);
  if (face === undefined) return say("This {holder} holds no face with these bars and this turn-over.", { holder });
  const size = sizeShown(face.width_mm, face.height_mm, inUnit);
  const crops = face.crops ? say("; it crops the picture, whose shape is too slender") : "";
  const shape = crops === "" ? say(" in the picture's shape") : "";
  if (face.width_mm === job.face.width_mm && face.height_mm === job.face.height_mm)
    return say("This is the largest round size{shape} that this {holder} holds{crops}.", { shape, holder, crops });
  return say("The largest round size{shape} that this {holder} holds is {size}{crops}.", {
    shape,
    holder,
    size,
    crops,
  });
}

/** The sentence that tells of a face that was proposed. */
export function proposedSentence(face: LargestFace, job: Job, inUnit: Unit): string {
  const size = sizeShown(face.width_mm, face.height_mm, inUnit);
  const shape = face.crops ? say("as near to the picture's shape as it can be") : say("in the picture's shape");
  return say("The face is {size}: the largest round size on this {loaded}, {shape}. Undo takes it back.", {
    size,
    loaded: loaded(job),
    shape,
  });
}
