// The keys under which bytes are kept: a picture's content, or, where that is not known, a number by chance.
import { pictureFile } from "../work/pictures";
import { randomId } from "./writer";

const keys = new WeakMap<Blob, string>();

/** The key of bytes that came from the database. */
export function enterKey(blob: Blob, key: string): void {
  keys.set(blob, key);
}

export function keyOf(blob: Blob, content = ""): string {
  const known = keys.get(blob);
  if (known !== undefined) return known;
  const key = content === "" ? randomId() : content;
  keys.set(blob, key);
  return key;
}

/** The key of a picture by its number; empty where there is none. */
export function pictureKey(id: number): string {
  const file = pictureFile(id);
  return file === undefined ? "" : keyOf(file.blob, file.sha256);
}
