// node tools/pyodide_node.mjs ROOT OUT WHEEL... -- ARGUMENT...: run the core's own tests, and what is compared
// with the native core, inside Pyodide with the very files that the page loads.
//
// ROOT is the repository; OUT a folder for results; the wheels hold the test tools; the arguments go to
// tests/parity/inside.py, which says what is done. The exit status is what it returns.
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import process from "node:process";
import { loadPyodide } from "pyodide";

const [root, out, ...rest] = process.argv.slice(2);
const split = rest.indexOf("--");
const wheels = rest.slice(0, split);
const site = join(root, "web", "public", "py");

async function run() {
  const python = await loadPyodide({
    indexURL: join(root, "web", "node_modules", "pyodide"),
    stdLibURL: join(site, "python_stdlib.zip"),
    lockFileContents: await readFile(join(site, "pyodide-lock.json"), "utf8"),
    packageBaseUrl: site,
    packageCacheDir: site,
    // Unlike the page it loads at once what only some calls need.
    packages: ["tuckfold", "fpdf2", "defusedxml", "fonttools", "rectpack"],
    // Nothing is written into the repository.
    env: { PYTHONDONTWRITEBYTECODE: "1" },
  });
  const extractDir = python.pyimport("sysconfig").get_path("purelib");
  for (const wheel of wheels) {
    python.unpackArchive(new Uint8Array(await readFile(wheel)), "wheel", { extractDir });
  }
  for (const [name, folder] of [
    ["repository", root],
    ["out", out],
  ]) {
    python.FS.mkdirTree(`/${name}`);
    python.FS.mount(python.FS.filesystems.NODEFS, { root: folder }, `/${name}`);
  }
  python.FS.chdir("/repository");
  const path = python.pyimport("sys").path;
  // Not the repository's own folder: the core must come from its wheel, as in the browser.
  while (path.includes("")) path.remove("");
  path.append("/repository/tests/parity");
  return python.pyimport("inside").main(rest.slice(split + 1));
}

try {
  process.exitCode = await run();
} catch (wrong) {
  // Node.js would print the whole line of the runtime's minified program beside it.
  console.error(String(wrong?.stack ?? wrong).slice(-6000));
  process.exitCode = 70;
}
