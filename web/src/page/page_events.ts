// Events of the whole page: files that are dropped, pasted or opened by the system, and the keys for undo and redo.
import { signal } from "@preact/signals";
import { openFile } from "./state/work/files";
import { step } from "./state/work/run";
import { historyKey } from "./state/work/history";

interface LaunchQueue {
  setConsumer(take: (launch: { readonly files?: readonly FileSystemFileHandle[] }) => void): void;
}

declare global {
  interface Window {
    /** Where the page is installed and the browser opens files with it. */
    readonly launchQueue?: LaunchQueue;
  }
}

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

/** Open what the system opens with the page, once there is work that it can go into. */
export function openLaunchedFiles(): void {
  window.launchQueue?.setConsumer(({ files = [] }) => {
    void files[0]?.getFile().then(openFile);
  });
}

function onKey(event: KeyboardEvent): void {
  const kind = historyKey(event);
  if (kind === undefined || isTyping(event.target)) return;
  event.preventDefault();
  void step(kind);
}

/** While something is being typed, these keys belong to the typing; a job's field that shows the job's value is none. */
function isTyping(target: EventTarget | null): boolean {
  return target instanceof Element && target.matches('textarea, input[type="text"]:not([data-draft="false"])');
}
