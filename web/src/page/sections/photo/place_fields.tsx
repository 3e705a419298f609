// Where the piece hangs: its place by numbers, the edges that distances are measured to.
import { Consequence, FieldErrorText } from "../../controls/labelled_field";
import { scene } from "../../state/page/view";
import { unit } from "../../state/page/settings";
import { dropEdge, EYE_HEIGHT_MM, markEdge, movePiece } from "../../state/photo/hands";
import { wallPieces } from "../../state/photo/measured";
import { PLACE } from "../../state/photo/open_wall";
import { tool, type WallWork } from "../../state/photo/wall_work";
import { EDGE_WORDS, edgeSentence } from "../../state/photo/words";
import { hungSize } from "../../../photo/placing";
import { lengthShown } from "../../../units";
import { WallLength } from "./wall_length";
import { say } from "../../../speech/on_page";

export function WallPlace({ work }: { readonly work: WallWork }) {
  const [pieces] = wallPieces.value;
  const [x, y] = work.at;
  const floor = work.edges.find(({ kind }) => kind === "floor");
  return (
    <div class="part" id="wall-place" data-field={PLACE}>
      <h3 class="minor">{say("Where it hangs")}</h3>
      <p class="meaning">
        {say(
          "Drag the piece on the photograph, or move it by the arrow keys: 1 mm, with Shift 10 mm. Its middle is measured from the lower-left corner of the first reference.",
        )}
      </p>
      <div class="pair">
        <WallLength
          field="wall-right"
          label={say("Its middle, right of that corner")}
          value={x}
          commit={(mm) => movePiece([mm, y])}
        />
        <WallLength
          field="wall-up"
          label={say("Its middle, above that corner")}
          value={y}
          commit={(mm) => movePiece([x, mm])}
        />
      </div>
      {floor !== undefined && (
        <>
          <WallLength
            field="wall-floor"
            label={say("Its middle above the floor")}
            value={Math.round((y - floor.atMm) * 10) / 10}
            commit={(mm) => movePiece([x, floor.atMm + mm])}
          />
          <button
            type="button"
            class="button"
            id="eye-height"
            onClick={() => movePiece([x, floor.atMm + EYE_HEIGHT_MM])}
          >
            {say("Hang it at {eyeHeightMm}", { eyeHeightMm: lengthShown(EYE_HEIGHT_MM, unit.value) })}
          </button>
          <p class="meaning">{say("Eye height, 1450 to 1500 mm to the middle, is common practice.")}</p>
        </>
      )}
      <FieldErrorText field={PLACE} />
      <fieldset class="radio-group" id="wall-edges">
        <legend class="field-label">{say("Measure to")}</legend>
        {EDGE_WORDS.map(({ value, word }) => {
          const edge = work.edges.find(({ kind }) => kind === value);
          return (
            <div key={value}>
              <label class="tick">
                <input
                  type="checkbox"
                  value={value}
                  checked={edge !== undefined}
                  onChange={(event) => {
                    if (!event.currentTarget.checked) {
                      dropEdge(value);
                      return;
                    }
                    markEdge(value);
                    tool.value = "edges";
                    scene.value = "photo";
                  }}
                />
                <span>{word}</span>
              </label>
              {edge !== undefined && pieces !== undefined && (
                <Consequence text={edgeSentence(edge, work.at, hungSize(pieces), unit.value)} />
              )}
            </div>
          );
        })}
      </fieldset>
      {work.edges.length > 0 && (
        <p class="meaning">{say("Drag each dashed line on to its edge: “Work on: Edges” below the photograph.")}</p>
      )}
    </div>
  );
}
