// The 3D model: the folded canvas as a file for other programs, with the fold as an animation.
import type { ModelReport } from "../../../contract/types";
import { RadioGroup } from "../../controls/choice";
import { ProgressBar, MadeReport, Outcome } from "../../controls/making";
import { bytesShown } from "../../state/layout/consequences";
import type { MadeFile } from "../../state/output/making";
import { makeModel, MODEL_MEGAPIXELS, model, modelColours, modelMegapixels } from "../../state/output/model";
import { unit } from "../../state/page/settings";
import { lengthShown, pixelsShown, sizeShown, trimmed } from "../../../units";
import { say, sayParts } from "../../../speech/on_page";

const COLOURS = [
  { value: "printed", word: say("As printed") },
  { value: "filed", word: say("Original") },
] as const;

const PIXELS = MODEL_MEGAPIXELS.map((number) => ({ value: String(number), word: say("{number} million", { number }) }));

export function Model() {
  const now = model.now.value;
  return (
    <div class="part" id="model">
      <h3 class="minor">{say("3D model")}</h3>
      <p class="meaning">
        {say(
          "Canvas and bars at true size, in metres, with the print on the canvas and the fold as an animation: a glTF 2.0 binary file for programs that show rooms.",
        )}
      </p>
      <div class="field">
        <RadioGroup
          id="model-colours"
          label={say("Colours of the model")}
          value={modelColours.value}
          options={COLOURS}
          choose={(chosen) => (modelColours.value = chosen)}
        />
      </div>
      <div class="field">
        <RadioGroup
          id="model-pixels"
          label={say("Pixels of its texture")}
          value={String(modelMegapixels.value)}
          options={PIXELS}
          choose={(chosen) => (modelMegapixels.value = Number(chosen))}
        />
      </div>
      {now.state === "making" ? (
        <ProgressBar id="model-progress" progress={now} stop={() => model.stop()} />
      ) : (
        <button type="button" class="button" id="save-model" onClick={() => void makeModel()}>
          {say("Save the model")}
        </button>
      )}
      <Outcome now={now} stopped={say("no model was saved")}>
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
      <p>{sayParts("{file} was saved, opened again and measured:", { file: <strong>{report.file}</strong> })}</p>
      <dl>
        <dt>{say("Over all")}</dt>
        <dd>
          {say("{across}, {depth} deep", {
            across: sizeShown(across, up, unit.value),
            depth: lengthShown(depth, unit.value),
          })}
        </dd>
        <dt>{say("Texture")}</dt>
        <dd>{pixelsShown(...report.texture_px)}</dd>
        <dt>{say("Shape")}</dt>
        <dd>
          {say("{triangles} triangles; the fold takes {animation_s} s", {
            triangles: report.triangles,
            animation_s: trimmed(report.animation_s, 1),
          })}
        </dd>
        <dt>{say("File")}</dt>
        <dd>{bytesShown(report.bytes)}</dd>
      </dl>
    </MadeReport>
  );
}
