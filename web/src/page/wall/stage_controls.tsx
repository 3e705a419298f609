// Under the stage: how far the canvas is folded, from where it is seen, and wall or sheet.
import { useEffect, useRef } from "preact/hooks";
import type { ColourView } from "../../stage/types";
import { Words } from "../controls/choice";
import { colourView } from "../state/colour/viewing";
import type { Word } from "../state/page/names";
import { reducedMotion } from "../state/page/settings";
import { at, scene, stageNow, stages, view, VIEWS, wallState } from "../state/page/view";
import { percentShown } from "../../units";
import { Glide } from "./glide";

const COLOURS: readonly Word<ColourView>[] = [
  { value: "filed", word: "As filed" },
  { value: "printed", word: "As printed" },
  { value: "clip", word: "Clip map" },
];

/** The four views, the switch from wall to sheet, and what of the colours is seen. */
export function Looks() {
  const onWall = scene.value === "wall";
  return (
    <div class="looks">
      {wallState.value !== "none" && (
        <Words
          id="scene"
          label="What is shown"
          quiet
          value={scene.value}
          options={[
            { value: "wall", word: "Wall" },
            { value: "sheet", word: "Sheet" },
          ]}
          choose={(chosen) => (scene.value = chosen)}
        />
      )}
      {onWall && (
        <Words
          id="view"
          label="Seen from"
          quiet
          value={view.value === "free" ? undefined : view.value}
          options={VIEWS}
          choose={(chosen) => (view.value = chosen)}
        />
      )}
      <Words
        id="colour-view"
        label="Colours"
        quiet
        value={colourView.value}
        options={COLOURS}
        choose={(chosen) => (colourView.value = chosen)}
      />
    </div>
  );
}

/** The one slider from flat to folded, with the steps at the bench marked on it. */
export function FoldSlider() {
  const glide = useRef(new Glide((now) => (at.value = now)));
  useEffect(() => () => glide.current.stop(), []);
  if (stages.value.length === 0) return null;
  const now = stageNow.value;
  const number = now === undefined ? 0 : stages.value.indexOf(now) + 1;
  const step = at.value === 0 ? "Flat" : at.value === 1 ? "Folded" : (now?.label ?? "");
  const go = (to: number): void => glide.current.go(at.value, to, reducedMotion.value ? 0 : stages.value.length * 900);
  return (
    <div class="fold">
      <button type="button" class="button fold-end" onClick={() => go(0)}>
        Unfold
      </button>
      <div class="fold-track">
        <input
          id="fold"
          type="range"
          class="slider"
          aria-label="From flat to folded"
          aria-valuetext={`${percentShown(at.value)}, ${step}`}
          min={0}
          max={1}
          step={0.005}
          value={at.value}
          style={{ "--share": at.value }}
          onInput={(event) => {
            glide.current.stop();
            at.value = event.currentTarget.valueAsNumber;
          }}
        />
        <span class="fold-ticks" aria-hidden="true">
          {stages.value.slice(1).map((stage) => (
            <i key={stage.name} style={{ left: `${stage.start * 100}%` }} />
          ))}
        </span>
        <p class="fold-step" aria-hidden="true">
          {at.value > 0 && at.value < 1 && <b>{`${number} of ${stages.value.length}`}</b>} {step}
          {now?.hidden === true &&
            at.value > now.start &&
            at.value < now.end &&
            " (cloth bends here; only its start and end are shown)"}
        </p>
      </div>
      <button type="button" class="button fold-end" onClick={() => go(1)}>
        Fold
      </button>
    </div>
  );
}
