// Fetching a snapshot. Everything is asked for at once, and each file's hash is checked.
import type { CompiledLibrary } from "./libraries";
import type { Manifest, SnapshotFile, SnapshotLibrary } from "./manifest";
import type { Sources } from "./restore";

/** Begin to fetch what lies in the folder of the Python runtime. */
export function fetchSnapshot(manifest: Manifest, folder: string, signal: AbortSignal): Sources {
  const sources = {
    manifest,
    libraries: manifest.libraries.map((library) => compiled(library, folder, signal)),
    memory: bytes(manifest.memory, folder, signal),
    pack: bytes(manifest.pack, folder, signal),
  };
  // One that fails while another is waited for is no unhandled error.
  void Promise.allSettled([sources.memory, sources.pack, ...sources.libraries]);
  return sources;
}

/** Compiled as it arrives, which lets browsers keep the compiled code for the next visit; they check the hash. */
async function compiled(library: SnapshotLibrary, folder: string, signal: AbortSignal): Promise<CompiledLibrary> {
  const { integrity } = library;
  const module = await WebAssembly.compileStreaming(fetched(library, folder, { integrity, signal }));
  return { path: library.path, module };
}

/** The content of a file whose hash fits. */
export async function bytes(
  file: SnapshotFile,
  folder: string,
  signal?: AbortSignal,
): Promise<Uint8Array<ArrayBuffer>> {
  const { integrity } = file;
  const within = signal === undefined ? {} : { signal };
  // Absent outside secure contexts.
  if (!("subtle" in crypto)) {
    return new Uint8Array(await (await fetched(file, folder, { integrity, ...within })).arrayBuffer());
  }
  // Of 26 MB: 30 ms, where Chromium's own check takes 300.
  const content = await (await fetched(file, folder, within)).arrayBuffer();
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", content));
  if (`sha256-${btoa(String.fromCharCode(...digest))}` !== integrity) throw new Error(`${file.file} has another hash`);
  return new Uint8Array(content);
}

async function fetched({ file }: SnapshotFile, folder: string, options: RequestInit): Promise<Response> {
  const answer = await fetch(new URL(file, folder), options);
  if (!answer.ok) throw new Error(`${file}: ${answer.status} ${answer.statusText}`);
  return answer;
}
