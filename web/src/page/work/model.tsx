// The 3D model: the folded canvas as a file for other programs, with the fold as an animation.
import { Words } from "../controls/choice";
import { bytesShown } from "../state/consequences";
import { download } from "../state/files";
import { upper } from "../state/messages";
import {
  makeModel,
  MODEL_MEGAPIXELS,
  modelColours,
  modelling,
  type Modelling,
  modelMegapixels,
  stopModel,
} from "../state/model";
import { fieldName } from "../state/names";
import { unit } from "../state/settings";
import { sizeShown, trimmed } from "../state/units";

const COLOURS = [
  { value: "printed", word: "As printed" },
  { value: "filed", word: "As filed" },
] as const;

const PIXELS = MODEL_MEGAPIXELS.map((number) => ({ value: String(number), word: `${number} million` }));

export function Model() {
  const now = modelling.value;
  return (
    <div class="part" id="model">
      <h3 class="minor">3D model</h3>
      <p class="meaning">
        Canvas and bars at true size, in metres, with the print on the canvas and the fold as an animation: a glTF 2.0
        binary file for programs that show rooms.
      </p>
      <Words
        id="model-colours"
        label="Colours of the model"
        value={modelColours.value}
        options={COLOURS}
        choose={(chosen) => (modelColours.value = chosen)}
      />
      <Words
        id="model-pixels"
        label="Pixels of its texture"
        value={String(modelMegapixels.value)}
        options={PIXELS}
        choose={(chosen) => (modelMegapixels.value = Number(chosen))}
      />
      {now.state === "making" ? (
        <div class="write-going">
          <label class="field-label" for="model-progress">
            {now.label}
          </label>
          <progress id="model-progress" max={1} value={now.done}>
            {Math.round(now.done * 100)} %
          </progress>
          <button type="button" class="button" onClick={stopModel}>
            Stop
          </button>
        </div>
      ) : (
        <button type="button" class="button" id="save-model" onClick={() => void makeModel()}>
          Save the model
        </button>
      )}
      <div aria-live="polite">
        <Outcome now={now} />
      </div>
    </div>
  );
}

function Outcome({ now }: { readonly now: Modelling }) {
  if (now.state === "stopped") return <p class="consequence">Stopped; no model was made.</p>;
  if (now.state === "failed") {
    const { field, expected, got, remedy } = now.message;
    return (
      <p class="message">
        {field !== "" && <strong>{upper(fieldName(field))}: </strong>}
        expected {expected}; got {got}. <em>{upper(remedy)}.</em>
      </p>
    );
  }
  if (now.state !== "made") return null;
  const { report, file, notes } = now;
  const [across, up, deep] = report.size_mm;
  return (
    <div class="report" id="model-report">
      <p>
        <strong>{report.file}</strong> was made, opened again and measured:
      </p>
      <dl>
        <dt>Over all</dt>
        <dd>
          {sizeShown(across, up, unit.value)}, {trimmed(deep, 1)} mm deep
        </dd>
        <dt>Texture</dt>
        <dd>
          {report.texture_px[0]} × {report.texture_px[1]} pixels
        </dd>
        <dt>Shape</dt>
        <dd>
          {report.triangles} triangles; the fold takes {trimmed(report.animation_s, 1)} s
        </dd>
        <dt>File</dt>
        <dd>{bytesShown(report.bytes)}</dd>
      </dl>
      {notes.map((note) => (
        <p key={note.code} class="consequence">
          {note.message} {note.remedy}
        </p>
      ))}
      <button type="button" class="button" onClick={() => download(file, report.file)}>
        Save it again
      </button>
    </div>
  );
}
