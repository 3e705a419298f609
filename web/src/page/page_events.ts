// Events of the whole page: files that are dropped or pasted, and the keys for undo and redo.
import { signal } from "@preact/signals";
import { openFile } from "./state/work/files";
import { step } from "./state/work/run";
import { historyKey } from "./state/work/history";

/** The pointer drags a file over the page. */
export const dropping = signal(false);

/** Begin to listen. */
export function listenToPage(): void {
  const over = (event: DragEvent): void => {
    if (!event.dataTransfer?.types.includes("Files")) return;
    event.preventDefault();
    dropping.value = true;
  };
  addEventListener("dragenter", over);
  addEventListener("dragover", over);
  addEventListener("dragleave", (event) => {
    if (event.relatedTarget === null) dropping.value = false;
  });
  addEventListener("drop", (event) => {
    dropping.value = false;
    const file = event.dataTransfer?.files[0];
    // The photographed wall takes what is dropped on it.
    if (!file || event.defaultPrevented) return;
    event.preventDefault();
    void openFile(file);
  });
  addEventListener("paste", (event) => {
    const file = event.clipboardData?.files[0];
    if (!file) return;
    event.preventDefault();
    void openFile(file);
  });
  addEventListener("keydown", onKey);
}

function onKey(event: KeyboardEvent): void {
  const kind = historyKey(event);
  // While something is being typed, these keys belong to the typing.
  const typing = event.target instanceof HTMLInputElement && event.target.dataset["draft"] === "true";
  if (kind === undefined || typing) return;
  event.preventDefault();
  void step(kind);
}
