// The page's settings: unit and theme.
import { RadioGroup } from "./controls/choice";
import type { Option } from "./state/page/names";
import { type ThemeChoice, themeChoice, unit } from "./state/page/settings";
import type { Unit } from "../units";

const UNITS: readonly Option<Unit>[] = [
  { value: "mm", word: "mm" },
  { value: "inch", word: "inch" },
];

const THEMES: readonly Option<ThemeChoice>[] = [
  { value: "system", word: "As the system" },
  { value: "light", word: "Light" },
  { value: "dark", word: "Dark" },
];

export function SettingsLine() {
  return (
    <div class="settings">
      <RadioGroup
        id="unit"
        label="Lengths"
        value={unit.value}
        options={UNITS}
        choose={(chosen) => (unit.value = chosen)}
      />
      <RadioGroup
        id="theme"
        label="Page"
        value={themeChoice.value}
        options={THEMES}
        choose={(chosen) => (themeChoice.value = chosen)}
      />
    </div>
  );
}
