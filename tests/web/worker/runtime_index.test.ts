import { expect, test } from "vitest";
import { checkedFetch, type RuntimeIndex } from "../../../web/src/worker/runtime_index";

const FOLDER = "https://host.example/py/";
const named = (name: string) => ({ file: `hashed-${name}`, integrity: `sha256-${name}` });

test("Pyodide's own names lead to hashed ones, and the browser checks them; all else passes", async () => {
  const asked: unknown[] = [];
  const plain: typeof fetch = (input, init) => {
    asked.push([input, init]);
    return Promise.resolve(new Response());
  };
  const names = ["pyodide.asm.js", "pyodide.asm.wasm", "python_stdlib.zip"];
  const files = Object.fromEntries(names.map((name) => [name, named(name)]));
  // Only these are read here.
  const index = { files } as unknown as RuntimeIndex;
  const checked = checkedFetch(index, FOLDER, plain);
  await checked(`${FOLDER}pyodide.asm.wasm`, { cache: "default" });
  await checked(new URL("numpy-1.whl", FOLDER), { integrity: "sha256-own" });
  expect(asked).toEqual([
    [`${FOLDER}hashed-pyodide.asm.wasm`, { cache: "default", integrity: "sha256-pyodide.asm.wasm" }],
    [new URL("numpy-1.whl", FOLDER), { integrity: "sha256-own" }],
  ]);
});
