// Comparing bar depths: the usual three, or a list of one's own.
import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { Practice } from "../../controls/labelled_field";
import { compare, refused } from "../../state/compare/comparison";
import { depthsText, KINDS, parseDepths, usualDepths } from "../../state/compare/plan";
import { entryError, quoted } from "../../state/page/fields";
import { unit } from "../../state/page/settings";
import { say } from "../../../speech/on_page";

export function CompareDepths({ children }: { readonly children: ComponentChildren }) {
  const draft = useSignal<string | undefined>(undefined);
  const usualMm = usualDepths(unit.value);
  const usual = depthsText(usualMm, unit.value);
  const start = (): void => {
    if (draft.value === undefined || draft.value.trim() === usual) {
      compare({ kind: "depth", values: usualMm });
      return;
    }
    const parsed = parseDepths(draft.value, unit.value);
    if (parsed.ok) compare({ kind: "depth", values: parsed.depths_mm });
    else {
      const expected = say("lengths with commas between them, for example {usual}", { usual });
      refused.value = entryError(KINDS.depth.field, expected, quoted(parsed.got), say("type the list again"));
    }
  };
  return (
    <div class="field compare-kind">
      <label class="field-label" for="compare-depths">
        {say("Bar depths")}
      </label>
      <div class="row">
        <span class="entry entry-list">
          <input
            id="compare-depths"
            type="text"
            autocomplete="off"
            spellcheck={false}
            aria-describedby="compare-depths-unit compare-depths-says"
            value={draft.value ?? usual}
            onInput={(event) => (draft.value = event.currentTarget.value)}
            onKeyDown={(event) => {
              if (event.key === "Enter") start();
            }}
          />
          <span class="entry-unit" id="compare-depths-unit">
            {unit.value === "mm" ? "mm" : "in"}
          </span>
        </span>
        <button type="button" class="button" id="start-depths" onClick={start}>
          {say("Compare depths")}
        </button>
      </div>
      <p class="consequence" id="compare-depths-says">
        {say("Two to four, with commas between them")}
        <Practice
          text={
            unit.value === "mm"
              ? say("18, 38 and 50 mm are usual; from memory")
              : say("0.75, 1.5 and 2 in are usual; from memory")
          }
        />
      </p>
      {children}
    </div>
  );
}
