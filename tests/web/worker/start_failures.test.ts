import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { reportingFailures } from "../../../web/src/worker/start_failures";

const { instantiate } = WebAssembly;
const target = new EventTarget();

beforeEach(() => {
  vi.stubGlobal("addEventListener", target.addEventListener.bind(target));
  vi.stubGlobal("removeEventListener", target.removeEventListener.bind(target));
});
afterEach(() => vi.unstubAllGlobals());

const never = (): Promise<never> => new Promise(() => {});

test("a start that waits on after its program could not be compiled is ended", async () => {
  const start = (): Promise<never> => {
    // Pyodide only warns of this, and waits on.
    WebAssembly.instantiate(new Uint8Array([1, 2, 3])).catch(() => {});
    return never();
  };
  await expect(reportingFailures(start)).rejects.toThrow(WebAssembly.CompileError);
  expect(WebAssembly.instantiate).toBe(instantiate);
});

test("a start that ends in a rejection which nobody awaits is ended", async () => {
  const started = reportingFailures(never);
  target.dispatchEvent(
    Object.assign(new Event("unhandledrejection"), {
      reason: new Error("a fatal error"),
    }),
  );
  await expect(started).rejects.toThrow("a fatal error");
});

test("a start that succeeds, and one that fails by itself, are passed on", async () => {
  expect(await reportingFailures(() => Promise.resolve(7))).toBe(7);
  await expect(reportingFailures(() => Promise.reject(new Error("no network")))).rejects.toThrow("no network");
});
