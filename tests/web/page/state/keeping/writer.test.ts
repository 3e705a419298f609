import "fake-indexeddb/auto";
import { IDBFactory } from "fake-indexeddb";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { type Database, openDatabase } from "../../../../../web/src/page/state/keeping/database";
import {
  type Claimer,
  LEASE_MS,
  leaseClaimer,
  lockClaimer,
  RENEW_MS,
} from "../../../../../web/src/page/state/keeping/writer";

/** Web Locks as the standard describes them, for exclusive locks: one holder, the others wait in order. */
class FakeLocks {
  readonly #held = new Set<string>();
  readonly #waiting = new Map<string, (() => void)[]>();

  async request(
    name: string,
    options: { ifAvailable?: boolean; signal?: AbortSignal },
    work: (lock: object | null) => Promise<void> | undefined,
  ): Promise<void> {
    if (this.#held.has(name)) {
      if (options.ifAvailable === true) {
        await work(null);
        return;
      }
      await new Promise<void>((resolve, reject) => {
        this.#waiting.set(name, [...(this.#waiting.get(name) ?? []), resolve]);
        options.signal?.addEventListener("abort", () => {
          this.#waiting.set(
            name,
            (this.#waiting.get(name) ?? []).filter((one) => one !== resolve),
          );
          reject(new Error("aborted"));
        });
      });
    }
    this.#held.add(name);
    await work({});
    this.#held.delete(name);
    this.#waiting.get(name)?.shift()?.();
  }
}

const turns = async (): Promise<void> => {
  for (let turn = 0; turn < 20; turn++) await Promise.resolve();
};

describe("a job's lock", () => {
  const events = (heard: string[]) => ({
    granted: () => heard.push("granted"),
    lost: () => heard.push("lost"),
  });
  let claims: Claimer;
  beforeEach(() => {
    claims = lockClaimer(new FakeLocks() as unknown as LockManager);
  });

  it("is held by one tab, and passes to the next when that lets go", async () => {
    const heard: string[] = [];
    const first = await claims("a", events([]));
    const second = await claims("a", events(heard));
    expect([first.held, second.held]).toEqual([true, false]);
    expect((await claims("b", events([]))).held).toBe(true);
    first.release();
    await turns();
    expect(heard).toEqual(["granted"]);
    // Whoever was busy when it was granted can still see it.
    expect(second.held).toBe(true);
    expect((await claims("a", events([]))).held).toBe(false);
  });

  it("is not given to a tab that has stopped waiting", async () => {
    const heard: string[] = [];
    const first = await claims("a", events([]));
    const second = await claims("a", events(heard));
    second.release();
    first.release();
    await turns();
    expect(heard).toEqual([]);
    expect((await claims("a", events([]))).held).toBe(true);
  });
});

describe("a job's lease, where the browser has no locks", () => {
  let database: Database;
  let now = 0;
  beforeEach(async () => {
    globalThis.indexedDB = new IDBFactory();
    vi.stubGlobal("addEventListener", () => {});
    vi.stubGlobal("removeEventListener", () => {});
    const opened = await openDatabase();
    if (opened === undefined) throw new Error("no database");
    database = opened;
    vi.useFakeTimers({ toFake: ["setInterval", "clearInterval"] });
    now = 0;
  });
  afterEach(() => {
    vi.useRealTimers();
    vi.unstubAllGlobals();
  });
  const tab = (name: string): Claimer => leaseClaimer(database, name, () => now);
  const events = (heard: string[] = []) => ({
    granted: () => heard.push("granted"),
    lost: () => heard.push("lost"),
  });
  const heardOne = async (heard: string[]): Promise<void> => {
    await vi.waitFor(() => expect(heard.length).toBe(1));
  };

  it("is held by one tab while it is renewed", async () => {
    const one = await tab("one")("a", events());
    expect(one.held).toBe(true);
    expect((await tab("two")("a", events())).held).toBe(false);
    one.release();
  });

  it("passes to another tab when its own lets go", async () => {
    const heard: string[] = [];
    const one = await tab("one")("a", events());
    const two = await tab("two")("a", events(heard));
    one.release();
    vi.advanceTimersByTime(RENEW_MS);
    await heardOne(heard);
    expect(heard).toEqual(["granted"]);
    two.release();
  });

  it("of a tab that sleeps runs out, and that tab hears of it when it wakes", async () => {
    const heard: string[] = [];
    const sleeper = await tab("one")("a", events(heard));
    now = LEASE_MS + 1;
    const other = await tab("two")("a", events());
    expect(other.held).toBe(true);
    // Before it has asked, it is not sure of the job any more, and writes nothing.
    expect([sleeper.isSure(), other.isSure()]).toEqual([false, true]);
    vi.advanceTimersByTime(RENEW_MS);
    await heardOne(heard);
    expect(heard).toEqual(["lost"]);
    sleeper.release();
    other.release();
  });
});
