// The page's settings: its theme.
import { RadioGroup } from "./controls/choice";
import type { Option } from "./state/page/names";
import { type ThemeChoice, themeChoice } from "./state/page/settings";

const THEMES: readonly Option<ThemeChoice>[] = [
  { value: "system", word: "As the system" },
  { value: "light", word: "Light" },
  { value: "dark", word: "Dark" },
];

export function SettingsLine() {
  return (
    <div class="settings">
      <RadioGroup
        id="theme"
        label="Page colours"
        value={themeChoice.value}
        options={THEMES}
        choose={(chosen) => (themeChoice.value = chosen)}
      />
    </div>
  );
}
