import { beforeEach, expect, it, vi } from "vitest";
import { CoreError } from "../../../../../web/src/worker/errors";
import { Query } from "../../../../../web/src/page/state/core/query";
import { QueryQueue } from "../../../../../web/src/page/state/core/query_queue";

const turn = () => new Promise((resolve) => setTimeout(resolve));
const refusal = (code: string) =>
  new CoreError({
    code,
    field: "colour.profile",
    expected: "a",
    got: "b",
    remedy: "c",
    values: {},
    message: "No.",
  });

let asked: Query<string>;
beforeEach(() => {
  asked = new Query<string>("look", new QueryQueue(() => Promise.resolve()));
});

it("keeps the former answer until the new one comes", async () => {
  asked.request("one", () => Promise.resolve("first"));
  expect(asked.pending.value).toBe(true);
  await turn();
  expect([asked.fresh.value, asked.pending.value]).toEqual(["first", false]);
  let answer = (_value: string): void => {};
  asked.request("two", () => new Promise((resolve) => (answer = resolve)));
  await turn();
  expect([asked.known.value?.value, asked.fresh.value, asked.pending.value]).toEqual(["first", undefined, true]);
  answer("second");
  await turn();
  expect(asked.fresh.value).toBe("second");
});

it("asks once for one thing, and not again for what it knows", async () => {
  const ask = vi.fn<() => Promise<string>>(() => Promise.resolve("it"));
  for (const key of ["one", "one", "two", "one"]) {
    asked.request(key, ask);
    await turn();
  }
  expect(ask).toHaveBeenCalledTimes(2);
  expect(asked.fresh.value).toBe("it");
});

it("drops an answer that comes too late", async () => {
  let late = (_value: string): void => {};
  asked.request("one", () => new Promise((resolve) => (late = resolve)));
  await turn();
  asked.request("two", () => Promise.resolve("second"));
  late("first");
  await turn();
  expect(asked.known.value).toEqual({ key: "two", value: "second" });
});

it("says why it was refused, until something else is asked", async () => {
  asked.request("one", () => Promise.reject(refusal("field")));
  await turn();
  expect(asked.failure.value).toEqual({
    field: "colour.profile",
    message: "No.",
    remedy: "c",
  });
  expect(asked.pending.value).toBe(false);
  asked.request("two", () => Promise.resolve("second"));
  expect(asked.failure.value).toBeUndefined();
});

it("says nothing of a refusal once it is stopped", async () => {
  asked.request("one", () => Promise.reject(refusal("field")));
  await turn();
  asked.stop();
  expect(asked.failure.value).toBeUndefined();
});

it("shows no progress of what a known answer has taken the place of", async () => {
  asked.request("one", () => Promise.resolve("first"));
  await turn();
  asked.request("two", (stopped, onProgress) => {
    onProgress({ done: 0.5, label: "Half" });
    return new Promise((_, reject) => stopped.addEventListener("abort", () => reject(new Error("stopped"))));
  });
  await turn();
  asked.request("one", () => Promise.resolve("never asked"));
  await turn();
  expect([asked.fresh.value, asked.progress.value]).toEqual(["first", undefined]);
});

it("asks once more where the core died of it, and no more", async () => {
  const ask = vi.fn<() => Promise<string>>(() => Promise.reject(refusal("crash")));
  asked.request("one", ask);
  await turn();
  await turn();
  expect(ask).toHaveBeenCalledTimes(2);
  expect(asked.failure.value?.message).toBe("No.");
});

it("leaves nothing behind when it is stopped", async () => {
  asked.request("one", (_signal, onProgress) => {
    onProgress({ done: 0.5, label: "Half" });
    return new Promise(() => {});
  });
  await turn();
  expect(asked.progress.value?.done).toBe(0.5);
  asked.stop();
  expect([asked.progress.value, asked.pending.value]).toEqual([undefined, false]);
});

it("forgets its answers, and asks again for what it knew", async () => {
  const ask = vi.fn<() => Promise<string>>(() => Promise.resolve("it"));
  asked.request("one", ask);
  await turn();
  asked.forget();
  expect([asked.known.value, asked.requested.value, asked.pending.value]).toEqual([undefined, undefined, false]);
  asked.request("one", ask);
  expect([asked.fresh.value, asked.pending.value]).toEqual([undefined, true]);
  await turn();
  expect(asked.fresh.value).toBe("it");
  expect(ask).toHaveBeenCalledTimes(2);
});

it("forgets why it was refused, and drops an answer that is on its way", async () => {
  asked.request("one", () => Promise.reject(refusal("field")));
  await turn();
  asked.forget();
  expect(asked.failure.value).toBeUndefined();
  let late = (_value: string): void => {};
  asked.request("two", () => new Promise((resolve) => (late = resolve)));
  await turn();
  asked.forget();
  late("second");
  await turn();
  expect([asked.known.value, asked.pending.value]).toEqual([undefined, false]);
});
