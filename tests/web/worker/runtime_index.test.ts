import { expect, test } from "vitest";
import { checkedFetch, type RuntimeIndex } from "../../../web/src/worker/runtime_index";

const FOLDER = "https://host.example/py/";
const named = (name: string) => ({ file: `hashed-${name}`, integrity: `sha256-${name}` });

const names = ["pyodide.asm.js", "pyodide.asm.wasm", "python_stdlib.zip"];
// Only these are read here.
const index = { files: Object.fromEntries(names.map((name) => [name, named(name)])) } as unknown as RuntimeIndex;

test("Pyodide's own names lead to hashed ones, and the browser checks them; all else passes", async () => {
  const asked: unknown[] = [];
  const plain: typeof fetch = (input, init) => {
    asked.push([input, init]);
    return Promise.resolve(new Response());
  };
  const checked = checkedFetch(index, FOLDER, plain);
  await checked(`${FOLDER}pyodide.asm.wasm`, { cache: "default" });
  await checked(new URL("numpy-1.whl", FOLDER), { integrity: "sha256-own" });
  await checked("https://host.example/runtime.json");
  expect(asked).toEqual([
    [`${FOLDER}hashed-pyodide.asm.wasm`, { cache: "default", integrity: "sha256-pyodide.asm.wasm" }],
    [`${FOLDER}numpy-1.whl`, { integrity: "sha256-own" }],
    ["https://host.example/runtime.json", undefined],
  ]);
});

test("what the network does not bring comes from what is kept, with its hash; what was stopped does not", async () => {
  const asked: string[] = [];
  const plain: typeof fetch = (input) => {
    const address = String(input instanceof Request ? input.url : input).replace(FOLDER, "");
    asked.push(address);
    if (address.startsWith("old")) return Promise.resolve(new Response("", { status: 404 }));
    if (address.startsWith("lost")) return Promise.reject(new TypeError("Failed to fetch"));
    return address.endsWith("?kept") ? Promise.resolve(new Response("kept")) : Promise.reject(new TypeError("offline"));
  };
  const checked = checkedFetch(index, FOLDER, plain);
  expect(await (await checked(`${FOLDER}numpy-1.whl`)).text()).toBe("kept");
  expect((await checked(`${FOLDER}old-1.whl`)).status).toBe(404);
  await expect(checked(`${FOLDER}late-1.whl`, { signal: AbortSignal.abort() })).rejects.toThrow("offline");
  await expect(checked(`${FOLDER}lost-1.whl`)).rejects.toThrow("lost-1.whl could not be fetched");
  await expect(checked("https://host.example/runtime.json")).rejects.toThrow("offline");
  expect(asked).toEqual([
    ...["numpy-1.whl", "numpy-1.whl?kept", "old-1.whl", "old-1.whl?kept", "late-1.whl"],
    ...["lost-1.whl", "lost-1.whl?kept"],
    "https://host.example/runtime.json",
  ]);
});
