// Two to four ways to make it, side by side under one light: depths, fills, finishes, canvases, bringing in.
import type { ComponentChildren } from "preact";
import { More } from "../controls/more";
import { Section } from "../controls/section";
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
} from "../state/comparison";
import { broughtWord, finishWord, KINDS, type Kind } from "../state/comparison_plan";
import { besideSentence } from "../state/comparison_words";
import { described, ILLUSTRATIVE } from "../state/colour_profiles";
import { type FieldMessage, upper } from "../state/messages";
import { fieldName, FILLS, FINISHES, fillWord } from "../state/names";
import { wallState } from "../state/view";
import { shown } from "../state/work";
import { CompareDepths } from "./compare_depths";
import { CompareTable } from "./compare_table";
import { Ticks } from "./compare_ticks";

/** Finer steps are for the slider. */
const STRENGTHS = [0, 0.25, 0.5, 1];

export function CompareSection() {
  if (shown.value === undefined) return null;
  const profiles = Object.keys({ [ILLUSTRATIVE]: true, ...described.value });
  return (
    <Section id="compare" number={7} title="Compare">
      <p class="meaning">Two to four ways to make it, side by side under one light, each with its figures.</p>
      <CompareDepths>
        <Refusal kind="depth" />
      </CompareDepths>
      <Ticks
        kind="fill"
        legend="Side fills, on all four sides"
        values={FILLS.map(({ value }) => value)}
        usual={["mirror", "carry", "draw-out", "fade"]}
        wordOf={fillWord}
        start={(values) => compare({ kind: "fill", values })}
      >
        <Refusal kind="fill" />
      </Ticks>
      <More summary="Finish, canvas profile, bring in">
        <Ticks
          kind="finish"
          legend="Corner finishes"
          values={FINISHES.map(({ value }) => value)}
          usual={["tucked", "lapped", "trimmed"]}
          wordOf={finishWord}
          start={(values) => compare({ kind: "finish", values })}
        >
          <Refusal kind="finish" />
        </Ticks>
        <Ticks
          kind="profile"
          legend="Canvas profiles that are open"
          values={profiles}
          usual={profiles.slice(0, 4)}
          wordOf={profileName}
          start={(values) => compare({ kind: "profile", values })}
          lacking={profiles.length < 2 ? "Open a profile in the section on colour, and there are two to compare." : ""}
        >
          <Refusal kind="profile" />
        </Ticks>
        <Ticks
          kind="bring-in"
          legend="Bring in"
          values={STRENGTHS}
          usual={[0, 0.5, 1]}
          wordOf={broughtWord}
          start={(values) => compare({ kind: "bring-in", values })}
        >
          <Refusal kind="bring-in" />
        </Ticks>
      </More>
      <Going />
      <div aria-live="polite" id="compare-says">
        <Says />
      </div>
      <CompareTable />
    </Section>
  );
}

/** How far it is, and a way to stop it. */
function Going() {
  const now = comparing.value;
  if (now === undefined) return null;
  return (
    <div class="write-going">
      <label class="field-label" for="compare-progress">
        {now.label}
      </label>
      <progress id="compare-progress" max={1} value={now.done}>
        {Math.round(now.done * 100)} %
      </progress>
      <button type="button" class="button" onClick={endComparison}>
        Stop
      </button>
    </div>
  );
}

function Says() {
  const now = compared.value;
  if (now === undefined) return null;
  if (outdated.value) return <p class="consequence">The job has changed; it is being compared anew.</p>;
  return (
    <p class="consequence">
      {besideSentence(choices.value.map(({ label }) => label), now.variants)}
      {wallState.value === "none" && " This browser draws no wall; the figures stand below."}
    </p>
  );
}

/** What a refusal is about: the thing that differs, or whatever was being compared. */
function kindOf({ field }: FieldMessage): Kind | undefined {
  const kinds: readonly Kind[] = ["depth", "fill", "finish", "profile", "bring-in"];
  return kinds.find((kind) => KINDS[kind].field === field) ?? plan.value?.kind;
}

/** Why these could not be compared, beside what asked for them. */
function Refusal({ kind }: { readonly kind: Kind }): ComponentChildren {
  const why = refused.value;
  if (why === undefined || kindOf(why) !== kind) return null;
  return (
    <p class="message" role="alert">
      {why.field !== "" && <strong>{upper(fieldName(why.field))}: </strong>}
      expected {why.expected}; got {why.got}. <em>{upper(why.remedy)}.</em>
    </p>
  );
}
