// Fetching a snapshot. Everything is asked for at once; the browser itself checks each file's hash.
import type { CompiledLibrary } from "./libraries";
import { isManifest, type SnapshotFile, type SnapshotLibrary } from "./manifest";
import type { Sources } from "./restore";

const MANIFEST = "snapshot.json";

/** Begin to fetch what lies in the folder of the Python runtime. Rejects where that holds no snapshot. */
export async function fetchSnapshot(folder: string, signal: AbortSignal): Promise<Sources> {
  // It names this build's files, so it must not come from an old visit; they never change.
  const answer = await fetch(new URL(MANIFEST, folder), { cache: "no-cache", signal });
  if (!answer.ok) throw new Error(`${MANIFEST}: ${answer.status} ${answer.statusText}`);
  const manifest: unknown = await answer.json();
  if (!isManifest(manifest)) throw new Error(`${MANIFEST} is not what this page was built for`);
  return {
    manifest,
    libraries: manifest.libraries.map((library) => compiled(library, folder, signal)),
    memory: bytes(manifest.memory, folder, signal),
    pack: bytes(manifest.pack, folder, signal),
  };
}

async function compiled(library: SnapshotLibrary, folder: string, signal: AbortSignal): Promise<CompiledLibrary> {
  const module = await WebAssembly.compileStreaming(fetched(library, folder, signal));
  return { path: library.path, module };
}

async function bytes(file: SnapshotFile, folder: string, signal: AbortSignal): Promise<Uint8Array> {
  return new Uint8Array(await (await fetched(file, folder, signal)).arrayBuffer());
}

async function fetched({ file, integrity }: SnapshotFile, folder: string, signal: AbortSignal): Promise<Response> {
  const answer = await fetch(new URL(file, folder), { integrity, signal });
  if (!answer.ok) throw new Error(`${file}: ${answer.status} ${answer.statusText}`);
  return answer;
}
