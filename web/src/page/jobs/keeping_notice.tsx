// What stays in sight while it holds: that this tab only shows the job, or that it is not kept.
import { openCopy } from "../state/keeping/jobs";
import { currentId, keepingTrouble, readOnly, storage } from "../state/keeping/mode";

export function KeepingNotice() {
  const id = currentId.value;
  if (readOnly.value && id !== undefined) {
    return (
      <p class="keeping-notice" id="read-only">
        <strong>Only to look at.</strong> This job is open in another tab. Change it there, or{" "}
        <button type="button" class="link" onClick={() => void openCopy(id)}>
          Open a copy
        </button>{" "}
        here.
      </p>
    );
  }
  const trouble =
    storage.value === "none"
      ? "This browser gives the page no storage: save the bundle before you close it."
      : keepingTrouble.value;
  if (trouble === undefined) return null;
  return (
    <p class="keeping-notice" id="not-kept">
      <strong>Not kept.</strong> {trouble}
    </p>
  );
}
