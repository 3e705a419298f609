import { beforeEach, describe, expect, it, vi } from "vitest";
import type { Buffer as Sent, Note } from "../../../../../web/src/contract/types";
import { JOB } from "../../jobs";

const handed = vi.hoisted(() => [] as { name: string; file: Blob }[]);

vi.mock("../../../../../web/src/page/state/work/files", () => ({
  download: (file: Blob, name: string) => handed.push({ name, file }),
}));

vi.mock("../../../../../web/src/page/state/work/run", () => ({
  callAbout: (...asked: unknown[]) => Promise.resolve({ reply: asked, buffers: [] }),
  settledWork: () => Promise.resolve({ job: JOB, picture: 7, demo: false }),
}));

// Where the files of a quick run share their modules, another may have loaded these with the real downloads.
vi.resetModules();
const { CoreError } = await import("../../../../../web/src/worker/errors");
const { history } = await import("../../../../../web/src/page/state/work/work");
const { begin } = await import("../../../../../web/src/page/state/work/history");
const { setPrint } = await import("../../../../../web/src/page/state/work/edit");
const { fileOf, Maker, sharedNotes } = await import("../../../../../web/src/page/state/output/making");

const sent = (place: number, count: number): Sent => ({
  place,
  shape: [count],
  dtype: "uint8",
  state: "file",
});
const bytes = (...values: number[]): ArrayBuffer => Uint8Array.from(values).buffer;
const answer = (file: string) => ({
  reply: { report: { file }, parts: [sent(0, 1)] },
  buffers: [bytes(7)],
});

beforeEach(() => {
  handed.length = 0;
});

describe("fileOf", () => {
  it("puts the parts together in the reply's order, whatever the buffers' order is", async () => {
    const file = fileOf([sent(1, 2), sent(0, 1)], [bytes(3), bytes(1, 2)], "image/png");
    expect([...new Uint8Array(await file.arrayBuffer())]).toEqual([1, 2, 3]);
    expect(file.type).toBe("image/png");
  });
});

describe("the notes of several files", () => {
  const note = (message: string): Note => ({
    code: "marks-left-out",
    severity: "hint",
    place: "back",
    message,
    remedy: "",
    field: "wrap.turnover_mm",
    values: {},
  });
  const file = (...messages: string[]) => ({ report: {}, notes: messages.map(note), file: new Blob() });

  it("are shared where every file has them, and one file's are its own", () => {
    const files = [file("No marks.", "Of 1 alone."), file("No marks."), file("Of 3 alone.", "No marks.")];
    expect(sharedNotes(files).map(({ message }) => message)).toEqual(["No marks."]);
    expect(sharedNotes(files.slice(0, 1))).toEqual([]);
  });
});

describe("a maker", () => {
  it("tells how far it is, hands every file to the downloads, and keeps them", async () => {
    const maker = new Maker<{ file: string }>();
    const seen: unknown[] = [];
    const stopWatching = maker.now.subscribe((now) => seen.push(now));
    await maker.run(({ onProgress, deliver }) => {
      onProgress({ done: 0.5, label: "Half" });
      deliver(answer("one.bin"), "a/b");
      deliver(answer("two.bin"), "a/b");
      return Promise.resolve();
    });
    stopWatching();
    expect(seen.slice(0, 3)).toEqual([
      { state: "idle" },
      { state: "making", done: 0, label: "Beginning" },
      { state: "making", done: 0.5, label: "Half" },
    ]);
    expect(handed.map(({ name }) => name)).toEqual(["one.bin", "two.bin"]);
    expect(maker.now.value).toEqual({
      state: "made",
      files: handed.map(({ name, file }) => ({
        report: { file: name },
        notes: [],
        file,
      })),
    });
  });

  it("is idle again when there was nothing to make", async () => {
    const maker = new Maker<{ file: string }>();
    await maker.run(() => Promise.resolve());
    expect(maker.now.value).toEqual({ state: "idle" });
  });

  it("says how many files were there before it was stopped", async () => {
    const maker = new Maker<{ file: string }>();
    const run = maker.run(async ({ stopped, deliver }) => {
      deliver(answer("one.bin"), "a/b");
      await new Promise((_, reject) => stopped.addEventListener("abort", () => reject(new Error("stopped"))));
    });
    await vi.waitFor(() => expect(handed).toHaveLength(1));
    maker.stop();
    await run;
    expect(maker.now.value).toEqual({ state: "stopped", files: 1 });
  });

  it("makes nothing where it is stopped while a change waits", async () => {
    const maker = new Maker<{ file: string }>();
    const run = maker.run(({ deliver }) => {
      deliver(answer("one.bin"), "a/b");
      return Promise.resolve();
    });
    maker.stop();
    await run;
    expect(maker.now.value).toEqual({ state: "stopped", files: 0 });
  });

  it("asks the core about the picture of the work that the files are made of", async () => {
    const maker = new Maker<{ file: string }>();
    const asked: unknown[] = [];
    await maker.run(async ({ now, ask }) => {
      const { reply } = await ask("ticket", { job: now.job, paper: "a4", date: "2026-11-30" });
      asked.push(reply);
    });
    expect(asked).toMatchObject([[7, "ticket", { job: JOB }, { signal: { aborted: false } }]]);
  });

  it("gives the core's own word where it is refused, and can begin anew", async () => {
    const maker = new Maker<{ file: string }>();
    const why = new CoreError({
      code: "f",
      field: "print.ppi",
      expected: "less",
      got: "more",
      remedy: "r",
      values: {},
      message: "Too fine.",
    });
    await maker.run(() => Promise.reject(why));
    const message = { field: "print.ppi", message: "Too fine.", remedy: "r" };
    expect(maker.now.value).toEqual({ state: "failed", message });
    // The same job shown anew, as after a crash of the core, is no other.
    const held = (ppi: number) => begin({ job: setPrint({ ppi })(JOB), picture: 1, demo: false }, "");
    history.value = held(300);
    await maker.run(() => Promise.reject(why));
    history.value = held(300);
    expect(maker.now.value).toEqual({ state: "failed", message });
    history.value = held(150);
    expect(maker.now.value).toEqual({ state: "idle" });
    history.value = undefined;
    await maker.run(({ deliver }) => {
      deliver(answer("one.bin"), "a/b");
      return Promise.resolve();
    });
    expect(maker.now.value.state).toBe("made");
  });
});
