import { readdirSync, readFileSync } from "node:fs";
import { dirname, relative, resolve, sep } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";

const SOURCE = fileURLToPath(new URL("../../web/src", import.meta.url));

/** Folders of web/src and the folders that each may import beside itself, from the bottom to the top. */
const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
  // What is said, in the language in use; `on_page.ts` is the page's own.
  speech: [],
  // Files directly in web/src: units and dates.
  "": ["speech"],
  contract: [],
  worker: ["contract", "speech"],
  stage: ["", "contract", "speech"],
  solid: ["stage", "speech"],
  photo: ["stage", "speech"],
  client: ["", "contract", "stage", "photo", "speech"],
  service: ["worker"],
  "page/state": ["", "contract", "speech", "worker", "stage", "solid", "photo"],
  "page/controls": ["", "contract", "speech", "page/state"],
  "page/wall": ["", "contract", "speech", "stage", "photo", "page/state", "page/controls"],
  "page/sections": ["", "contract", "speech", "stage", "solid", "photo", "page/state", "page/controls"],
  page: ["", "contract", "speech", "page/state", "page/controls", "page/wall", "page/sections"],
};

/** The folder of the table that holds a path: the longest that fits. */
function folderOf(path: string): string {
  const fitting = Object.keys(MAY_IMPORT).filter((folder) => folder !== "" && path.startsWith(`${folder}/`));
  return fitting.toSorted((one, other) => other.length - one.length)[0] ?? "";
}

const fromSource = (path: string): string => relative(SOURCE, path).split(sep).join("/");

function sourceFiles(): string[] {
  return readdirSync(SOURCE, { recursive: true, encoding: "utf8" })
    .map((name) => name.split(sep).join("/"))
    .filter((name) => /\.tsx?$/.test(name));
}

/** The files inside web/src that a text imports, types and dynamic imports included. */
function imported(name: string, text: string): string[] {
  const specifiers = text.matchAll(/(?:\bfrom\s+|\bimport\s*\(?\s*|\bnew URL\(\s*)"(\.[^"?]*)/g);
  return Array.from(specifiers, ([, specifier = ""]) => fromSource(resolve(SOURCE, dirname(name), specifier))).filter(
    (path) => !path.startsWith(".."),
  );
}

function wrongImports(name: string, text: string): string[] {
  const folder = folderOf(name);
  return imported(name, text)
    .filter((target) => ![folder, ...(MAY_IMPORT[folder] ?? [])].includes(folderOf(target)))
    .map((target) => `${name} imports ${target}`);
}

it("holds every import of web/src to the order of its folders", () => {
  const files = sourceFiles();
  // Regression: far fewer would mean that the folder was not read.
  expect(files.length).toBeGreaterThan(150);
  expect(files.flatMap((name) => wrongImports(name, readFileSync(resolve(SOURCE, name), "utf8")))).toEqual([]);
});

it("lets no folder import one that imports it in turn", () => {
  const folders = Object.keys(MAY_IMPORT);
  for (const [place, folder] of folders.entries()) {
    const below = folders.slice(0, place);
    expect(MAY_IMPORT[folder]?.filter((other) => !below.includes(other))).toEqual([]);
  }
});

it("finds an import upwards, in a type and in a dynamic import too", () => {
  expect(wrongImports("stage/a.ts", 'import type { Job } from "../page/state/work/work";')).toHaveLength(1);
  expect(wrongImports("page/state/core/b.ts", 'const app = await import("../../app");')).toHaveLength(1);
  expect(wrongImports("worker/c.ts", 'import { app } from "../stage/stage";')).toHaveLength(1);
  expect(wrongImports("page/app.tsx", 'import { Wall } from "./wall/wall";')).toEqual([]);
});
