// The compare section: two to four variants side by side under one light.
import { ProgressBar } from "../../controls/making";
import { More, Past } from "../../controls/section";
import { ErrorText } from "../../controls/labelled_field";
import {
  choices,
  compare,
  compared,
  comparing,
  endComparison,
  outdated,
  plan,
  profileName,
  refused,
} from "../../state/compare/comparison";
import { broughtWord, finishWord, KINDS, type Kind } from "../../state/compare/plan";
import { besideSentence } from "../../state/compare/figures";
import { profileReplies, ILLUSTRATIVE } from "../../state/colour/profiles";
import type { FieldError } from "../../state/page/fields";
import { FILLS, FINISHES, fillWord } from "../../state/page/names";
import { wallState } from "../../state/page/view";
import { shown } from "../../state/work/work";
import { CompareDepths } from "./depths";
import { CompareSizes } from "./sizes";
import { CompareTable } from "./table";
import { Ticks } from "./ticks";
import { say } from "../../../speech/on_page";

/** Finer steps are for the slider. */
const STRENGTHS = [0, 0.25, 0.5, 1];

export function CompareSection() {
  if (shown.value === undefined) return null;
  const profiles = Object.keys({ [ILLUSTRATIVE]: true, ...profileReplies.value });
  return (
    <>
      <p class="meaning">{say("Two to four ways to make it, side by side under one light, with their figures.")}</p>
      <Past summary={say("Bar depths, face sizes, side fills")} end="compare-more" />
      <CompareDepths>
        <Refused kind="depth" />
      </CompareDepths>
      <CompareSizes>
        <Refused kind="size" />
      </CompareSizes>
      <Ticks
        kind="fill"
        legend={say("Side fills, on all four sides")}
        values={FILLS.map(({ value }) => value)}
        usual={["mirror", "run-on", "drawn-out", "fade"]}
        wordOf={fillWord}
        start={(values) => compare({ kind: "fill", values })}
      >
        <Refused kind="fill" />
      </Ticks>
      <span id="compare-more" tabIndex={-1} />
      <More summary={say("Corners, canvas profile, bringing colours in")}>
        <Ticks
          kind="finish"
          legend={say("Corners")}
          values={FINISHES.map(({ value }) => value)}
          usual={["tucked", "lapped", "trimmed"]}
          wordOf={finishWord}
          start={(values) => compare({ kind: "finish", values })}
        >
          <Refused kind="finish" />
        </Ticks>
        <Ticks
          kind="profile"
          legend={say("Canvas profiles that are open")}
          values={profiles}
          usual={profiles.slice(0, 4)}
          wordOf={profileName}
          start={(values) => compare({ kind: "profile", values })}
          lacking={profiles.length < 2 ? say("Open a profile in the section on colour to compare it.") : ""}
        >
          <Refused kind="profile" />
        </Ticks>
        <Ticks
          kind="bring-in"
          legend={say("Bring colours in")}
          values={STRENGTHS}
          usual={[0, 0.5, 1]}
          wordOf={broughtWord}
          start={(values) => compare({ kind: "bring-in", values })}
        >
          <Refused kind="bring-in" />
        </Ticks>
      </More>
      {comparing.value && <ProgressBar id="compare-progress" progress={comparing.value} stop={endComparison} />}
      <div aria-live="polite" id="compare-says">
        <Says />
      </div>
      <CompareTable />
    </>
  );
}

function Says() {
  const now = compared.value;
  if (now === undefined) return null;
  if (outdated.value) return <p class="consequence">{say("The job has changed; it is being compared again.")}</p>;
  return (
    <p class="consequence">
      {besideSentence(
        choices.value.map(({ label }) => label),
        now.variants,
      )}
      {wallState.value === "none" && say(" This browser draws no wall; the figures are below.")}
    </p>
  );
}

/** The kind of comparison that an error is about: by its field, or else the kind that is compared. */
function kindOf({ field }: FieldError): Kind | undefined {
  const kinds: readonly Kind[] = ["depth", "size", "fill", "finish", "profile", "bring-in"];
  return kinds.find((kind) => KINDS[kind].field === field) ?? plan.value?.kind;
}

/** The reason why these variants could not be compared, beside the control that asked for it. */
function Refused({ kind }: { readonly kind: Kind }) {
  const why = refused.value;
  return why === undefined || kindOf(why) !== kind ? null : <ErrorText why={why} alert />;
}
