// Comparing face sizes: the job's own beside a smaller and a larger one, or a list of one's own.
import type { ComponentChildren } from "preact";
import { compare } from "../../state/compare/comparison";
import { KINDS, parseSizes, sizesText, usualSizes } from "../../state/compare/plan";
import { unit } from "../../state/page/settings";
import { job } from "../../state/work/work";
import { say } from "../../../speech/on_page";
import { ListEntry } from "./list_entry";

export function CompareSizes({ children }: { readonly children: ComponentChildren }) {
  if (job.value === undefined) return null;
  const usual = usualSizes(job.value.face, unit.value);
  const usualText = sizesText(usual, unit.value);
  return (
    <ListEntry
      id="sizes"
      field={KINDS.size.field}
      label={say("Face sizes")}
      usual={usual}
      usualText={usualText}
      parse={(text) => parseSizes(text, unit.value)}
      expected={say("sizes with commas between them, for example {usual}", { usual: usualText })}
      startWord={say("Compare sizes")}
      start={(values) => compare({ kind: "size", values })}
    >
      {children}
    </ListEntry>
  );
}
