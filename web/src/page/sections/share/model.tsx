// The 3D model: the folded canvas as a file for other programs, with the fold as an animation.
import type { ModelReport } from "../../../contract/types";
import { RadioGroup } from "../../controls/choice";
import { ProgressBar, MadeReport, Outcome } from "../../controls/making";
import { bytesShown } from "../../state/layout/consequences";
import type { MadeFile } from "../../state/output/making";
import { makeModel, MODEL_MEGAPIXELS, model, modelColours, modelMegapixels } from "../../state/output/model";
import { unit } from "../../state/page/settings";
import { lengthShown, sizeShown, trimmed } from "../../../units";

const COLOURS = [
  { value: "printed", word: "As printed" },
  { value: "filed", word: "Original" },
] as const;

const PIXELS = MODEL_MEGAPIXELS.map((number) => ({ value: String(number), word: `${number} million` }));

export function Model() {
  const now = model.now.value;
  return (
    <div class="part" id="model">
      <h3 class="minor">3D model</h3>
      <p class="meaning">
        Canvas and bars at true size, in metres, with the print on the canvas and the fold as an animation: a glTF 2.0
        binary file for programs that show rooms.
      </p>
      <div class="field">
        <RadioGroup
          id="model-colours"
          label="Colours of the model"
          value={modelColours.value}
          options={COLOURS}
          choose={(chosen) => (modelColours.value = chosen)}
        />
      </div>
      <div class="field">
        <RadioGroup
          id="model-pixels"
          label="Pixels of its texture"
          value={String(modelMegapixels.value)}
          options={PIXELS}
          choose={(chosen) => (modelMegapixels.value = Number(chosen))}
        />
      </div>
      {now.state === "making" ? (
        <ProgressBar id="model-progress" progress={now} stop={() => model.stop()} />
      ) : (
        <button type="button" class="button" id="save-model" onClick={() => void makeModel()}>
          Save the model
        </button>
      )}
      <Outcome now={now} stopped="no model was saved">
        {(files) => files.map((made) => <Report key={made.report.file} made={made} />)}
      </Outcome>
    </div>
  );
}

function Report({ made }: { readonly made: MadeFile<ModelReport> }) {
  const { report } = made;
  const [across, up, depth] = report.size_mm;
  return (
    <MadeReport made={made} id="model-report">
      <p>
        <strong>{report.file}</strong> was saved, opened again and measured:
      </p>
      <dl>
        <dt>Over all</dt>
        <dd>
          {sizeShown(across, up, unit.value)}, {lengthShown(depth, unit.value)} deep
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
    </MadeReport>
  );
}
