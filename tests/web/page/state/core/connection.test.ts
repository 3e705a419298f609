import { expect, it, vi } from "vitest";
import type { CoreOptions } from "../../../../../web/src/worker/core";

const started = vi.hoisted(() => ({ options: [] as CoreOptions[] }));
vi.mock("../../../../../web/src/worker/client", () => ({
  startCore: (options: CoreOptions) => {
    started.options.push(options);
    return { call: () => Promise.reject(new Error("not asked")), end: () => {}, restart: () => {} };
  },
}));
// Other tests may have loaded the connection before this stand-in was in place.
vi.resetModules();
const { getCore } = await import("../../../../../web/src/page/state/core/connection");
const { loading } = await import("../../../../../web/src/page/state/page/status");

it("leaves a failed start told, however far the core has come meanwhile", () => {
  getCore();
  const load = (done: number): void => started.options[0]?.onLoading?.({ done, label: "numpy" });
  load(0.5);
  expect(loading.value).toEqual({ state: "loading", done: 0.5, label: "numpy" });
  loading.value = { state: "failed", got: "the demo picture could not be fetched", remedy: "try again" };
  load(0.625);
  expect(loading.value.state).toBe("failed");
});
