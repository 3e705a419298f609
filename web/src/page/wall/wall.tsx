// The wall: loads the stage after the page has painted, and passes the page's signals to it.
import { computed, effect } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import type { Job } from "../../contract/types";
import type { Stage, StagePane } from "../../stage/types";
import { clipped, highlighted } from "../state/colour/clip";
import { firstView } from "../state/first_view/first_view";
import { drawnView, look } from "../state/colour/look";
import { threshold } from "../state/colour/viewing";
import { comparison } from "../state/compare/comparison";
import { reducedMotion, theme } from "../state/page/settings";
import { markFirstView, markShown } from "../state/page/status";
import { surroundings } from "../state/page/surroundings";
import {
  captionsHighPx,
  drawnAt,
  scaleHighPx,
  scene,
  mountedStage,
  view,
  wallState,
  requestedPlace,
} from "../state/page/view";
import { piecesOf } from "../state/work/receive";
import { job, type Shown, shown } from "../state/work/work";

export function Wall() {
  const host = useRef<HTMLDivElement>(null);
  useEffect(() => {
    let ended = false;
    let end = (): void => {};
    void openWall(() => (ended ? null : host.current)).then((close) => {
      end = close;
      if (ended) close();
    });
    return () => {
      ended = true;
      end();
    };
  }, []);
  return <div class="wall-host" ref={host} hidden={scene.value !== "wall"} />;
}

/** Create the stage, or record that this browser has none. Returns the function that ends it. */
async function openWall(host: () => HTMLElement | null): Promise<() => void> {
  const { createStage, StageUnavailable } = await import("../../stage/stage");
  const element = host();
  if (element === null) return () => {};
  let stage: Stage;
  try {
    stage = createStage(element, {
      reducedMotion: reducedMotion.value,
      onView: (seen) => (view.value = seen),
      onLost: () => (wallState.value = "lost"),
      onGivenUp: () => (wallState.value = "still"),
      onRestored: () => (wallState.value = "drawn"),
    });
  } catch (failure) {
    if (!(failure instanceof StageUnavailable)) throw failure;
    wallState.value = "none";
    scene.value = "sheet";
    return () => {};
  }
  mountedStage.value = stage;
  const ends = follow(stage);
  return () => {
    for (const one of ends) one();
    mountedStage.value = undefined;
    stage.dispose();
  };
}

/** Each effect passes one input to the stage when that input has changed. */
function follow(stage: Stage): (() => void)[] {
  let drawn = false;
  return [
    ...followColours(stage),
    effect(() => stage.setTheme(theme.value)),
    effect(() => stage.setSurroundings(surroundings.value)),
    // Before the first canvas, so that the camera stands where it belongs instead of gliding there.
    effect(() => {
      const seen = view.value;
      if (seen !== "free") stage.setView(seen);
    }),
    effect(() => {
      const panes = wallPanes.value;
      if (panes === undefined) return;
      stage.setPanes(panes);
      // Tests read this from outside: how many pictures the stage keeps.
      document.documentElement.dataset["textures"] = String(stage.counters.textures);
      if (shown.value !== undefined) markShown();
      if (drawn) return;
      drawn = true;
      stage.setAt(drawnAt.peek());
      wallState.value = "drawn";
      markFirstView();
    }),
    effect(() => stage.setFoot(Math.max(captionsHighPx.value, scaleHighPx.value))),
    effect(() => {
      const now = drawnAt.value;
      if (drawn) stage.setAt(now);
    }),
    effect(() => {
      const place = requestedPlace.value?.place;
      if (place !== undefined && scene.peek() === "wall") stage.focusPlace(place);
    }),
    effect(() => {
      if (scene.value === "wall") stage.resize();
    }),
  ];
}

function followColours(stage: Stage): (() => void)[] {
  return [
    effect(() => {
      if (look.value !== undefined) stage.setLook(look.value);
    }),
    effect(() => stage.setColourView(drawnView.value)),
    effect(() => stage.setThreshold(threshold.value)),
    effect(() => {
      const labels = clipped.value?.labels;
      if (labels !== undefined) stage.setLabels(labels.labels, labels.widthPx, labels.heightPx);
    }),
    effect(() => stage.highlight(highlighted.value?.number ?? 0)),
  ];
}

/** The pane of a job as it is shown; none before its first canvas has come. */
function paneOf(now: Job, { fold, texture, panels, bars }: Shown): StagePane | undefined {
  if (fold === undefined || texture === undefined) return undefined;
  return { pieces: piecesOf(now, panels, { fold, texture }, bars.panel_g[1]) };
}

const own = computed(() => {
  const [now, on] = [job.value, shown.value];
  if (now !== undefined && on !== undefined) return paneOf(now, on);
  const first = firstView.value;
  return first && paneOf(first.job, first.shown);
});

/** The panes on the wall; until the core has made one, that of an earlier time, or nothing. */
const wallPanes = computed<readonly StagePane[] | undefined>(
  () => comparison.value ?? (own.value === undefined ? undefined : [own.value]),
);
