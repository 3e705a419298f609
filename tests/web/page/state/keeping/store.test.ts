import "fake-indexeddb/auto";
import { IDBFactory } from "fake-indexeddb";
import { beforeEach, describe, expect, it, vi } from "vitest";
import { type Database, openDatabase, within } from "../../../../../web/src/page/state/keeping/database";
import type { JobEntry, StepEntry } from "../../../../../web/src/page/state/keeping/records";
import {
  copyJob,
  lackingBlobs,
  deleteJob,
  type JobRecord,
  listJobs,
  nothingWritten,
  readJob,
  sweep,
  writeBlob,
  writeJob,
} from "../../../../../web/src/page/state/keeping/store";

const blob = (text: string): Blob => new Blob([text]);
const step = (job: string, picture: string): StepEntry => ({
  job,
  picture,
  label: "",
});

/** A job with one picture and as many steps as there are jobs in text. */
function record(id: string, picture: string, jobs: readonly string[], changed_ms = 0): JobRecord {
  const entry: JobEntry = {
    id,
    name: id,
    client: "",
    width_mm: 300,
    height_mm: 200,
    panels: 1,
    changed_ms,
    parts: [
      {
        role: "picture",
        name: `${picture}.png`,
        key: picture,
        bytes: picture.length,
      },
    ],
  };
  return {
    entry,
    state: {
      id,
      steps: jobs.map((_, place) => place + 1),
      present: jobs.length - 1,
      words: "",
    },
    steps: new Map(jobs.map((job, place) => [place + 1, step(job, picture)])),
    blobs: new Map([[picture, blob(picture)]]),
  };
}

let database: Database;

beforeEach(async () => {
  globalThis.indexedDB = new IDBFactory();
  const opened = await openDatabase();
  if (opened === undefined) throw new Error("no database");
  database = opened;
});

describe("jobs in the database", () => {
  it("come back whole", async () => {
    await writeJob(database, record("a", "tide", ["{1}", "{2}"]), nothingWritten());
    const read = await readJob(database, "a");
    expect(read?.state).toMatchObject({ steps: [1, 2], present: 1 });
    expect(read?.steps.get(2)?.job).toBe("{2}");
    expect(await read?.blobs.get("tide")?.text()).toBe("tide");
    expect(await readJob(database, "b")).toBeUndefined();
  });

  it("write only the steps that are new, and drop those that undo has left behind", async () => {
    const written = nothingWritten();
    await writeJob(database, record("a", "tide", ["{1}", "{2}", "{3}"]), written);
    const shorter = record("a", "tide", ["other words under a known number"]);
    await writeJob(database, shorter, written);
    // A known number stands for the content that it had.
    expect((await database.getAll("steps")).map(({ job }) => job)).toEqual(["{1}"]);
  });

  it("are never half written: a write that fails leaves the job and its picture as they were", async () => {
    const written = nothingWritten();
    await writeJob(database, record("a", "tide", ["{1}"]), written);
    const broken = record("a", "dune", ["{1}", "{2}"]);
    const uncloneable = {
      ...broken.entry,
      name: (() => {}) as unknown as string,
    };
    await expect(writeJob(database, { ...broken, entry: uncloneable }, written)).rejects.toThrow(/clone/i);
    const read = await readJob(database, "a");
    expect(read?.entry.parts.map(({ key }) => key)).toEqual(["tide"]);
    expect(read?.steps.size).toBe(1);
    // What the failed write had put down is not taken for written.
    await writeJob(database, broken, written);
    expect((await readJob(database, "a"))?.blobs.has("dune")).toBe(true);
  });

  it("ask for everything before the call returns, so that a page that leaves loses nothing", () => {
    const asked: string[] = [];
    const writing = {
      objectStore: (store: string) => ({
        put: () => {
          asked.push(store);
          return Promise.resolve();
        },
      }),
      commit: () => asked.push("commit"),
      done: Promise.resolve(),
    };
    const watched = { transaction: () => writing } as unknown as Database;
    void writeJob(watched, record("a", "tide", ["{1}"]), nothingWritten());
    expect(asked).toEqual(["blobs", "steps", "states", "jobs", "commit"]);
  });

  it("are listed with the latest first", async () => {
    await writeJob(database, record("a", "tide", ["{}"], 1), nothingWritten());
    await writeJob(database, record("b", "dune", ["{}"], 2), nothingWritten());
    expect((await listJobs(database)).map(({ id }) => id)).toEqual(["b", "a"]);
  });

  it("are copied with their history, and the bytes lie there once", async () => {
    await writeJob(database, record("a", "tide", ["{1}", "{2}"]), nothingWritten());
    expect(await copyJob(database, "a", "b", "a copy")).toBe(true);
    expect(await copyJob(database, "z", "c", "none")).toBe(false);
    expect((await readJob(database, "b"))?.entry.name).toBe("a copy");
    expect((await readJob(database, "b"))?.steps.size).toBe(2);
    expect(await database.getAllKeys("blobs")).toEqual(["tide"]);
  });

  it("are deleted alone: a picture that another job has stays", async () => {
    await writeJob(database, record("a", "tide", ["{}"]), nothingWritten());
    await writeJob(database, record("b", "dune", ["{}"]), nothingWritten());
    await copyJob(database, "a", "c", "c");
    await deleteJob(database, "a");
    expect(await database.getAllKeys("blobs")).toEqual(["dune", "tide"]);
    await deleteJob(database, "c");
    expect(await database.getAllKeys("blobs")).toEqual(["dune"]);
    expect((await database.getAllKeys("steps")).map(([id]) => id)).toEqual(["b"]);
  });

  it("write a picture anew that another tab has let go of", async () => {
    const written = nothingWritten();
    await writeJob(database, record("a", "tide", ["{1}"]), written);
    await database.delete("blobs", "tide");
    expect(await lackingBlobs(database, ["tide"], written)).toEqual(["tide"]);
    await writeJob(database, record("a", "tide", ["{1}", "{2}"]), written);
    expect((await readJob(database, "a"))?.blobs.has("tide")).toBe(true);
  });

  it("let go of bytes without a job after a day, and not before", async () => {
    await writeJob(database, record("a", "tide", ["{}"]), nothingWritten());
    await writeBlob(database, "orphan", blob("x"), nothingWritten());
    await sweep(database);
    expect(await database.getAllKeys("blobs")).toEqual(["orphan", "tide"]);
    await sweep(database, Date.now() + 25 * 60 * 60 * 1000);
    expect(await database.getAllKeys("blobs")).toEqual(["tide"]);
  });
});

describe("a browser's storage", () => {
  it("that never answers is not waited for", async () => {
    const closed: string[] = [];
    let answer: (late: Database) => void = () => {};
    const late = new Promise<Database>((resolve) => {
      answer = resolve;
    });
    expect(await openDatabase(5, () => late)).toBeUndefined();
    answer({ close: () => closed.push("closed") } as unknown as Database);
    await late;
    await Promise.resolve();
    await Promise.resolve();
    expect(closed).toEqual(["closed"]);
  });

  it("that refuses is none, and the log says why", async () => {
    const warned = vi.spyOn(console, "warn").mockImplementation(() => {});
    expect(await openDatabase(1000, () => Promise.reject(new Error("refused")))).toBeUndefined();
    expect(warned).toHaveBeenCalledOnce();
    warned.mockRestore();
    expect(await within(Promise.resolve(3), 1000)).toBe(3);
  });
});
