// What the build writes down about the Python runtime: `runtime.json`, beside the page. Names of files hold a hash of their
// bytes, so that none is kept from an old visit; this list is asked for anew each time.
import { isRecord } from "../contract/record";
import { isManifest, isSnapshotFile, type Manifest, type SnapshotFile } from "./snapshot/manifest";
import { bytes } from "./snapshot/sources";

/** Files that Pyodide asks for by names of its own, by these names. */
export const PROGRAM = "pyodide.asm.js";
const LIBRARY = "python_stdlib.zip";
/** The name by which Pyodide is told to ask for its library where it starts from the snapshot. */
export const LIBRARY_OF_SNAPSHOT = "library.zip";
const BINARY = "pyodide.asm.wasm";

/** From the runtime's folder. */
const INDEX = "../runtime.json";

export interface RuntimeIndex {
  files: Record<typeof PROGRAM | typeof LIBRARY | typeof BINARY, SnapshotFile>;
  /** Pyodide's lock file: the wheels of this build, with their hashes. */
  lock: object;
  snapshot: Manifest;
}

/** Fetch the list; it lies beside the runtime's folder. */
export async function fetchRuntimeIndex(folder: string): Promise<RuntimeIndex> {
  const address = new URL(INDEX, folder);
  const answer = await reached("runtime.json", () => fetch(address, { cache: "no-cache" }));
  if (!answer.ok) throw new Error(`${address.pathname}: ${answer.status} ${answer.statusText}`);
  const index: unknown = await answer.json();
  if (!isIndex(index)) throw new Error("runtime.json is not what this page was built for");
  return index;
}

function isIndex(value: unknown): value is RuntimeIndex {
  if (!isRecord(value) || !isRecord(value.files) || !isRecord(value.lock) || !isManifest(value.snapshot)) return false;
  const { files } = value;
  return [PROGRAM, LIBRARY, BINARY].every((name) => isSnapshotFile(files[name]));
}

/** An answer; where none comes, the browsers' own words for that name no file. */
async function reached(file: string, ask: () => Promise<Response>): Promise<Response> {
  try {
    return await ask();
  } catch (failure) {
    if (!(failure instanceof TypeError)) throw failure;
    throw new Error(`${file} could not be fetched`, { cause: failure });
  }
}

/** Ends the address of a file that shall come from what the service worker has kept. The browser's own way is tried first,
 * which keeps compiled code too: a second start took half as long again where the service worker answered it. */
export const KEPT = "?kept";

/** A `fetch` that takes the files of the list by Pyodide's names for them, and has the browser check their hashes. Where the
 * network does not bring a file of the folder, what the service worker has kept does. */
export function checkedFetch(index: RuntimeIndex, folder: string, plain: typeof fetch): typeof fetch {
  const known = new Map(Object.entries(index.files).map(([name, file]) => [folder + name, file]));
  return async (input, init) => {
    const address = input instanceof Request ? input.url : String(input);
    if (address === folder + LIBRARY_OF_SNAPSHOT) return new Response(await bytes(index.snapshot.library, folder));
    const file = known.get(address);
    if (!address.startsWith(folder)) return plain(input, init);
    const [found, how] =
      file === undefined ? [address, init] : [folder + file.file, { ...init, integrity: file.integrity }];
    try {
      const answer = await plain(found, how);
      if (answer.ok) return answer;
    } catch (failure) {
      if (how?.signal?.aborted === true) throw failure;
    }
    return reached(found.slice(folder.length), () => plain(found + KEPT, how));
  };
}

/** A file of the list, its hash checked. */
export async function fetchRuntimePart(
  folder: string,
  choose: (index: RuntimeIndex) => SnapshotFile,
): Promise<ArrayBuffer> {
  const index = await fetchRuntimeIndex(folder);
  const { file, integrity } = choose(index);
  const answer = await checkedFetch(index, folder, fetch)(folder + file, { integrity });
  if (!answer.ok) throw new Error(`${file}: ${answer.status} ${answer.statusText}`);
  return answer.arrayBuffer();
}
