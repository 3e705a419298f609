// Unit and theme; and where to start from again.
import { Words } from "./controls/choice";
import type { Word } from "./state/page/names";
import { type ThemeChoice, themeChoice, unit } from "./state/page/settings";
import type { Unit } from "../units";

const UNITS: readonly Word<Unit>[] = [
  { value: "mm", word: "mm" },
  { value: "inch", word: "inch" },
];

const THEMES: readonly Word<ThemeChoice>[] = [
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
