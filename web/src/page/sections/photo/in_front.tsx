// The brush that paints things in front over the piece.
import { RadioGroup } from "../../controls/choice";
import { More } from "../../controls/section";
import { scene } from "../../state/page/view";
import { undoStroke } from "../../state/photo/hands";
import { brushClears, brushShare, changeWall, tool, type WallWork } from "../../state/photo/wall_work";
import { say } from "../../../speech/on_page";

const DOES = [
  { value: "paints", word: say("Paint in front") },
  { value: "clears", word: say("Rub out") },
] as const;

export function InFront({ work }: { readonly work: WallWork }) {
  const none = work.strokes.length === 0;
  return (
    <More summary={say("Things in front of the piece")}>
      <p class="meaning">
        {say("A lamp or a plant before the wall: paint over it, and it stands in front of the piece.")}
      </p>
      <div class="field">
        <RadioGroup
          id="brush-does"
          label={say("The brush")}
          value={brushClears.value ? "clears" : "paints"}
          options={DOES}
          choose={(chosen) => {
            brushClears.value = chosen === "clears";
            tool.value = "brush";
            scene.value = "photo";
          }}
        />
      </div>
      <div class="field">
        <label class="field-label" for="brush-size">
          {say("Its size")}
        </label>
        <input
          type="range"
          class="slider"
          id="brush-size"
          min={0.002}
          max={0.06}
          step={0.002}
          value={brushShare.value}
          style={{ "--share": (brushShare.value - 0.002) / 0.058 }}
          aria-valuetext={say("{brushShare} pixels across", {
            brushShare: Math.round(brushShare.value * Math.max(...work.photo.px) * 2),
          })}
          onInput={(event) => (brushShare.value = event.currentTarget.valueAsNumber)}
        />
      </div>
      <div class="row">
        <button
          type="button"
          class="button"
          id="use-brush"
          onClick={() => {
            tool.value = "brush";
            scene.value = "photo";
          }}
        >
          {say("Use the brush")}
        </button>
        <button type="button" class="button" id="undo-stroke" disabled={none} onClick={undoStroke}>
          {say("Take back the last stroke")}
        </button>
        <button
          type="button"
          class="button"
          id="clear-strokes"
          disabled={none}
          onClick={() => changeWall({ strokes: [] })}
        >
          {say("Take back all")}
        </button>
      </div>
    </More>
  );
}
