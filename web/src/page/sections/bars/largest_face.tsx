// The largest face that the loaded sheet or roll holds, and a button that takes it.
import { JobControls } from "../../controls/job_controls";
import type { Job } from "../../../contract/types";
import { largestFaceSentence } from "../../state/layout/face_sentences";
import { largestFace, takeLargestFace } from "../../state/layout/proposed_face";
import { unit } from "../../state/page/settings";
import { say } from "../../../speech/on_page";

export function LargestFace({ now }: { readonly now: Job }) {
  const known = largestFace.value;
  if (known === undefined) return null;
  const { face } = known;
  const isTaken = face?.width_mm === now.face.width_mm && face.height_mm === now.face.height_mm;
  return (
    <p class="consequence" id="largest-face">
      {largestFaceSentence(face, now, unit.value)}{" "}
      {face !== undefined && !isTaken && (
        <JobControls>
          <button type="button" class="link" id="take-largest-face" onClick={() => takeLargestFace(face)}>
            {say("Take it")}
          </button>
        </JobControls>
      )}
    </p>
  );
}
