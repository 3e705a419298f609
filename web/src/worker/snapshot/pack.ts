// One file that holds all files of the wheels: a length (32 bits, little-endian), a list as JSON, and the bytes one after
// another. Nothing is unpacked: each file's content is a slice of the pack.
import type { FileNode, FileSystem } from "./runtime";

/** Path, offset behind the list, length. */
type Entry = [path: string, offset: number, length: number];

/** Of all files and folders, in ms, the earliest that a zip can hold: Python remembers when a folder was changed. */
export const ONE_DATE_MS = Date.UTC(1980, 0, 1);

const FILE_MODE = 0o100644;
const LENGTH_BYTES = 4;

/** Put the files of a pack into the file system. */
export function mountPack(pack: Uint8Array, files: FileSystem): void {
  const listLength = new DataView(pack.buffer, pack.byteOffset).getUint32(0, true);
  const start = LENGTH_BYTES + listLength;
  const entries: unknown = JSON.parse(new TextDecoder().decode(pack.subarray(LENGTH_BYTES, start)));
  if (!Array.isArray(entries) || !entries.every(isEntry)) throw new Error("the pack's list is none");
  const folders = new Map<string, FileNode>();
  for (const [path, offset, length] of entries) {
    const slash = path.lastIndexOf("/");
    const folder = nodeOf(path.slice(0, slash), folders, files);
    const file = folder.node_ops.mknod(folder, path.slice(slash + 1), FILE_MODE, 0);
    file.contents = pack.subarray(start + offset, start + offset + length);
    file.usedBytes = length;
    date(file);
  }
  for (const folder of folders.values()) date(folder);
}

function isEntry(value: unknown): value is Entry {
  return (
    Array.isArray(value) && typeof value[0] === "string" && typeof value[1] === "number" && typeof value[2] === "number"
  );
}

function nodeOf(path: string, folders: Map<string, FileNode>, files: FileSystem): FileNode {
  const known = folders.get(path);
  if (known !== undefined) return known;
  files.mkdirTree(path);
  const { node } = files.lookupPath(path);
  folders.set(path, node);
  return node;
}

function date(node: FileNode): void {
  node.atime = node.mtime = node.ctime = ONE_DATE_MS;
}
