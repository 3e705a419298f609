// The page's entry: it paints first, and loads Python after that.
import { render } from "preact";
import { App } from "./app";
import { effect } from "@preact/signals";
import { boot } from "./state/work/boot";
import { clipQuery, startClipQueries } from "./state/colour/clip";
import { lookQuery, startLookQueries, unadjustedLookQuery } from "./state/colour/look";
import { startChoiceQueries } from "./state/choices/choices";
import { watchPointer } from "./state/core/queries";
import { startLargestFaceQueries } from "./state/layout/proposed_face";
import { startComparisonQueries } from "./state/compare/comparison";
import { startPlanQueries } from "./state/plan/cutting";
import { keepPlanChoices } from "./state/plan/options";
import { restorePresets } from "./state/presets/presets";
import { keepWall } from "./state/photo/kept_wall";
import { startWallQueries } from "./state/photo/measured";
import { showWallBusy } from "./state/photo/open_wall";
import { startEdgeQueries } from "./state/sides/edges";
import { startWritingViews } from "./state/first_view/first_view";
import { keepingState } from "./state/keeping/mode";
import { firstPaint, painted } from "./state/page/status";
import { keepForOffline } from "./state/page/offline";
import { keepSettings } from "./state/page/settings";
import { keepSurroundings } from "./state/page/surroundings";
import { waiting } from "./state/work/work";
import { listenToPage, openLaunchedFiles } from "./page_events";
import { keepFocus } from "./focus_kept";
import "./style/page.css";
import { say } from "../speech/on_page";

document.title = say("Tuckfold: from a photograph to a folded canvas");
const page = document.getElementById("page");
if (page === null) throw new Error("index.html has no place for the page");
keepSettings();
keepSurroundings();
keepPlanChoices();
render(<App />, page);
// Tests read these from outside: how many changes wait, and whether the colour figures are those of the current job.
effect(() => {
  document.documentElement.dataset["waiting"] = String(waiting.value);
});
effect(() => {
  const pending = lookQuery.pending.value || unadjustedLookQuery.pending.value || clipQuery.pending.value;
  document.documentElement.dataset["colour"] = pending ? "asking" : "known";
});
effect(() => {
  document.documentElement.dataset["keeping"] = keepingState.value;
});
listenToPage();
keepForOffline();
keepFocus(page);
watchPointer();
startLookQueries();
startClipQueries();
startEdgeQueries();
startLargestFaceQueries();
startChoiceQueries();
startComparisonQueries();
startPlanQueries();
startWallQueries();
keepWall();
startWritingViews();
showWallBusy();
await firstPaint();
painted.value = true;
await boot();
openLaunchedFiles();
void restorePresets();
