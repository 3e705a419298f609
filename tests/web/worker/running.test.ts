import { afterEach, expect, test, vi } from "vitest";
import german from "../../../pycore/speech/data/de.json";
import { decodeError } from "../../../web/src/contract/decode";
import { speak } from "../../../web/src/speech/say";
import type { CallAdapter, Step } from "../../../web/src/worker/adapter";
import { readError } from "../../../web/src/worker/errors";
import type { FromWorker } from "../../../web/src/worker/protocol";
import { type Fault, RunningCalls } from "../../../web/src/worker/running";

afterEach(() => {
  vi.restoreAllMocks();
});

/** A core whose calls do what the test lays down: each entry is a step, or an error that the step throws. */
class ScriptedCore implements CallAdapter {
  readonly ended: number[] = [];
  readonly buffers: (Uint8Array | undefined)[] = [];
  readonly #scripts: (Step | Error)[][];
  #begun = 0;

  constructor(...scripts: (Step | Error)[][]) {
    this.#scripts = scripts;
  }

  begin(_method: string, _params: string, buffer?: Uint8Array): number {
    this.buffers.push(buffer);
    return this.#begun++;
  }

  step(handle: number): Step {
    const next = this.#scripts[handle]?.shift();
    if (next === undefined) throw new Error("a step too many");
    if (next instanceof Error) throw next;
    return next;
  }

  end(handle: number): void {
    this.ended.push(handle);
  }
}

function runningOf(
  core: CallAdapter,
  judge = (thrown: unknown): Fault => ({
    kind: "fatal",
    message: String(thrown),
  }),
  fetching?: Promise<void>,
) {
  const posted: FromWorker[] = [];
  const transferred: ArrayBuffer[] = [];
  const calls = new RunningCalls(
    core,
    (message, transfer) => {
      posted.push(message);
      transferred.push(...transfer);
    },
    judge,
    () => fetching,
  );
  return { calls, posted, transferred };
}

const call = (id: number) => ({ kind: "call", id, method: "print", params: "{}" }) as const;
const strip: Step = { kind: "progress", text: "strip" };
const done = (): Step => ({
  kind: "result",
  text: "done",
  buffers: [new ArrayBuffer(8)],
});

test("steps are told as they come, the result's buffers are transferred, and the call is let go", async () => {
  const core = new ScriptedCore([strip, strip, done()]);
  const { calls, posted, transferred } = runningOf(core);
  await calls.run(call(5));
  expect(posted.map((message) => message.kind)).toEqual(["progress", "progress", "result"]);
  expect(posted.at(-1)).toMatchObject({ id: 5, text: "done" });
  expect(transferred.map((buffer) => buffer.byteLength)).toEqual([8]);
  expect(core.ended).toEqual([0]);
});

test("bytes that came with the call reach the core", async () => {
  const core = new ScriptedCore([done()]);
  await runningOf(core).calls.run({
    ...call(1),
    buffer: new Uint8Array([1, 2]).buffer,
  });
  expect([...(core.buffers[0] ?? [])]).toEqual([1, 2]);
});

test("a short call is answered while a long one is under way", async () => {
  const core = new ScriptedCore([strip, strip, strip, done()], [done()]);
  const { calls, posted } = runningOf(core);
  await Promise.all([calls.run(call(1)), calls.run(call(2))]);
  const results = posted.filter((message) => message.kind === "result").map((message) => message.id);
  expect(results).toEqual([2, 1]);
});

test("a stopped call takes no further step and is let go at once", async () => {
  const core = new ScriptedCore([strip, strip, done()]);
  const { calls, posted } = runningOf(core);
  const run = calls.run(call(1));
  calls.stop(1);
  expect(core.ended).toEqual([0]);
  await run;
  expect(posted.map((message) => message.kind)).toEqual(["progress"]);
  expect(core.ended).toEqual([0]);
});

test("an error that the core raises on purpose is passed on as it is", async () => {
  const core = new ScriptedCore([{ kind: "error", text: "wrong field" }]);
  const { calls, posted } = runningOf(core);
  await calls.run(call(1));
  expect(posted).toEqual([{ kind: "error", id: 1, text: "wrong field" }]);
  expect(core.ended).toEqual([0]);
});

test("a fault of the core is told in a line; its traceback goes to the console only", async () => {
  const logged = vi.spyOn(console, "error").mockImplementation(() => {});
  const core = new ScriptedCore([new Error("x")]);
  const fault: Fault = {
    kind: "raised",
    message: "ValueError: x",
    traceback: "Traceback …",
  };
  const { calls, posted } = runningOf(core, () => fault);
  await calls.run(call(1));
  expect(logged).toHaveBeenCalledWith("Traceback …");
  expect(posted).toHaveLength(1);
  expect(posted[0]).toMatchObject({ kind: "error", id: 1 });
  expect(JSON.stringify(posted[0])).toContain("ValueError: x");
  expect(JSON.stringify(posted[0])).not.toContain("Traceback");
  expect(core.ended).toEqual([0]);
});

test("when the interpreter is gone the whole worker says so", async () => {
  const { calls, posted } = runningOf(new ScriptedCore([new Error("unreachable")]));
  await calls.run(call(1));
  expect(posted).toEqual([{ kind: "crashed", message: "Error: unreachable" }]);
});

/** Something that is fetched, and arrives when the test says so. */
function delivery(): { arrive: () => void; fetching: Promise<void> } {
  let arrive = (): void => undefined;
  const fetching = new Promise<void>((resolve) => {
    arrive = resolve;
  });
  return { arrive: () => arrive(), fetching };
}

test("what a call needs besides is fetched before it begins", async () => {
  const core = new ScriptedCore([done()]);
  const { arrive, fetching } = delivery();
  const { calls, posted } = runningOf(core, undefined, fetching);
  const run = calls.run(call(1));
  expect(core.buffers).toEqual([]);
  arrive();
  await run;
  expect(posted.map((message) => message.kind)).toEqual(["progress", "result"]);
});

test("where it does not come the call fails with a remedy, and the core lives on", async () => {
  vi.spyOn(console, "warn").mockImplementation(() => undefined);
  const core = new ScriptedCore([done()]);
  const { calls, posted } = runningOf(core, undefined, Promise.reject(new Error("offline")));
  await calls.run(call(1));
  expect(posted.map((message) => message.kind)).toEqual(["progress", "error"]);
  const last = posted.at(-1);
  const text = last?.kind === "error" ? last.text : "";
  expect(text).toContain("check the connection");
  speak("de", german);
  const failure = readError(decodeError(text));
  speak("en", {});
  expect(failure.message).toBe("Ein Teil des Programms, der erst bei Bedarf geholt wird, kam nicht an.");
  expect(failure.remedy).toBe("prüfen Sie die Verbindung, dann versuchen Sie es noch einmal");
  expect(core.buffers).toEqual([]);
});

test("a call that is stopped while it waits does not begin", async () => {
  const core = new ScriptedCore([done()]);
  const { arrive, fetching } = delivery();
  const { calls, posted } = runningOf(core, undefined, fetching);
  const run = calls.run(call(1));
  calls.stop(1);
  arrive();
  await run;
  expect(posted.map((message) => message.kind)).toEqual(["progress"]);
  expect(core.buffers).toEqual([]);
});
