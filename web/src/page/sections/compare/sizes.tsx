// Comparing face sizes: the job's own beside a smaller and a larger one, or a list of one's own.
import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { compare, refused } from "../../state/compare/comparison";
import { KINDS, parseSizes, sizesText, usualSizes } from "../../state/compare/plan";
import { entryError, quoted } from "../../state/page/fields";
import { unit } from "../../state/page/settings";
import { job } from "../../state/work/work";
import { say } from "../../../speech/on_page";

export function CompareSizes({ children }: { readonly children: ComponentChildren }) {
  const draft = useSignal<string | undefined>(undefined);
  if (job.value === undefined) return null;
  const values = usualSizes(job.value.face, unit.value);
  const usual = sizesText(values, unit.value);
  const start = (): void => {
    if (draft.value === undefined || draft.value.trim() === usual) {
      compare({ kind: "size", values });
      return;
    }
    const parsed = parseSizes(draft.value, unit.value);
    if (parsed.ok) compare({ kind: "size", values: parsed.sizes });
    else {
      const expected = say("sizes with commas between them, for example {usual}", { usual });
      refused.value = entryError(KINDS.size.field, expected, quoted(parsed.got), say("type the list again"));
    }
  };
  return (
    <div class="field compare-kind">
      <label class="field-label" for="compare-sizes">
        {say("Face sizes")}
      </label>
      <div class="row">
        <span class="entry entry-list">
          <input
            id="compare-sizes"
            type="text"
            autocomplete="off"
            spellcheck={false}
            aria-describedby="compare-sizes-unit"
            value={draft.value ?? usual}
            onInput={(event) => (draft.value = event.currentTarget.value)}
            onKeyDown={(event) => {
              if (event.key === "Enter") start();
            }}
          />
          <span class="entry-unit" id="compare-sizes-unit">
            {unit.value === "mm" ? "mm" : "in"}
          </span>
        </span>
        <button type="button" class="button" id="start-sizes" onClick={start}>
          {say("Compare sizes")}
        </button>
      </div>
      {children}
    </div>
  );
}
