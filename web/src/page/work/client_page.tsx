// The page for the client: what is offered, a few words to them, and the file.
import { Words } from "../controls/choice";
import { Consequence } from "../controls/shell";
import {
  clientWords,
  makeClientPage,
  making,
  type Making,
  offersComparison,
  stopMaking,
} from "../state/client_page";
import { variantsOnStage } from "../state/comparison";
import { bytesShown } from "../state/consequences";
import { download } from "../state/files";
import { upper } from "../state/messages";
import { fieldName } from "../state/names";

const OFFERED = [
  { value: "job", word: "This canvas" },
  { value: "comparison", word: "The variants side by side" },
] as const;

/** As many characters as the core takes. */
const LONGEST = 2000;

export function ClientPage() {
  const now = making.value;
  const variants = variantsOnStage.value;
  const compares = offersComparison.value && variants.length > 1;
  return (
    <div class="part" id="client-page">
      <h3 class="minor">Page for the client</h3>
      <p class="meaning">
        One file that opens from a disk, without any network: the canvas to be turned by hand, its sizes, what to
        expect of matte canvas, and a text to answer with. Your notes, the picture itself and its name stay here.
      </p>
      {variants.length > 1 && (
        <Words
          id="client-offered"
          label="Offered"
          value={compares ? "comparison" : "job"}
          options={OFFERED}
          choose={(chosen) => (offersComparison.value = chosen === "comparison")}
        />
      )}
      <div class="field">
        <label class="field-label" for="client-words">
          A few words to the client
        </label>
        <textarea
          id="client-words"
          class="entry-text"
          rows={3}
          dir="auto"
          maxLength={LONGEST}
          value={clientWords.value}
          onInput={(event) => (clientWords.value = event.currentTarget.value)}
        />
        <Consequence
          text={
            compares
              ? `The client chooses one of ${variants.length}.`
              : "Compare depths or fills first, and the client can choose among them."
          }
        />
      </div>
      {now.state === "making" ? (
        <div class="write-going">
          <label class="field-label" for="client-progress">
            {now.label}
          </label>
          <progress id="client-progress" max={1} value={now.done}>
            {Math.round(now.done * 100)} %
          </progress>
          <button type="button" class="button" onClick={stopMaking}>
            Stop
          </button>
        </div>
      ) : (
        <button
          type="button"
          class="button button-main"
          id="save-client-page"
          onClick={() => void makeClientPage(compares ? variants : [])}
        >
          Save the client page
        </button>
      )}
      <div aria-live="polite">
        <Outcome now={now} />
      </div>
    </div>
  );
}

function Outcome({ now }: { readonly now: Making }) {
  if (now.state === "stopped") return <p class="consequence">Stopped; no page was made.</p>;
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
  return (
    <div class="report" id="client-report">
      <p>
        <strong>{report.file}</strong> was made, opened again and checked: {bytesShown(report.bytes)},{" "}
        {report.variants === 1 ? "one canvas" : `${report.variants} to choose from`}; it loads nothing from elsewhere.
      </p>
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
