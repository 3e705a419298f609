// The page's settings: unit and theme. The browser keeps them, apart from the job.
import { computed, effect, signal } from "@preact/signals";
import type { Unit } from "../../../units";

export type ThemeChoice = "system" | "light" | "dark";

const UNIT_KEY = "tuckfold-unit";
const THEME_KEY = "tuckfold-theme";
const dark = matchMedia("(prefers-color-scheme: dark)");
const still = matchMedia("(prefers-reduced-motion: reduce)");

export const unit = signal<Unit>(kept(UNIT_KEY) === "inch" ? "inch" : "mm");
export const themeChoice = signal<ThemeChoice>(asTheme(kept(THEME_KEY)));
const systemDark = signal(dark.matches);

export const theme = computed(() =>
  themeChoice.value === "system" ? (systemDark.value ? "dark" : "light") : themeChoice.value,
);
export const reducedMotion = signal(still.matches);

dark.addEventListener("change", (event) => {
  systemDark.value = event.matches;
});
still.addEventListener("change", (event) => {
  reducedMotion.value = event.matches;
});

/** Apply and keep the settings. */
export function keepSettings(): void {
  effect(() => {
    document.documentElement.dataset["theme"] = theme.value;
    keep(THEME_KEY, themeChoice.value);
  });
  effect(() => keep(UNIT_KEY, unit.value));
}

function asTheme(text: string | null): ThemeChoice {
  return text === "light" || text === "dark" ? text : "system";
}

/** A setting of the last visit. A browser may forbid storage; then settings last as long as the page. */
export function kept(key: string): string | null {
  try {
    return localStorage.getItem(key);
  } catch (forbidden) {
    if (forbidden instanceof DOMException) return null;
    throw forbidden;
  }
}

/** Keep a setting for the next visit, where the browser lets it. */
export function keep(key: string, value: string): void {
  try {
    localStorage.setItem(key, value);
  } catch (forbidden) {
    if (!(forbidden instanceof DOMException)) throw forbidden;
  }
}
