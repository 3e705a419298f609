// The client's answer comes back: pasted or opened, it picks the variant and stays with the job.
import { JobControls } from "../../controls/job_controls";
import { pressable } from "../../controls/pressable";
import { Consequence, FieldErrorText, NoteLines } from "../../controls/labelled_field";
import { OpenFile } from "../../controls/open_file";
import {
  ANSWER,
  answerDraft,
  forgetAnswer,
  openAnswer,
  takeAnswer,
  takenAnswer,
} from "../../state/output/client_answer";
import { fieldName } from "../../state/page/names";
import { fieldId } from "../../state/page/fields";
import { job } from "../../state/work/work";
import { say } from "../../../speech/on_page";

/** As many characters as the core takes. */
const LONGEST = 8000;

export function ClientAnswer() {
  const kept = job.value?.answer ?? "";
  const taken = takenAnswer.value;
  const draft = answerDraft.value;
  return (
    <div class="part" id="client-answer">
      <h3 class="minor">{say("The client's answer")}</h3>
      <div class="field" data-field={ANSWER}>
        <label class="field-label" for={fieldId(ANSWER)}>
          {say("The text that the client page gave")}
        </label>
        <JobControls>
          <textarea
            id={fieldId(ANSWER)}
            class="entry-text"
            rows={4}
            dir="auto"
            maxLength={LONGEST}
            value={draft}
            onInput={(event) => (answerDraft.value = event.currentTarget.value)}
          />
          <div class="row">
            <button
              type="button"
              class="button"
              id="take-answer"
              {...pressable(draft.trim() !== "", () => void takeAnswer(draft))}
            >
              {say("Use this answer")}
            </button>
            <OpenFile
              id="open-answer"
              label={say("Open a text file")}
              accept=".txt,text/plain"
              open={(file) => void openAnswer(file)}
            />
          </div>
        </JobControls>
        <FieldErrorText field={ANSWER} />
        <div aria-live="polite" id="answer-taken">
          {taken && (
            <Consequence
              text={`${say("The client says: {chosen}", { chosen: taken.chosen })} ${changes(taken.changed)}`}
            />
          )}
          {taken && <NoteLines notes={taken.notes} />}
        </div>
      </div>
      {kept !== "" && (
        <div class="report" id="answer-kept">
          <p>{say("Kept with the job:")}</p>
          <blockquote class="answer" dir="auto">
            {kept}
          </blockquote>
          <JobControls>
            <button type="button" class="button" onClick={() => void forgetAnswer()}>
              {say("Leave it out of the job")}
            </button>
          </JobControls>
        </div>
      )}
    </div>
  );
}

function changes(fields: readonly string[]): string {
  if (fields.length === 0) return say("The job has that already.");
  return say("Changed to it: {fields}.", { fields: fields.map((field) => fieldName(field)).join(", ") });
}
