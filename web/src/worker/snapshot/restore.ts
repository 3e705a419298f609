// Starting Python from a kept memory: the libraries are linked and the files mounted before the runtime starts, then the
// memory takes the place of a start.
import type { loadPyodide, PyodideAPI } from "pyodide";
import { type CompiledLibrary, checkLayout, checkTable, linkLibraries } from "./libraries";
import type { Manifest } from "./manifest";
import { restoreMemory } from "./memory";
import { mountPack } from "./pack";
import type { CreateRuntime, Runtime, Settings } from "./runtime";

/** What comes from the network, or in tests from the disk. All begin at once. */
export interface Sources {
  manifest: Manifest;
  memory: Promise<Uint8Array>;
  pack: Promise<Uint8Array>;
  libraries: readonly Promise<CompiledLibrary>[];
}

/** Private options of `loadPyodide`: its types leave them out. */
export interface PrivateOptions {
  _loadSnapshot?: Uint8Array;
  _makeSnapshot?: boolean;
}

export type LoadOptions = NonNullable<Parameters<typeof loadPyodide>[0]>;

export type LoadPyodide = (options: LoadOptions & PrivateOptions) => Promise<PyodideAPI>;

/** `loadPyodide` only asks whether it is there; the memory is put in place by `restoreMemory`. */
const NO_SNAPSHOT_OF_ITS_OWN = new Uint8Array(8);

/** Start Python from a snapshot. `create` is what `pyodide.asm.js` has set. Throws where anything does not fit. */
export async function restorePython(
  sources: Sources,
  create: CreateRuntime,
  load: LoadPyodide,
  options: LoadOptions,
): Promise<PyodideAPI> {
  const { manifest } = sources;
  globalThis._createPyodideModule = async (settings) => {
    if (settings.API.config.BUILD_ID !== manifest.buildId) throw new Error("the snapshot is of another Pyodide");
    settings.INITIAL_MEMORY = manifest.heap;
    const runtime = await createPrepared(create, settings, (early) => prepare(sources, early));
    const memory = await sources.memory;
    settings.API.restoreSnapshot = () => restoreMemory(memory, manifest, runtime);
    return runtime;
  };
  try {
    return await load({ ...options, packages: [], _loadSnapshot: NO_SNAPSHOT_OF_ITS_OWN });
  } finally {
    globalThis._createPyodideModule = create;
  }
}

/** Create a runtime that begins only when it has been prepared; rejects where preparing fails. */
export function createPrepared(
  create: CreateRuntime,
  settings: Settings,
  prepareIt: (runtime: Runtime) => Promise<void> | void,
): Promise<Runtime> {
  return new Promise((resolve, reject) => {
    settings.preRun.push((runtime) => {
      runtime.addRunDependency("snapshot");
      // A failure leaves the runtime waiting, and whoever drops it drops its memory.
      Promise.resolve(runtime)
        .then(prepareIt)
        .then(() => runtime.removeRunDependency("snapshot"), reject);
    });
    create(settings).then(resolve, reject);
  });
}

async function prepare({ manifest, pack, libraries }: Sources, runtime: Runtime): Promise<void> {
  checkTable(runtime, manifest.layout);
  checkLayout(linkLibraries(await Promise.all(libraries), runtime), manifest.layout);
  mountPack(await pack, runtime.FS);
}
