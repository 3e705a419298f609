// A button that cannot be pressed at the moment. It keeps the focus, and so it is not disabled for the browser.

interface Pressable {
  readonly "aria-disabled": boolean;
  readonly onClick: () => void;
}

/** The attributes of a button that acts only where that is possible. */
export function pressable(isPossible: boolean, act: () => void): Pressable {
  return { "aria-disabled": !isPossible, onClick: () => isPossible && act() };
}
