// Until the first canvas is made: a baked picture of the demo on the wall, and how far loading is.
import darkDesk from "../../../demo_data/preview_dark_desk.webp?url";
import darkPhone from "../../../demo_data/preview_dark_phone.webp?url";
import lightDesk from "../../../demo_data/preview_light_desk.webp?url";
import lightPhone from "../../../demo_data/preview_light_phone.webp?url";
import { upper } from "./state/page/fields";
import { loading } from "./state/page/status";
import { shown } from "./state/work/work";

/** The same picture stands in index.html, so that it is painted before any script has come. */
export function Preview() {
  if (shown.value !== undefined) return null;
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

/** What is being loaded, and how far it is; or why the core could not be started. */
export function Loading() {
  const now = loading.value;
  if (now.state === "failed") {
    return (
      <div class="loading" role="alert">
        <p class="message">
          The core could not be started: {now.got}. <em>{upper(now.remedy)}.</em>
        </p>
      </div>
    );
  }
  const [label, done] = now.state === "loading" ? [now.label, now.done] : ["Making the canvas", 1];
  return (
    <div class="loading">
      <label for="loading-progress">{label}</label>
      <progress id="loading-progress" max={1} value={done} />
    </div>
  );
}
