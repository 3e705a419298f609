// The jobs that the browser keeps, as a list above the page.
import { useEffect, useRef } from "preact/hooks";
import { jobs } from "../state/keeping/jobs";
import { beginFromList, closeList, listBusy, listOpen, listOpened_ms, listTrouble } from "../state/keeping/list";
import { keepingTrouble, storage } from "../state/keeping/mode";
import { bytesShown, isNearlyFull, promised, room } from "../state/keeping/room";
import { announcement } from "../state/page/status";
import { JobLine } from "./job_line";
import { say, sayParts } from "../../speech/on_page";

export function JobsDialog() {
  const dialog = useRef<HTMLDialogElement>(null);
  const open = listOpen.value;
  useEffect(() => {
    if (open) dialog.current?.showModal();
    else dialog.current?.close();
  }, [open]);
  return (
    <dialog ref={dialog} class="jobs" id="jobs" aria-labelledby="jobs-title" onClose={closeList}>
      {open && (
        <>
          <div class="jobs-head">
            <h2 id="jobs-title">{say("Jobs")}</h2>
            <button type="button" class="text-button" onClick={closeList}>
              {say("Close")}
            </button>
          </div>
          <Keeping />
          {listTrouble.value !== "" && (
            <p class="error-text" role="alert">
              {listTrouble.value}
            </p>
          )}
          {/* What the page announces is not heard from behind the dialog. */}
          <p class="visually-hidden" role="status">
            {announcement.value}
          </p>
          <ul class="jobs-list">
            {jobs.value.map((entry) => (
              <JobLine key={entry.id} entry={entry} now_ms={listOpened_ms.value} />
            ))}
          </ul>
          {jobs.value.length === 0 && storage.value !== "none" && (
            <p class="aside">
              {say("No job yet: the demo is not kept. Open a picture of your own, or begin a new job.")}
            </p>
          )}
          <p>
            <button type="button" class="button" disabled={listBusy.value} onClick={() => void beginFromList()}>
              {say("New job")}
            </button>
          </p>
        </>
      )}
    </dialog>
  );
}

/** Where the jobs lie, how much room there is, and what may become of them. */
function Keeping() {
  if (storage.value === "none") {
    return (
      <p class="error-text">
        {sayParts("This browser gives the page no storage, so nothing is kept when you close it. {stressed}", {
          stressed: <em>{say("Save the bundle before.")}</em>,
        })}
      </p>
    );
  }
  const now = room.value;
  const narrow = now !== undefined && isNearlyFull(now, 0);
  return (
    <>
      <p class="aside">
        {say(
          "Each job is kept in this browser as you change it, with its pictures, profile, words and undo.{now}{promised}",
          {
            now:
              now === undefined
                ? ""
                : say(" They take {used_bytes} of {whole_bytes}.", {
                    used_bytes: bytesShown(now.used_bytes),
                    whole_bytes: bytesShown(now.whole_bytes),
                  }),
            promised:
              promised.value === false
                ? say(" The browser may delete them when it runs out of room; a bundle on your disk stays.")
                : "",
          },
        )}
      </p>
      {narrow && (
        <p class="error-text">
          {sayParts("The room is nearly used up. {stressed}", {
            stressed: <em>{say("Save the largest jobs as bundles, then delete them here.")}</em>,
          })}
        </p>
      )}
      {keepingTrouble.value !== undefined && <p class="error-text">{keepingTrouble.value}</p>}
    </>
  );
}
