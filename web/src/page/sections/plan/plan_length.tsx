// An entry for a length that belongs to the cutting plan, not to the job.
import { Entry, type Parsed } from "../../controls/entry";
import { LabelledField } from "../../controls/labelled_field";
import { clearFieldErrors } from "../../state/page/fields";
import { unit } from "../../state/page/settings";
import { lengthStep, lengthText, parseLength } from "../../../units";

interface PlanLengthProps {
  readonly field: string;
  readonly label: string;
  readonly value: number;
  readonly commit: (mm: number) => void;
}

export function PlanLength({ field, label, value, commit }: PlanLengthProps) {
  const now = unit.value;
  const parse = (text: string): Parsed<number> => {
    const parsed = parseLength(text, now);
    return parsed.ok ? { ok: true, value: parsed.mm } : parsed;
  };
  return (
    <LabelledField field={field} label={label}>
      <Entry
        field={field}
        value={value}
        text={(mm) => lengthText(mm, now)}
        parse={parse}
        commit={(mm) => {
          clearFieldErrors(field);
          commit(mm);
        }}
        step={(mm, steps) => Math.max(0, mm + steps * lengthStep(now))}
        unit={now === "mm" ? "mm" : "in"}
      />
    </LabelledField>
  );
}
