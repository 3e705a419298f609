// The rendering intent, black point compensation, and all of them side by side on this picture.
import { JobControls } from "../../controls/job_controls";
import { ProgressBar } from "../../controls/making";
import { FieldErrorText, ErrorText } from "../../controls/labelled_field";
import { intentsQuery, compareIntents, intentsQueryKey } from "../../state/colour/on_request";
import { setColour } from "../../state/work/edit";
import { fieldId } from "../../state/page/fields";
import { propose } from "../../state/work/run";
import { job } from "../../state/work/work";
import { IntentChoice } from "./intent_choice";
import { IntentsTable } from "./intents_table";
import { say } from "../../../speech/on_page";

const COMPENSATION = "colour.black_point_compensation";

export function ChooseIntent() {
  const colour = job.value?.colour;
  if (colour === undefined) return null;
  return (
    <>
      <IntentChoice label={say("Rendering intent")} />
      <div class="field" data-field={COMPENSATION}>
        <JobControls>
          <label class="tick">
            <input
              id={fieldId(COMPENSATION)}
              type="checkbox"
              checked={colour.black_point_compensation}
              onChange={(event) => {
                const change = setColour({ black_point_compensation: event.currentTarget.checked });
                void propose({ field: COMPENSATION, label: say("black point compensation"), change });
              }}
            />
            <span>{say("Black point compensation")}</span>
          </label>
        </JobControls>
        <p class="meaning">
          {colour.intent === "absolute"
            ? say("The absolute intent does not use it.")
            : colour.black_point_compensation
              ? say("The picture's black prints as the canvas's black, and the shadows keep their steps.")
              : say("Shadows darker than the canvas's black are lost in it.")}
        </p>
        <FieldErrorText field={COMPENSATION} />
      </div>
      <Compare />
    </>
  );
}

function Compare() {
  const { known, pending, progress, failure, requested } = intentsQuery;
  const table = known.value;
  const going = pending.value;
  // A failure is about the job that was asked of.
  const why = requested.value === intentsQueryKey() ? failure.value : undefined;
  return (
    <div class="field">
      {going ? (
        <ProgressBar
          id="intents-progress"
          progress={progress.value ?? { label: say("Waiting"), done: 0 }}
          stop={() => intentsQuery.stop()}
        />
      ) : (
        table?.key !== intentsQueryKey() && (
          <button type="button" class="button" id="compare-intents" onClick={compareIntents}>
            {say("Compare the intents on this picture")}
          </button>
        )
      )}
      <div aria-live="polite">
        {why && <ErrorText why={why} />}
        {table && <IntentsTable reply={table.value} outdated={table.key !== intentsQueryKey()} />}
      </div>
    </div>
  );
}
