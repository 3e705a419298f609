import { afterEach, beforeEach, expect, it, vi } from "vitest";

const database = vi.hoisted(() => ({ answer: (): Promise<unknown> => new Promise(() => {}) }));
vi.mock("idb-keyval", () => ({
  createStore: () => undefined,
  get: () => database.answer(),
  set: () => database.answer(),
}));

const { keepPresetsText, keptPresetsText } = await import("../../../../../web/src/page/state/presets/kept");
const { ANSWER_MS } = await import("../../../../../web/src/page/state/keeping/database");
const { announcement, closeAnnouncement } = await import("../../../../../web/src/page/state/page/status");

beforeEach(() => void vi.useFakeTimers());
afterEach(() => {
  closeAnnouncement();
  vi.useRealTimers();
});

it("reads nothing from a storage that never answers, and says that it keeps nothing", async () => {
  database.answer = () => new Promise(() => {});
  const read = keptPresetsText();
  const kept = keepPresetsText("{}");
  await vi.advanceTimersByTimeAsync(ANSWER_MS);
  expect(await read).toBeUndefined();
  await kept;
  expect(announcement.value).toContain("does not keep your own sizes");
});

it("says nothing where the storage keeps them", async () => {
  database.answer = () => Promise.resolve();
  await keepPresetsText("{}");
  expect(announcement.value).toBe("");
});
