// The page's settings: its theme.
import { RadioGroup } from "./controls/choice";
import type { Option } from "./state/page/names";
import { type ThemeChoice, themeChoice } from "./state/page/settings";
import { say } from "./speech";

const THEMES: readonly Option<ThemeChoice>[] = [
  { value: "system", word: say("As the system") },
  { value: "light", word: say("Light") },
  { value: "dark", word: say("Dark") },
];

export function SettingsLine() {
  return (
    <div class="settings">
      <RadioGroup
        id="theme"
        label={say("Page colours")}
        value={themeChoice.value}
        options={THEMES}
        choose={(chosen) => (themeChoice.value = chosen)}
      />
    </div>
  );
}
