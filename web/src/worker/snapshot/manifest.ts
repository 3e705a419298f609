// What the build writes down about a snapshot, in `runtime.json`.
import { isRecord } from "../../contract/record";
import type { References } from "./runtime";

/** A file of the runtime; its name holds its hash. */
export interface SnapshotFile {
  /** Below the folder of the Python runtime. */
  file: string;
  /** As `fetch` checks it: `sha256-` and the hash in base64. */
  integrity: string;
}

/** A library that is linked before Python starts. */
export interface SnapshotLibrary extends SnapshotFile {
  /** Where Python looks for it. */
  path: string;
}

/** What linking must lead to; where it does not, the memory does not fit. */
export interface Layout {
  /** The length of the table of functions before and after the libraries are linked. */
  tableBefore: number;
  tableAfter: number;
  /** The address at which the heap begins after that. */
  heapBase: number;
}

/** The facts that only the maker of the memory knows. */
export interface MemoryFacts {
  buildId: string;
  layout: Layout;
  /** The length of the memory in bytes, whole pages of WebAssembly. */
  heap: number;
  /** Address and length of each stretch that is not zero; the file holds them one after another. */
  runs: [address: number, length: number][];
  /** Python's handles of linked libraries, and the libraries' paths. */
  handles: [handle: number, path: string][];
  references: References;
}

export interface Manifest extends MemoryFacts {
  memory: SnapshotFile;
  pack: SnapshotFile;
  /** In the order in which they are linked. */
  libraries: SnapshotLibrary[];
  /** Python's own library without what the memory holds; the memory knows where the rest of its parts lie. */
  library: SnapshotFile;
  /** The demo as the core shows it, for the page to draw before the core has started. */
  demo_view: SnapshotFile;
}

/** Whether something is a manifest, as far as it must be to be tried. */
export function isManifest(value: unknown): value is Manifest {
  return (
    isRecord(value) &&
    typeof value.buildId === "string" &&
    typeof value.heap === "number" &&
    isRecord(value.layout) &&
    isRecord(value.references) &&
    Array.isArray(value.runs) &&
    Array.isArray(value.handles) &&
    isSnapshotFile(value.memory) &&
    isSnapshotFile(value.pack) &&
    isSnapshotFile(value.library) &&
    isSnapshotFile(value["demo_view"]) &&
    Array.isArray(value.libraries) &&
    value.libraries.every((one) => isSnapshotFile(one) && "path" in one && typeof one.path === "string")
  );
}

/** Whether something names a file and its hash. */
export function isSnapshotFile(value: unknown): value is SnapshotFile {
  return isRecord(value) && typeof value.file === "string" && typeof value.integrity === "string";
}
