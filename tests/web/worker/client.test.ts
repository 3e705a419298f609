import { expect, test } from "vitest";
import { CoreClient, type CoreOptions, type CoreWorker } from "../../../web/src/worker/client";
import type { FromWorker, ToWorker } from "../../../web/src/worker/protocol";

/** A worker that keeps what it is sent and says what the test wants. */
class FakeWorker implements CoreWorker {
  readonly sent: ToWorker[] = [];
  terminated = false;
  readonly #target = new EventTarget();

  addEventListener = this.#target.addEventListener.bind(this.#target);

  postMessage(message: ToWorker): void {
    this.sent.push(message);
  }

  terminate(): void {
    this.terminated = true;
  }

  says(data: FromWorker | { kind: "nonsense" }): void {
    this.#target.dispatchEvent(new MessageEvent("message", { data }));
  }

  breaks(): void {
    this.#target.dispatchEvent(new Event("error", { cancelable: true }));
  }

  get calls() {
    return this.sent.filter((message) => message.kind === "call");
  }
}

/** Locks whose holders die when the test says so. */
class FakeLocks {
  readonly watches: {
    name: string;
    granted: () => void;
    signal: AbortSignal;
  }[] = [];

  request(name: string, options: { signal: AbortSignal }, granted: () => void): Promise<void> {
    this.watches.push({ name, granted, signal: options.signal });
    return new Promise(() => {});
  }
}

function start(options: CoreOptions = {}, locks?: FakeLocks) {
  const workers: FakeWorker[] = [];
  const clock = { now: 0 };
  const ticks: (() => void)[] = [];
  const client = new CoreClient(options, {
    spawn: () => {
      const worker = new FakeWorker();
      workers.push(worker);
      return worker;
    },
    python: "http://127.0.0.1/any/path/py/",
    plain: false,
    locks: locks as LockManager | undefined,
    now: () => clock.now,
    every: (_wait_ms, work) => {
      ticks.push(work);
      return () => ticks.splice(0);
    },
  });
  const worker = (index: number): FakeWorker => {
    const found = workers[index];
    if (found === undefined) throw new Error(`no worker ${index}`);
    return found;
  };
  return { client, workers, worker, clock, ticks };
}

const error = {
  code: "field",
  field: "face.width_mm",
  expected: "a",
  got: "b",
  remedy: "c",
  values: {},
  message: "d",
};
const job = JSON.stringify({ job: {} });

test("the worker is told where Python lies and which lock to hold", () => {
  const { worker } = start();
  expect(worker(0).sent).toEqual([
    {
      kind: "start",
      python: "http://127.0.0.1/any/path/py/",
      lock: expect.stringMatching(/^tuckfold-/) as unknown,
      plain: false,
    },
  ]);
});

test("loading is told, and readiness resolves", async () => {
  const told: string[] = [];
  const { client, worker } = start({
    onLoading: ({ done, label }) => told.push(`${label} ${done}`),
  });
  worker(0).says({ kind: "loading", done: 0.5, label: "numpy" });
  worker(0).says({ kind: "ready" });
  await client.ready;
  expect(told).toEqual(["numpy 0.5"]);
});

test("what is asked goes as ASCII, and means the same", () => {
  const { client, worker } = start();
  const text = 'Größe “Low tide” 潮 🖼, "quoted"';
  void client.call("check", { text });
  const params = worker(0).calls[0]?.params ?? "";
  expect(params).toMatch(/^[ -~]+$/);
  expect(JSON.parse(params)).toEqual({ text });
});

test("each answer finds its call, whatever their order", async () => {
  const { client, worker } = start();
  const progress: number[] = [];
  const first = client.call("open", { file: "a" }, { onProgress: ({ done }) => progress.push(done) });
  const second = client.call("check", { text: "{}" });
  const [open, check] = worker(0).calls;
  expect(open).toMatchObject({ method: "open", params: '{"file":"a"}' });
  worker(0).says({
    kind: "error",
    id: check?.id ?? 0,
    text: JSON.stringify(error),
  });
  worker(0).says({
    kind: "progress",
    id: open?.id ?? 0,
    text: '{"done":0.5,"label":"reading"}',
  });
  const thumbnail = {
    place: 0,
    shape: [1, 1, 4],
    dtype: "uint8",
    state: "srgb_encoded",
  };
  const info = {
    file: "a",
    format: "PNG",
    width_px: 1,
    height_px: 1,
    mode: "RGB",
    profile_name: "",
    profile_assumed: true,
    notes: [],
  };
  const buffers = [new ArrayBuffer(4)];
  worker(0).says({
    kind: "result",
    id: open?.id ?? 0,
    text: JSON.stringify({ info, thumbnail }),
    buffers,
  });
  expect(await first).toEqual({ reply: { info, thumbnail }, buffers });
  expect(progress).toEqual([0.5]);
  await expect(second).rejects.toMatchObject({
    name: "CoreError",
    code: "field",
    field: "face.width_mm",
    remedy: "c",
    values: {},
  });
});

test("a reply that breaks the contract fails its call", async () => {
  const { client, worker } = start();
  const call = client.call("check", { text: "{}" });
  const text = JSON.stringify({ job: {}, notes: [] });
  worker(0).says({
    kind: "result",
    id: worker(0).calls[0]?.id ?? 0,
    text,
    buffers: [],
  });
  await expect(call).rejects.toThrow("reply to check: reply.job.version is missing");
});

test("a stopped call rejects at once, the worker is told, and a late answer is dropped", async () => {
  const { client, worker } = start();
  const stop = new AbortController();
  const call = client.call("check", { text: "{}" }, { signal: stop.signal });
  const id = worker(0).calls[0]?.id ?? 0;
  stop.abort(new Error("changed my mind"));
  await expect(call).rejects.toThrow("changed my mind");
  expect(worker(0).sent.at(-1)).toEqual({ kind: "stop", id });
  worker(0).says({ kind: "result", id, text: job, buffers: [] });
  await expect(client.call("check", { text: "{}" }, { signal: stop.signal })).rejects.toThrow("changed my mind");
  expect(worker(0).calls).toHaveLength(1);
});

test("a failed start rejects readiness, every call that waits, and every later one", async () => {
  const { client, worker, workers } = start();
  const waiting = client.call("hello", {});
  worker(0).says({ kind: "failed", message: "numpy could not be fetched" });
  for (const promise of [client.ready, waiting, client.call("hello", {})]) {
    await expect(promise).rejects.toMatchObject({
      code: "crash",
      got: "the core could not be started (numpy could not be fetched)",
    });
  }
  expect(worker(0).terminated).toBe(true);
  expect(workers).toHaveLength(1);
});

test("a worker whose program cannot be loaded is a failed start too", async () => {
  const { client, worker, workers } = start();
  worker(0).breaks();
  await expect(client.ready).rejects.toMatchObject({ code: "crash" });
  expect(workers).toHaveLength(1);
});

test.each([
  ["says so", (worker: FakeWorker) => worker.says({ kind: "crashed", message: "out of memory" })],
  ["breaks", (worker: FakeWorker) => worker.breaks()],
  ["talks nonsense", (worker: FakeWorker) => worker.says({ kind: "nonsense" })],
])("a worker that %s is started again, and its calls fail as crashed", async (_how, die) => {
  const restarts: string[] = [];
  const { client, worker, workers } = start({
    onRestart: (reason) => restarts.push(reason.code),
  });
  worker(0).says({ kind: "ready" });
  const lost = client.call("hello", {});
  die(worker(0));
  await expect(lost).rejects.toMatchObject({ code: "crash" });
  expect(restarts).toEqual(["crash"]);
  expect(workers).toHaveLength(2);
  expect(worker(0).sent[0]).toMatchObject({ kind: "start", plain: false });
  expect(worker(1).sent[0]).toMatchObject({ kind: "start", plain: true });
  expect(worker(0).terminated).toBe(true);

  void client.call("hello", {}).catch(() => {});
  expect(worker(1).calls).toHaveLength(1);
  worker(0).breaks();
  expect(workers).toHaveLength(2);
});

test("a worker that dies without a word lets go of its lock, and is started again", () => {
  const locks = new FakeLocks();
  const { worker, workers } = start({}, locks);
  expect(locks.watches).toHaveLength(0);
  worker(0).says({ kind: "alive" });
  worker(0).says({ kind: "ready" });
  expect(worker(0).sent[0]).toMatchObject({ lock: locks.watches[0]?.name });
  locks.watches[0]?.granted();
  expect(workers).toHaveLength(2);
  expect(locks.watches[0]?.signal.aborted).toBe(true);
});

test("after the third death within a minute it stays dead", async () => {
  const { client, worker, workers, clock } = start();
  const dieAt = (index: number, now: number): void => {
    worker(index).says({ kind: "ready" });
    clock.now = now;
    worker(index).breaks();
  };
  // derived: two deaths within 60 s are allowed, so the third at 50 s is the last.
  dieAt(0, 0);
  dieAt(1, 20_000);
  expect(workers).toHaveLength(3);
  dieAt(2, 50_000);
  expect(workers).toHaveLength(3);
  await expect(client.call("hello", {})).rejects.toMatchObject({
    code: "crash",
  });
});

test("deaths far apart are each forgiven", () => {
  const { worker, workers, clock } = start();
  for (const index of [0, 1, 2, 3]) {
    worker(index).says({ kind: "ready" });
    clock.now += 61_000;
    worker(index).breaks();
  }
  expect(workers).toHaveLength(5);
});

test("a worker that does not answer while a call waits is told of, and ended when the person says so", async () => {
  const silences: number[] = [];
  const restarts: string[] = [];
  const { client, workers, worker, clock, ticks } = start({
    onSilence: (silent_ms) => silences.push(silent_ms),
    onRestart: ({ got }) => restarts.push(got),
  });
  const tick = (now: number): void => {
    clock.now = now;
    for (const work of ticks) work();
  };
  worker(0).says({ kind: "ready" });
  tick(5_000);
  expect(worker(0).sent.filter(({ kind }) => kind === "ping")).toEqual([]);
  const call = client.call("check", { text: "{}" });
  const ended = call.catch((reason: unknown) => reason);
  tick(10_000);
  worker(0).says({ kind: "pong" });
  tick(15_000);
  tick(20_000);
  expect(silences).toEqual([]);
  // Derived: asked at 15 s, so 20 s of silence have passed at 35 s.
  tick(35_000);
  expect(silences).toEqual([20_000]);
  client.restart();
  expect(await ended).toMatchObject({ code: "crash", got: "the program did not answer and was ended" });
  expect(silences).toEqual([20_000, 0]);
  expect(restarts).toEqual(["the program did not answer and was ended"]);
  expect(worker(0).terminated).toBe(true);
  expect(workers.length).toBe(2);
});
