// The page's settings: its language and its theme.
import { RadioGroup } from "./controls/choice";
import type { Option } from "./state/page/names";
import { type ThemeChoice, themeChoice } from "./state/page/settings";
import { chooseLanguage, type Language, language, say } from "../speech/on_page";

const THEMES: readonly Option<ThemeChoice>[] = [
  { value: "system", word: say("As the system") },
  { value: "light", word: say("Light##theme") },
  { value: "dark", word: say("Dark") },
];

/** Each language in its own words; the page is loaded again in it, with the work that the browser keeps. */
const LANGUAGES: readonly Option<Language>[] = [
  { value: "en", word: "English" },
  { value: "de", word: "Deutsch" },
];

function speakIn(chosen: Language): void {
  if (chosen === language()) return;
  chooseLanguage(chosen);
  location.reload();
}

export function SettingsLine() {
  return (
    <div class="settings">
      <RadioGroup id="language" label={say("Language")} value={language()} options={LANGUAGES} choose={speakIn} />
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
