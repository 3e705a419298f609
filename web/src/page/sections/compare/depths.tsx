// Comparing bar depths: the usual three, or a list of one's own.
import type { ComponentChildren } from "preact";
import { Practice } from "../../controls/labelled_field";
import { compare } from "../../state/compare/comparison";
import { depthsText, KINDS, parseDepths, usualDepths } from "../../state/compare/plan";
import { unit } from "../../state/page/settings";
import { say } from "../../../speech/on_page";
import { ListEntry } from "./list_entry";

export function CompareDepths({ children }: { readonly children: ComponentChildren }) {
  const usual = usualDepths(unit.value);
  const usualText = depthsText(usual, unit.value);
  return (
    <ListEntry
      id="depths"
      field={KINDS.depth.field}
      label={say("Bar depths")}
      usual={usual}
      usualText={usualText}
      parse={(text) => parseDepths(text, unit.value)}
      expected={say("lengths with commas between them, for example {usual}", { usual: usualText })}
      startWord={say("Compare depths")}
      start={(values) => compare({ kind: "depth", values })}
      says={
        <>
          {say("Two to four, with commas between them")}
          <Practice
            text={
              unit.value === "mm"
                ? say("18, 38 and 50 mm are usual; from memory")
                : say("0.75, 1.5 and 2 in are usual; from memory")
            }
          />
        </>
      }
    >
      {children}
    </ListEntry>
  );
}
