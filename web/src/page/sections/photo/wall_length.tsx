// A length on the wall: no part of the job.
import { Entry, type Parsed } from "../../controls/entry";
import { LabelledField } from "../../controls/labelled_field";
import { clearFieldErrors } from "../../state/page/fields";
import { unit } from "../../state/page/settings";
import { lengthStep, lengthText, parseLength } from "../../../units";

interface WallLengthProps {
  readonly field: string;
  readonly label: string;
  readonly value: number;
  readonly commit: (mm: number) => void;
  readonly practice?: string;
}

export function WallLength({ field, label, value, commit, practice }: WallLengthProps) {
  const now = unit.value;
  const parse = (text: string): Parsed<number> => {
    const parsed = parseLength(text.replace(/−/g, "-"), now);
    return parsed.ok ? { ok: true, value: parsed.mm } : parsed;
  };
  return (
    <LabelledField field={field} label={label} practice={practice}>
      <Entry
        field={field}
        value={value}
        text={(mm) => lengthText(mm, now)}
        parse={parse}
        commit={(mm) => {
          clearFieldErrors(field);
          commit(mm);
        }}
        step={(mm, steps) => mm + steps * lengthStep(now)}
        unit={now === "mm" ? "mm" : "in"}
      />
    </LabelledField>
  );
}
