// The parts of Pyodide 0.28.3 that a snapshot needs and its types leave out. They are private: another version may lack
// them, and the build then fails where it makes the snapshot.

/** A folder of Emscripten's file system, or a file in it. */
export interface FileNode {
  contents: Uint8Array;
  usedBytes: number;
  atime: number;
  mtime: number;
  ctime: number;
  node_ops: { mknod(parent: FileNode, name: string, mode: number, device: number): FileNode };
}

export interface FileSystem {
  mkdirTree(path: string): void;
  lookupPath(path: string): { node: FileNode };
}

/** A linked library, as Emscripten's dynamic linker keeps it. */
export interface LinkedLibrary {
  name: string;
  refcount: number;
  global: boolean;
}

export interface Runtime {
  FS: FileSystem;
  HEAPU8: Uint8Array;
  wasmTable: WebAssembly.Table;
  /** The addresses that the linker has given out; `__heap_base` is where the heap begins. */
  GOT: Record<string, { value: number }>;
  LDSO: {
    loadedLibsByName: Record<string, LinkedLibrary>;
    /** By the address of Python's handle. */
    loadedLibsByHandle: Record<number, LinkedLibrary>;
  };
  loadWebAssemblyModule(
    module: WebAssembly.Module,
    flags: { loadAsync: false; global: false; nodelete: true },
    name: string,
    scope: object,
    handle: number,
  ): object;
  newDSO(name: string, handle: undefined, exports: object): LinkedLibrary;
  /** The end of what is in use of the memory, moved by some bytes. */
  _sbrk(bytes: number): number;
  addRunDependency(name: string): void;
  removeRunDependency(name: string): void;
}

/** What Python refers to of JavaScript's objects, as Pyodide writes it down. */
export interface References {
  hiwireKeys: unknown[];
  immortalKeys: string[];
}

export interface Settings {
  API: { config: { BUILD_ID?: string }; restoreSnapshot?: (snapshot: Uint8Array) => References };
  preRun: ((runtime: Runtime) => void)[];
  INITIAL_MEMORY?: number;
}

export type CreateRuntime = (settings: Settings) => Promise<Runtime>;

declare global {
  /** Set by `pyodide.asm.js`, and called by `loadPyodide` where it is there already. */
  // eslint-disable-next-line no-var
  var _createPyodideModule: CreateRuntime | undefined;
}
