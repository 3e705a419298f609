// The latest announcement, which can be closed, and whether the core is busy.
import { restartCore } from "./state/core/connection";
import { announcement, closeAnnouncement, silent } from "./state/page/status";
import { wallState } from "./state/page/view";
import { busy } from "./state/work/work";
import { say } from "../speech/on_page";

/** At the top of the stage; where the notes stand below it, over these, so that it covers nothing of the canvas. */
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
      {wallState.value === "lost" && (
        <div class="status-said lost">
          <p role="status">{say("The 3D view stopped; it is being restarted. The sheet can still be seen.")}</p>
        </div>
      )}
      {wallState.value === "still" && (
        <div class="status-said lost">
          <p role="status">
            {say(
              "The 3D view has stopped. This is a still picture of it; the sheet, the figures and all files follow every change. Loading the page again may start it.",
            )}
          </p>
        </div>
      )}
      {silent.value && (
        <div class="status-said" id="silent">
          <p role="status">
            {say("The program has not answered for 20 s. It may be at a long step, or it may hang.")}{" "}
            <button type="button" class="link" onClick={restartCore}>
              {say("Restart it; the job is kept")}
            </button>
          </p>
        </div>
      )}
      <p class="status-busy" aria-hidden="true" data-busy={busy.value !== ""}>
        {busy.value}
      </p>
    </div>
  );
}
