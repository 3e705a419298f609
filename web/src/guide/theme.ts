// The guide follows the theme that was chosen on the page.

/** Where the page keeps it; see page/state/page/settings.ts. */
export const THEME_KEY = "tuckfold-theme";

/** Light and dark are taken; anything else leaves it to the system. */
export function followTheme(kept: string | null, root: HTMLElement): void {
  if (kept === "light" || kept === "dark") root.dataset["theme"] = kept;
}

try {
  followTheme(localStorage.getItem(THEME_KEY), document.documentElement);
} catch {
  // A browser that keeps nothing shows the system's theme.
}
