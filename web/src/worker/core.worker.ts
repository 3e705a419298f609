// The worker, in which Python runs. It receives messages from the page and answers them; see protocol.ts.
import { holdLock } from "./lifetime";
import { type FromWorker, isToWorker, type ToWorker } from "./protocol";
import { loadCore } from "./python";
import { RunningCalls } from "./running";

type Start = Extract<ToWorker, { kind: "start" }>;

/** Set by the page's first message, "start"; resolves to undefined when Python cannot start. */
let running: Promise<RunningCalls | undefined> | undefined;
/** Calls that have not begun; they may still be taken back. */
const waiting = new Set<number>();

function post(message: FromWorker, transfer: ArrayBuffer[] = []): void {
  self.postMessage(message, { transfer });
}

async function start({ python, lock, plain, language = "en" }: Start): Promise<RunningCalls | undefined> {
  // The client requests the same lock after this message.
  if (await holdLock(lock, "locks" in navigator ? navigator.locks : undefined)) post({ kind: "alive" });
  try {
    const core = await loadCore(python, plain, (done, label) => post({ kind: "loading", done, label }));
    if (language !== "en") core.adapter.speak(language);
    post({ kind: "ready" });
    return new RunningCalls(
      core.adapter,
      post,
      (thrown) => core.judge(thrown),
      (method) => core.fetchFor(method),
    );
  } catch (reason) {
    console.error(reason);
    post({ kind: "failed", message: reason instanceof Error ? reason.message : String(reason) });
    return undefined;
  }
}

self.addEventListener("message", (event: MessageEvent<unknown>) => {
  const { data } = event;
  if (!isToWorker(data)) throw new TypeError("the page sent something unknown");
  if (data.kind === "start") {
    running = start(data);
  } else if (data.kind === "ping") {
    post({ kind: "pong" });
  } else if (data.kind === "call") {
    waiting.add(data.id);
    void running?.then((calls) => (waiting.delete(data.id) ? calls?.run(data) : undefined));
  } else if (!waiting.delete(data.id)) {
    void running?.then((calls) => calls?.stop(data.id));
  }
});
