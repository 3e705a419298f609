// Before the first canvas is made: a baked picture of the demo on the wall, and the progress of loading.
import darkDesk from "../../../demo_data/preview_dark_desk.webp?url";
import darkPhone from "../../../demo_data/preview_dark_phone.webp?url";
import lightDesk from "../../../demo_data/preview_light_desk.webp?url";
import lightPhone from "../../../demo_data/preview_light_phone.webp?url";
import { capitalised } from "./state/page/fields";
import { loading } from "./state/page/status";
import { startWithDemo, tabHasJob } from "./state/keeping/jobs";
import { tryAgain } from "./state/work/boot";
import { wallState } from "./state/page/view";
import { shown } from "./state/work/work";
import { say, sayParts } from "../speech/on_page";

/** The same picture stands in index.html, so that it is painted before any script has come. */
export function Preview() {
  if (shown.value !== undefined || wallState.value === "drawn") return null;
  return (
    <div class="preview">
      <picture>
        <source media="(prefers-color-scheme: dark) and (min-width: 54rem)" srcset={darkDesk} />
        <source media="(prefers-color-scheme: dark)" srcset={darkPhone} />
        <source media="(min-width: 54rem)" srcset={lightDesk} />
        <img class="preview-picture" src={lightPhone} alt="" />
      </picture>
    </div>
  );
}

/** The progress of loading, or the reason why the core could not start. */
export function Loading() {
  const now = loading.value;
  if (now.state === "failed") {
    return (
      <div class="loading" role="alert">
        <p class="error-text">
          {sayParts("The page could not start: {got}. {stressed}", {
            got: now.got,
            stressed: <em>{capitalised(now.remedy)}.</em>,
          })}
        </p>
        <p class="loading-ways">
          <button type="button" class="button" id="try-again" onClick={() => void tryAgain()}>
            {say("Try again")}
          </button>{" "}
          {shown.value === undefined && tabHasJob() && (
            <button type="button" class="text-button" id="start-demo" onClick={startWithDemo}>
              {say("Start with the demo; your job is kept")}
            </button>
          )}
        </p>
      </div>
    );
  }
  const [label, done] = now.state === "loading" ? [say("Getting ready"), now.done] : [say("Making the canvas"), 1];
  return (
    <div class="loading">
      <label for="loading-progress">
        {label}, {Math.round(done * 100)} %
      </label>
      <progress id="loading-progress" max={1} value={done} />
    </div>
  );
}
