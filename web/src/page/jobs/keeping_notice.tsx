// What stays in sight while it holds: that this tab only shows the job, or that it is not kept.
import { openCopy } from "../state/keeping/jobs";
import { currentId, keepingTrouble, readOnly, storage } from "../state/keeping/mode";
import { say, sayParts } from "../../speech/on_page";

export function KeepingNotice() {
  const id = currentId.value;
  if (readOnly.value && id !== undefined) {
    return (
      <p class="keeping-notice" id="read-only">
        {sayParts("{stressed} This job is open in another tab. Change it there, or", {
          stressed: <strong>{say("Only to look at.")}</strong>,
        })}{" "}
        <button type="button" class="link" onClick={() => void openCopy(id)}>
          {say("Open a copy")}
        </button>{" "}
        {say("here.")}
      </p>
    );
  }
  const trouble =
    storage.value === "none"
      ? say("This browser gives the page no storage: save the bundle before you close it.")
      : keepingTrouble.value;
  if (trouble === undefined) return null;
  return (
    <p class="keeping-notice" id="not-kept">
      <strong>{say("Not kept.")}</strong> {trouble}
    </p>
  );
}
