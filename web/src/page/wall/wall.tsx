// The gallery wall: the stage is loaded when the page has painted, and follows the signals from then on.
import { effect } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import type { Stage } from "../../stage/types";
import { markShown } from "../state/marks";
import { reducedMotion, theme } from "../state/settings";
import { surroundings } from "../state/surroundings";
import { theStage } from "../state/the_stage";
import { drawnAt, scene, view, wallState, wanted } from "../state/view";
import { followColours } from "./wall_colours";
import { wallPanes } from "./wall_panes";

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

/** Make the stage, or say that there is none here; gives the way to end it. */
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
  theStage.value = stage;
  const ends = follow(stage);
  return () => {
    for (const one of ends) one();
    theStage.value = undefined;
    stage.dispose();
  };
}

/** Each effect gives the stage one thing, when that thing has changed. */
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
      // For whoever watches the page from outside: how many pictures the stage keeps.
      document.documentElement.dataset["textures"] = String(stage.counters.textures);
      if (drawn) return;
      drawn = true;
      stage.setAt(drawnAt.peek());
      wallState.value = "drawn";
      markShown();
    }),
    effect(() => {
      const now = drawnAt.value;
      if (drawn) stage.setAt(now);
    }),
    effect(() => {
      const place = wanted.value?.place;
      if (place !== undefined && scene.peek() === "wall") stage.focusPlace(place);
    }),
    effect(() => {
      if (scene.value === "wall") stage.resize();
    }),
  ];
}
