// The worker, in which Python runs. It receives messages from the page and answers them; see protocol.ts.
import { holdLock } from "./lifetime";
import { type FromWorker, isToWorker } from "./protocol";
import { type LoadedCore, loadCore } from "./python";
import { RunningCalls } from "./running";

/** Set by the page's first message, "start"; resolves to undefined when Python cannot start. */
let running: Promise<Running | undefined> | undefined;
/** Calls that have not begun; they may still be taken back. */
const waiting = new Set<number>();

interface Running {
  readonly calls: RunningCalls;
  readonly bring: LoadedCore["bring"];
}

function post(message: FromWorker, transfer: ArrayBuffer[] = []): void {
  self.postMessage(message, { transfer });
}

async function start(python: string, lock: string): Promise<Running | undefined> {
  // The client requests the same lock after this message.
  if (await holdLock(lock, "locks" in navigator ? navigator.locks : undefined)) post({ kind: "alive" });
  try {
    const core = await loadCore(python, (done, label) => post({ kind: "loading", done, label }));
    post({ kind: "ready" });
    const calls = new RunningCalls(core.adapter, post, (thrown) => core.judge(thrown));
    return { calls, bring: (method) => core.bring(method) };
  } catch (reason) {
    console.error(reason);
    post({ kind: "failed", message: `the core could not be started (${String(reason)})` });
    return undefined;
  }
}

self.addEventListener("message", (event: MessageEvent<unknown>) => {
  const { data } = event;
  if (!isToWorker(data)) throw new TypeError("the page sent something unknown");
  if (data.kind === "start") {
    running = start(data.python, data.lock);
  } else if (data.kind === "call") {
    waiting.add(data.id);
    void running?.then(async (on) => {
      const coming = on?.bring(data.method);
      if (coming !== undefined) await coming;
      if (waiting.delete(data.id)) await on?.calls.run(data);
    });
  } else if (!waiting.delete(data.id)) {
    void running?.then((on) => on?.calls.stop(data.id));
  }
});
