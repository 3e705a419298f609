import { afterEach, expect, test, vi } from "vitest";
import { checkTablesKeepFunctions } from "../../../../web/src/worker/snapshot/support";

afterEach(() => vi.restoreAllMocks());

test("tables keep functions here", () => {
  expect(checkTablesKeepFunctions).not.toThrow();
});

test("a table that wraps what it holds is told", () => {
  vi.spyOn(WebAssembly.Table.prototype, "get").mockReturnValue(() => {});
  expect(checkTablesKeepFunctions).toThrow("other functions than they hold");
});
