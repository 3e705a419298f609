import "fake-indexeddb/auto";
import { IDBFactory } from "fake-indexeddb";
import { createStore, keys, setMany } from "idb-keyval";
import { beforeEach, describe, expect, it } from "vitest";
import { type Database, openDatabase } from "../../../../../web/src/page/state/keeping/database";
import { FORMER_ID, takeOver } from "../../../../../web/src/page/state/keeping/former";
import { deleteJob, listJobs, readJob } from "../../../../../web/src/page/state/keeping/store";
import { JOB } from "../../jobs";

const TEXT = JSON.stringify({ ...JOB, name: "Low tide" });
const PICTURE = { name: "tide.jpg", blob: new Blob(["picture"]) };

let database: Database;
beforeEach(async () => {
  globalThis.indexedDB = new IDBFactory();
  const opened = await openDatabase();
  if (opened === undefined) throw new Error("no database");
  database = opened;
});

const former = () => createStore("keyval-store", "keyval");

describe("what an earlier version kept", () => {
  it("opens as a job with its picture, profile and words, and the presets beside it stay", async () => {
    const work = {
      job: TEXT,
      picture: "picture:abc",
      words: "Hello.",
      proposed: { width_mm: 300, height_mm: 200 },
    };
    const profile = { name: "matte.icc", blob: new Blob(["profile"]) };
    await setMany(
      [
        ["work", work],
        ["picture:abc", PICTURE],
        ["profile", profile],
        ["presets", "{}"],
      ],
      former(),
    );
    await takeOver(database);
    const read = await readJob(database, FORMER_ID);
    expect(read?.entry).toMatchObject({
      name: "Low tide",
      width_mm: JOB.face.width_mm,
      height_mm: JOB.face.height_mm,
    });
    expect(read?.state).toMatchObject({
      steps: [1],
      present: 0,
      words: "Hello.",
    });
    const step = read?.steps.get(1);
    expect(step).toMatchObject({
      job: TEXT,
      proposed: { width_mm: 300, height_mm: 200 },
    });
    expect(await read?.blobs.get(step?.picture ?? "")?.text()).toBe("picture");
    expect(read?.entry.parts.map(({ role, name }) => [role, name])).toEqual([
      ["picture", "tide.jpg"],
      ["profile", "matte.icc"],
    ]);
    expect(await keys(former())).toEqual(["presets"]);
  });

  it("of the version before that opens too", async () => {
    await setMany(
      [
        ["job", TEXT],
        ["picture", PICTURE],
      ],
      former(),
    );
    await takeOver(database);
    const read = await readJob(database, FORMER_ID);
    expect(await read?.blobs.get(read.steps.get(1)?.picture ?? "")?.text()).toBe("picture");
  });

  it("is taken over once, and nothing where there was nothing", async () => {
    await takeOver(database);
    expect(await listJobs(database)).toEqual([]);
    await setMany([["work", { job: TEXT, picture: "", words: "" }]], former());
    await takeOver(database);
    await deleteJob(database, FORMER_ID);
    await takeOver(database);
    expect(await listJobs(database)).toEqual([]);
  });
});
