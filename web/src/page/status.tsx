// The latest announcement, which can be closed, and whether the core is busy.
import { announcement, closeAnnouncement } from "./state/page/status";
import { busy } from "./state/work/work";
import { say } from "../speech/on_page";

/** At the top of the stage; on a narrow page below it, where it covers nothing of the canvas. */
export function Status() {
  const said = announcement.value;
  return (
    <div class="status">
      <div class="status-said" data-empty={said === ""}>
        <p class="status-announcement" role="status">
          {said}
        </p>
        {said !== "" && (
          <button type="button" class="status-close" aria-label={say("Close the message")} onClick={closeAnnouncement}>
            ×
          </button>
        )}
      </div>
      <p class="status-busy" aria-hidden="true" data-busy={busy.value !== ""}>
        {busy.value}
      </p>
    </div>
  );
}
