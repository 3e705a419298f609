// The brush that paints things in front over the piece.
import { RadioGroup } from "../../controls/choice";
import { More } from "../../controls/section";
import { scene } from "../../state/page/view";
import { undoStroke } from "../../state/photo/hands";
import { brushClears, brushShare, changeWall, tool, type WallWork } from "../../state/photo/wall_work";

const DOES = [
  { value: "paints", word: "Paint in front" },
  { value: "clears", word: "Rub out" },
] as const;

export function InFront({ work }: { readonly work: WallWork }) {
  const none = work.strokes.length === 0;
  return (
    <More summary="Things in front of the piece">
      <p class="meaning">A lamp or a plant before the wall: paint over it, and it stands in front of the piece.</p>
      <div class="field">
        <RadioGroup
          id="brush-does"
          label="The brush"
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
          Its size
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
          aria-valuetext={`${Math.round(brushShare.value * Math.max(...work.photo.px) * 2)} pixels across`}
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
          Use the brush
        </button>
        <button type="button" class="button" id="undo-stroke" disabled={none} onClick={undoStroke}>
          Take back the last stroke
        </button>
        <button
          type="button"
          class="button"
          id="clear-strokes"
          disabled={none}
          onClick={() => changeWall({ strokes: [] })}
        >
          Take back all
        </button>
      </div>
    </More>
  );
}
