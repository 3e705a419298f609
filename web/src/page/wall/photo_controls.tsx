// Below the photograph: what is moved by hand, and where the piece hangs.
import { JobControls } from "../controls/job_controls";
import { RadioGroup } from "../controls/choice";
import type { Option } from "../state/page/names";
import { errorSentence, fieldErrors } from "../state/page/fields";
import { CORNERS, REFERENCE, SIZE, wallBusy, wallSearch } from "../state/photo/open_wall";
import { placedWall, wallPending } from "../state/photo/measured";
import { tool, wallWork } from "../state/photo/wall_work";
import { placeWords } from "../state/photo/place_words";
import { awaitedSentence } from "../state/photo/words";
import { job } from "../state/work/work";
import type { Tool } from "../../photo/state";
import { say } from "../../speech/on_page";

const TOOLS: readonly Option<Tool>[] = [
  { value: "piece", word: say("The piece") },
  { value: "corners", word: say("Corners") },
  { value: "edges", word: say("Edges") },
  { value: "brush", word: say("Things in front") },
];

export function PhotoControls() {
  const now = wallWork.value;
  const place = placeWords();
  if (now === undefined) return null;
  // The section that says it may be far from the photograph, or closed.
  const why = [SIZE, CORNERS, REFERENCE].flatMap((field) => fieldErrors.value[field] ?? [])[0];
  const refusal = why && errorSentence(why);
  const isMarked = job.value !== undefined && placedWall(now, job.value) !== undefined;
  return (
    <div class="photo-controls">
      <JobControls>
        <RadioGroup
          id="photo-tool"
          label={say("Work on")}
          value={tool.value}
          options={TOOLS}
          choose={(chosen) => (tool.value = chosen)}
        />
      </JobControls>
      {/* The text of the stage says the place, once the piece has come to rest. */}
      <p class="consequence" id="photo-place" aria-live={place === undefined ? "polite" : "off"}>
        {place ?? refusal ?? awaitedSentence(wallBusy.value, isMarked && wallPending.value)}
      </p>
      {wallSearch.value !== undefined && (
        <progress id="wall-search" max={1} value={wallSearch.value} aria-label={wallBusy.value} />
      )}
    </div>
  );
}
