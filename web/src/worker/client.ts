// The page's connection to the core: starts the worker, sends calls, returns answers, and restarts the worker
// when it dies.
import type { Params } from "../contract/calls";
import type { Method } from "../contract/types";
import { type Answer, WaitingCalls } from "./calls";
import type { CallOptions, Core, CoreOptions, CoreWorker, BrowserServices } from "./core";
import { type CoreError, crashError } from "./errors";
import { watchLock } from "./lifetime";
import { Hearing } from "./hearing";
import { type FromWorker, isFromWorker, type ToWorker } from "./protocol";
import { trustedAddress } from "./trusted_address";
// The build gives the address of a program in place of a module.
// eslint-disable-next-line import/default
import workerAddress from "./core.worker.ts?worker&url";
import { say } from "../speech/say";

export type { Answer } from "./calls";
export type { CallOptions, Core, CoreOptions, CoreWorker, BrowserServices } from "./core";
export { CoreError } from "./errors";

/** After more crashes than this within this time the worker is not started again. */
const DEATHS_ALLOWED = 2;
const DEATHS_TOGETHER_MS = 60_000;

/** `?start=plain` starts Python without its snapshot, to compare the two. */
const START_PARAMETER = "start";

/** The address of the folder of the Python runtime, which lies in the page's own. */
export function runtimeFolder(): string {
  return new URL("py/", document.baseURI).href;
}

/** Start Python in a worker. */
export function startCore(options: CoreOptions = {}): Core {
  return new CoreClient(options, {
    spawn: () => {
      const program = trustedAddress(new URL(workerAddress, document.baseURI));
      return new Worker(program, { type: "module", name: "core" });
    },
    python: runtimeFolder(),
    plain: new URLSearchParams(location.search).get(START_PARAMETER) === "plain",
    // Absent outside secure contexts, although the types do not say so.
    locks: "locks" in navigator ? navigator.locks : undefined,
    now: () => performance.now(),
    every: (wait_ms, work) => {
      const timer = setInterval(work, wait_ms);
      return () => clearInterval(timer);
    },
  });
}

/** JSON with its other letters as escapes: above 2 GB of memory Pyodide writes text of two bytes a letter nowhere. */
function inAscii(json: string): string {
  return json.replace(/[\u0080-\uffff]/g, (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, "0")}`);
}

/** The connection itself, apart from the browser. */
export class CoreClient implements Core {
  readonly ready: Promise<void>;
  readonly #options: CoreOptions;
  readonly #browser: BrowserServices;
  readonly #calls = new WaitingCalls();
  readonly #deaths: number[] = [];
  readonly #hearing: Hearing;
  #worker: CoreWorker;
  #running = false;
  #dead: CoreError | undefined;
  #endWatch: () => void = () => {};
  #resolveReady: () => void = () => {};
  #rejectReady: (reason: CoreError) => void = () => {};

  constructor(options: CoreOptions, browser: BrowserServices) {
    this.#options = options;
    this.#browser = browser;
    this.ready = new Promise((resolve, reject) => {
      this.#resolveReady = resolve;
      this.#rejectReady = reject;
    });
    // A caller that does not wait for readiness gets the failed start from its call; that is no unhandled error.
    this.ready.catch(() => {});
    this.#hearing = new Hearing(browser, {
      isAsked: () => this.#running && this.#calls.count > 0,
      ping: () => this.#send({ kind: "ping" }),
      onSilence: (silent_ms) => options.onSilence?.(silent_ms),
    });
    this.#worker = this.#start();
  }

  restart(): void {
    if (this.#dead !== undefined) return;
    // The person decides, so it counts for no crash.
    this.#replace(say("the program did not answer and was ended"));
  }

  end(): void {
    this.#end(crashError(say("the core was ended"), say("start it again")));
  }

  async call<M extends Method>(method: M, params: Params<M>, options: CallOptions = {}): Promise<Answer<M>> {
    const { buffer, onProgress, signal } = options;
    signal?.throwIfAborted();
    if (this.#dead !== undefined) throw this.#dead;
    const [id, answer] = this.#calls.enter(method, onProgress);
    const stop = (): void => {
      this.#calls.giveUp(id, signal?.reason);
      this.#send({ kind: "stop", id });
    };
    signal?.addEventListener("abort", stop, { once: true });
    try {
      const message = { kind: "call", id, method, params: inAscii(JSON.stringify(params)) } as const;
      if (buffer === undefined) this.#send(message);
      else this.#send({ ...message, buffer }, [buffer]);
      return await answer;
    } finally {
      signal?.removeEventListener("abort", stop);
    }
  }

  #start(): CoreWorker {
    const lock = `tuckfold-${crypto.getRandomValues(new Uint32Array(4)).join("-")}`;
    const worker = this.#browser.spawn();
    /** Events of a worker that was already replaced are ignored. */
    const died = (reason: string): void => {
      if (this.#worker === worker && this.#dead === undefined) this.#handleDeath(reason);
    };
    worker.addEventListener("message", (event: MessageEvent<unknown>) => {
      const { data } = event;
      if (this.#worker !== worker) return;
      this.#hearing.heard();
      if (!isFromWorker(data)) died(say("the core sent something unknown"));
      else if (data.kind === "crashed") died(say("Python stopped ({reason})", { reason: data.message }));
      else if (data.kind === "alive") {
        this.#endWatch = watchLock(lock, this.#browser.locks, () => died(say("the core ended without a word")));
      } else if (data.kind !== "pong") this.#receive(data);
    });
    worker.addEventListener("error", (event) => {
      event.preventDefault();
      died(event.message || say("the core's program could not be loaded"));
    });
    worker.addEventListener("messageerror", () => died(say("the core sent something unreadable")));
    // A worker that died may have died of the snapshot; the next does without.
    const plain = this.#browser.plain || this.#deaths.length > 0;
    const { language } = this.#options;
    const start = { kind: "start", python: this.#browser.python, lock, plain } as const;
    worker.postMessage((language === undefined ? start : { ...start, language }) satisfies ToWorker);
    return worker;
  }

  #send(message: ToWorker, transfer: ArrayBuffer[] = []): void {
    this.#worker.postMessage(message, transfer);
  }

  #receive(data: Exclude<FromWorker, { kind: "alive" | "crashed" | "pong" }>): void {
    switch (data.kind) {
      case "loading":
        this.#options.onLoading?.({ done: data.done, label: data.label });
        break;
      case "ready":
        this.#running = true;
        performance.mark("tuckfold:core-ready");
        this.#resolveReady();
        break;
      case "failed":
        this.#end(
          crashError(
            say("the core could not be started ({reason})", { reason: data.message }),
            say("check the connection and try again"),
          ),
        );
        break;
      case "progress":
        this.#calls.progress(data.id, data.text);
        break;
      case "result":
        this.#calls.answer(data.id, data.text, data.buffers);
        break;
      case "error":
        this.#calls.fail(data.id, data.text);
        break;
    }
  }

  /** After a crash: start again, unless the worker never ran or crashes too often. */
  #handleDeath(reason: string): void {
    const now = this.#browser.now();
    const recent = this.#deaths.filter((then) => now - then < DEATHS_TOGETHER_MS);
    this.#deaths.splice(0, this.#deaths.length, ...recent, now);
    if (!this.#running || this.#deaths.length > DEATHS_ALLOWED) {
      this.#end(crashError(reason, say("try again, or load the page again")));
      return;
    }
    this.#replace(reason);
  }

  #replace(reason: string): void {
    const crash = crashError(reason, say("it was started again; try once more"));
    this.#hearing.heard();
    this.#endWatch();
    this.#worker.terminate();
    this.#running = false;
    this.#worker = this.#start();
    this.#calls.giveUpAll(crash);
    this.#options.onRestart?.(crash);
  }

  #end(reason: CoreError): void {
    if (this.#dead !== undefined) return;
    this.#dead = reason;
    this.#hearing.end();
    this.#endWatch();
    this.#worker.terminate();
    this.#rejectReady(reason);
    this.#calls.giveUpAll(reason);
  }
}
