// Unit and theme; and where to start from again.
import { Words } from "./controls/choice";
import { type ThemeChoice, themeChoice, unit } from "./state/settings";
import type { Unit } from "./state/units";

const UNITS: readonly { readonly value: Unit; readonly word: string }[] = [
  { value: "mm", word: "mm" },
  { value: "inch", word: "inch" },
];

const THEMES: readonly { readonly value: ThemeChoice; readonly word: string }[] = [
  { value: "system", word: "As the system" },
  { value: "light", word: "Light" },
  { value: "dark", word: "Dark" },
];

export function SettingsLine() {
  return (
    <div class="settings">
      <Words id="unit" label="Lengths" value={unit.value} options={UNITS} choose={(chosen) => (unit.value = chosen)} />
      <Words
        id="theme"
        label="Page"
        value={themeChoice.value}
        options={THEMES}
        choose={(chosen) => (themeChoice.value = chosen)}
      />
    </div>
  );
}
