// The page for the client: what is offered, a few words to them, and the file.
import { RadioGroup } from "../../controls/choice";
import { ProgressBar, MadeReport, Outcome } from "../../controls/making";
import { Consequence } from "../../controls/labelled_field";
import { clientPage, makeClientPage, offersComparison, showsWall, wallIsFree } from "../../state/output/client_page";
import { measured } from "../../state/photo/measured";
import { readOnly } from "../../state/keeping/mode";
import { clientWords } from "../../state/work/beside_job";
import { variantsOnStage } from "../../state/compare/comparison";
import { bytesShown } from "../../state/layout/consequences";
import { say, sayParts } from "../../../speech/on_page";

const OFFERED = [
  { value: "job", word: say("This canvas") },
  { value: "comparison", word: say("The variants side by side") },
] as const;

/** As many characters as the core takes. */
const LONGEST = 2000;

export function ClientPage() {
  const now = clientPage.now.value;
  const variants = variantsOnStage.value;
  const compares = offersComparison.value && variants.length > 1;
  return (
    <div class="part" id="client-page">
      <h3 class="minor">{say("Page for the client")}</h3>
      <p class="meaning">
        {say(
          "One file that opens from a disk without a network: the canvas, which the client turns by hand, its sizes, what to expect of matte canvas, and a text to answer with. Your remarks, the picture file and its name stay here.",
        )}
      </p>
      {variants.length > 1 && (
        <RadioGroup
          id="client-offered"
          label={say("Offered")}
          value={compares ? "comparison" : "job"}
          options={OFFERED}
          choose={(chosen) => (offersComparison.value = chosen === "comparison")}
        />
      )}
      <div class="field">
        <label class="field-label" for="client-words">
          {say("A few words to the client")}
        </label>
        <textarea
          id="client-words"
          class="entry-text"
          rows={3}
          dir="auto"
          maxLength={LONGEST}
          value={clientWords.value}
          readOnly={readOnly.value}
          onInput={(event) => (clientWords.value = event.currentTarget.value)}
        />
        <Consequence
          text={
            compares
              ? say("The client chooses one of {variantCount}.", { variantCount: variants.length })
              : say("Compare depths or fills first, and the client can choose among them.")
          }
        />
      </div>
      {measured.value !== undefined && <OwnWall />}
      {now.state === "making" ? (
        <ProgressBar id="client-progress" progress={now} stop={() => clientPage.stop()} />
      ) : (
        <button
          type="button"
          class="button button-main"
          id="save-client-page"
          onClick={() => void makeClientPage(compares ? variants : [])}
        >
          {say("Save the client page")}
        </button>
      )}
      <Outcome now={now} stopped={say("no page was saved")}>
        {(files) =>
          files.map((made) => (
            <MadeReport key={made.report.file} made={made} id="client-report">
              <p>
                {sayParts(
                  "{file} was saved, opened again and checked: {bytes}, {words}; it loads nothing from elsewhere.",
                  {
                    file: <strong>{made.report.file}</strong>,
                    bytes: bytesShown(made.report.bytes),
                    words:
                      made.report.variants === 1
                        ? say("one canvas")
                        : say("{variants} to choose from", { variants: made.report.variants }),
                  },
                )}
              </p>
            </MadeReport>
          ))
        }
      </Outcome>
    </div>
  );
}

/** Whether the client gets a copy of the wall's photograph, and may move the piece on it. */
function OwnWall() {
  return (
    <div class="field">
      <label class="tick">
        <input
          type="checkbox"
          id="client-wall"
          checked={showsWall.value}
          onChange={(event) => (showsWall.value = event.currentTarget.checked)}
        />
        <span>{say("A reduced copy of the photograph of the wall")}</span>
      </label>
      <p class="meaning">
        {say(
          "The client sees the piece there. Without it the client can still open a photograph of their own; that stays with them.",
        )}
      </p>
      {showsWall.value && (
        <label class="tick">
          <input
            type="checkbox"
            id="client-wall-free"
            checked={wallIsFree.value}
            onChange={(event) => (wallIsFree.value = event.currentTarget.checked)}
          />
          <span>{say("The client may move the piece")}</span>
        </label>
      )}
    </div>
  );
}
