import { execFileSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";

test("the committed types are those of the committed schema", { timeout: 30_000 }, () => {
  const tool = fileURLToPath(new URL("../../../web/tools/types.mjs", import.meta.url));
  const run = (): Buffer => execFileSync(process.execPath, [tool, "--check"], { stdio: "pipe" });
  expect(run).not.toThrow();
});
