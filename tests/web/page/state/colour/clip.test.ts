import { expect, it, vi } from "vitest";

const { colourSeen, history } = await vi.hoisted(async () => {
  const { signal } = await import("@preact/signals");
  return { colourSeen: signal(true), history: signal({ present: { state: { picture: 1, job: "first" } } }) };
});

vi.mock("../../../../../web/src/contract/buffers", () => ({ bytesOf: () => new Uint8Array() }));
vi.mock("../../../../../web/src/page/state/core/connection", () => ({
  getCore: () => ({
    call: () => Promise.resolve({ reply: { labels: { shape: [] }, groups: [], parts: [] }, buffers: [] }),
  }),
}));
vi.mock("../../../../../web/src/page/state/core/queries", () => ({
  openWorkInCore: () => Promise.resolve(),
  queryQueue: {
    add: (_kind: string, ask: (stopped: AbortSignal) => unknown) => void ask(new AbortController().signal),
    stop: () => undefined,
  },
}));
vi.mock("../../../../../web/src/page/state/colour/keys", () => ({ clipKey: (job: string) => job }));
vi.mock("../../../../../web/src/page/state/colour/pixels", () => ({}));
vi.mock("../../../../../web/src/page/state/colour/profiles", () => ({ profilesKept: { value: 0 } }));
vi.mock("../../../../../web/src/page/state/colour/viewing", () => ({ colourSeen }));
vi.mock("../../../../../web/src/page/state/page/status", () => ({ firstShown: { value: true } }));
vi.mock("../../../../../web/src/page/state/page/view", () => ({ scene: { value: "wall" } }));
vi.mock("../../../../../web/src/page/state/work/pictures", () => ({ NO_PICTURE: 0 }));
vi.mock("../../../../../web/src/page/state/work/work", () => ({
  history,
  lacksPicture: { value: false },
  shown: { value: {} },
}));
vi.stubGlobal("addEventListener", () => undefined);

const { clipQuery, startClipQueries } = await import("../../../../../web/src/page/state/colour/clip");

it("figures of the job before are not taken for those of this one while nobody looks at them", async () => {
  startClipQueries();
  await vi.waitFor(() => expect(clipQuery.fresh.value).toBeDefined());
  colourSeen.value = false;
  expect(clipQuery.fresh.value).toBeDefined();
  history.value = { present: { state: { picture: 2, job: "second" } } };
  expect(clipQuery.fresh.value).toBeUndefined();
  expect(clipQuery.pending.value).toBe(false);
  colourSeen.value = true;
  await vi.waitFor(() => expect(clipQuery.fresh.value).toBeDefined());
});
