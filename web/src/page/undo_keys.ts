// The keys for undo and redo. Pure.

/** Undo: Ctrl or Cmd with Z. Redo: the same with Shift, or Ctrl with Y. */
export function stepOf(
  event: Pick<KeyboardEvent, "key" | "ctrlKey" | "metaKey" | "shiftKey" | "altKey">,
): "undo" | "redo" | undefined {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return undefined;
  const key = event.key.toLowerCase();
  if (key === "z") return event.shiftKey ? "redo" : "undo";
  return key === "y" && event.ctrlKey && !event.shiftKey ? "redo" : undefined;
}
