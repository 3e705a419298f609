// The controls below the stage: position of the fold, viewpoint, wall or sheet, and colour view.
import { useEffect, useRef } from "preact/hooks";
import type { ColourView } from "../../stage/types";
import { RadioGroup } from "../controls/choice";
import { colourView } from "../state/colour/viewing";
import { compared, endComparison } from "../state/compare/comparison";
import type { Option } from "../state/page/names";
import { reducedMotion } from "../state/page/settings";
import { wallWork } from "../state/photo/wall_work";
import {
  currentFoldStep,
  foldPosition,
  foldSteps,
  type Scene,
  scene,
  view,
  VIEWS,
  wallState,
} from "../state/page/view";
import { percentShown } from "../../units";
import { Glide } from "./glide";
import { say } from "../../speech/on_page";

const COLOURS: readonly Option<ColourView>[] = [
  { value: "filed", word: say("Original") },
  { value: "printed", word: say("As printed") },
  { value: "clip", word: say("Gamut map") },
];

/** The switches for wall or sheet, viewpoint and colour view. */
export function StageSwitches() {
  const onWall = scene.value === "wall";
  const scenes: readonly Option<Scene>[] = [
    ...(wallState.value === "none" ? [] : [{ value: "wall" as const, word: say("Wall") }]),
    { value: "sheet", word: say("Sheet") },
    ...(wallWork.value === undefined ? [] : [{ value: "photo" as const, word: say("Photograph") }]),
  ];
  return (
    <div class="stage-switches">
      {scenes.length > 1 && (
        <RadioGroup
          id="scene"
          label={say("Show")}
          value={scene.value}
          options={scenes}
          choose={(chosen) => (scene.value = chosen)}
        />
      )}
      {/* Here it lies on no pane. */}
      {compared.value !== undefined && (
        <button
          type="button"
          class="button end-comparison"
          aria-label={say("End the comparison")}
          onClick={endComparison}
        >
          <span class="end-comparison-long">{say("End the comparison")}</span>
          <span class="end-comparison-short">{say("End")}</span>
        </button>
      )}
      {onWall && (
        <RadioGroup
          id="view"
          label={say("Seen from")}
          value={view.value === "free" ? undefined : view.value}
          options={VIEWS}
          choose={(chosen) => (view.value = chosen)}
        />
      )}
      {scene.value !== "photo" && (
        <RadioGroup
          id="colour-view"
          label={say("Colours")}
          value={colourView.value}
          options={COLOURS}
          choose={(chosen) => (colourView.value = chosen)}
        />
      )}
    </div>
  );
}

/** The slider from flat to folded, with marks at the folding steps. */
export function FoldSlider() {
  const glide = useRef(new Glide((now) => (foldPosition.value = now)));
  useEffect(() => () => glide.current.stop(), []);
  if (foldSteps.value.length === 0) return null;
  const now = currentFoldStep.value;
  const number = now === undefined ? 0 : foldSteps.value.indexOf(now) + 1;
  const step = foldPosition.value === 0 ? say("Flat") : foldPosition.value === 1 ? say("Folded") : (now?.label ?? "");
  const go = (to: number): void =>
    glide.current.go(foldPosition.value, to, reducedMotion.value ? 0 : foldSteps.value.length * 900);
  return (
    <div class="fold">
      <button type="button" class="button fold-end" onClick={() => go(0)}>
        {say("Unfold")}
      </button>
      <div class="fold-track">
        <input
          id="fold"
          type="range"
          class="slider"
          aria-label={say("From flat to folded")}
          aria-valuetext={`${percentShown(foldPosition.value)}, ${step}`}
          min={0}
          max={1}
          step={0.005}
          value={foldPosition.value}
          style={{ "--share": foldPosition.value }}
          onInput={(event) => {
            glide.current.stop();
            foldPosition.value = event.currentTarget.valueAsNumber;
          }}
        />
        <span class="fold-ticks" aria-hidden="true">
          {foldSteps.value.slice(1).map((stage) => (
            <i key={stage.name} style={{ left: `${stage.start * 100}%` }} />
          ))}
        </span>
        <p class="fold-step" aria-hidden="true">
          {foldPosition.value > 0 && foldPosition.value < 1 && (
            <b>{say("{number} of {foldStepCount}", { number, foldStepCount: foldSteps.value.length })}</b>
          )}{" "}
          {step}
          {now?.hidden === true &&
            foldPosition.value > now.start &&
            foldPosition.value < now.end &&
            say(" (cloth bends here; only its start and end are shown)")}
        </p>
      </div>
      <button type="button" class="button fold-end" onClick={() => go(1)}>
        {say("Fold")}
      </button>
    </div>
  );
}
