// A runtime that only keeps what is put into it.
import type { FileNode, Runtime } from "../../../../web/src/worker/snapshot/runtime";

/** A folder of the fake file system, whose files are kept by name. */
class FakeNode implements FileNode {
  contents = new Uint8Array();
  usedBytes = 0;
  atime = 1;
  mtime = 1;
  ctime = 1;
  readonly children = new Map<string, FakeNode>();
  node_ops = {
    mknod: (_parent: FileNode, name: string): FakeNode => {
      const child = new FakeNode();
      this.children.set(name, child);
      return child;
    },
  };
}

export interface FakeRuntime extends Runtime {
  /** The folders that were made, by path. */
  folders: Map<string, FakeNode>;
  /** The libraries in the order in which they were linked. */
  linked: string[];
}

/** A runtime with a table of 10 functions; each library adds 5, and moves the heap by 32 bytes. */
export function fakeRuntime(): FakeRuntime {
  const folders = new Map<string, FakeNode>();
  const linked: string[] = [];
  const table = new WebAssembly.Table({ element: "anyfunc", initial: 10 });
  const base = { value: 64 };
  const runtime: FakeRuntime = {
    folders,
    linked,
    HEAPU8: new Uint8Array(256).fill(7, 0, 150),
    wasmTable: table,
    GOT: { __heap_base: base },
    LDSO: { loadedLibsByName: {}, loadedLibsByHandle: {} },
    FS: {
      mkdirTree: (path) => void (folders.has(path) || folders.set(path, new FakeNode())),
      lookupPath: (path) => {
        const node = folders.get(path);
        if (node === undefined) throw new Error(`no ${path}`);
        return { node };
      },
    },
    loadWebAssemblyModule: (_module, _flags, name) => {
      linked.push(name);
      table.grow(5);
      base.value += 32;
      return {};
    },
    newDSO: (name) =>
      (runtime.LDSO.loadedLibsByName[name] = {
        name,
        refcount: 1,
        global: true,
      }),
    _sbrk: () => 150,
    addRunDependency: () => {},
    removeRunDependency: () => {},
  };
  return runtime;
}
