// The page's language: the one that was chosen here by hand, else the browser's. Its catalogue is there before any
// module of the page that speaks is run, because all of them import this one.
import { createElement, Fragment, type ComponentChildren } from "preact";
import { speak, pieces, valueShown, type Language } from "./say";

export { decimal, inRow, language, lowered, mark, saidAgain, say, speak } from "./say";
export type { Language } from "./say";

const LANGUAGE_KEY = "tuckfold-language";

/** The language that was chosen by hand; a browser may forbid storage. */
function chosenLanguage(): Language | undefined {
  try {
    const kept = localStorage.getItem(LANGUAGE_KEY);
    return kept === "de" || kept === "en" ? kept : undefined;
  } catch {
    return undefined;
  }
}

/** Keep a language for this and later visits; undefined follows the browser. Rejects nothing: it may not last. */
export function chooseLanguage(language: Language | undefined): void {
  try {
    if (language === undefined) localStorage.removeItem(LANGUAGE_KEY);
    else localStorage.setItem(LANGUAGE_KEY, language);
  } catch (forbidden) {
    if (!(forbidden instanceof DOMException)) throw forbidden;
  }
}

/** The first of the browser's languages that is one of ours. */
export function browserLanguage(wanted: readonly string[]): Language {
  for (const tag of wanted) {
    const [language] = tag.toLowerCase().split("-");
    if (language === "de" || language === "en") return language;
  }
  return "en";
}

/** Text with elements in its places, in the order of the language in use. */
export function sayParts(template: string, values: Readonly<Record<string, ComponentChildren>>): ComponentChildren {
  return pieces(template, values).map((piece, place) => {
    if (typeof piece === "string") return piece;
    const value = values[piece.name];
    return createElement(
      Fragment,
      { key: place },
      typeof value === "string" || typeof value === "number" ? valueShown(value, piece.isText) : value,
    );
  });
}

const first = chosenLanguage() ?? browserLanguage(navigator.languages);
if (first === "de") {
  const { default: words } = await import("../../../pycore/speech/data/de.json");
  speak("de", words);
}
document.documentElement.lang = first;
