// The unit of all lengths on the page, offered beside the sizes.
import type { Option } from "../state/page/names";
import { unit } from "../state/page/settings";
import type { Unit } from "../../units";
import { RadioGroup } from "./choice";
import { say } from "../../speech/on_page";

const UNITS: readonly Option<Unit>[] = [
  { value: "mm", word: "mm" },
  { value: "inch", word: say("inch") },
];

export function UnitChoice({ id }: { readonly id: string }) {
  return (
    <div class="field">
      <RadioGroup
        id={id}
        label={say("Unit")}
        value={unit.value}
        options={UNITS}
        choose={(chosen) => (unit.value = chosen)}
      />
    </div>
  );
}
