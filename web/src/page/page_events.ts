// Events of the whole page: files that are dropped, pasted or opened by the system, and the keys for undo and redo.
import { signal } from "@preact/signals";
import { openFiles } from "./state/work/files";
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
    const files = [...(event.dataTransfer?.files ?? [])];
    // The photographed wall takes a photograph that is dropped on it.
    if (files.length === 0 || event.defaultPrevented) return;
    event.preventDefault();
    void openFiles(files);
  });
  addEventListener("paste", (event) => {
    const files = [...(event.clipboardData?.files ?? [])];
    if (files.length === 0) return;
    event.preventDefault();
    void openFiles(files);
  });
  addEventListener("keydown", onKey);
}

/** Open what the system opens with the page, once there is work that it can go into. */
export function openLaunchedFiles(): void {
  window.launchQueue?.setConsumer(({ files = [] }) => {
    void Promise.all(files.map((file) => file.getFile())).then(openFiles);
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
