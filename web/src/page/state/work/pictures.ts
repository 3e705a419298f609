// The pictures opened since the page was loaded, known by their content, so that undo can bring a former one back.

/** The number that stands for no picture. */
export const NO_PICTURE = 0;

export interface PictureFile {
  readonly name: string;
  readonly blob: Blob;
  /** Of the bytes, hexadecimal; empty where the browser computes none (a page that is not served securely). */
  readonly sha256: string;
}

const pictures = new Map<number, PictureFile>();
let latestId = NO_PICTURE;

/** Keep a picture; the number stands for it from now on. The same content has the same number under one name. */
export function keepPicture(file: PictureFile): number {
  for (const [id, kept] of pictures) {
    if (file.sha256 !== "" && kept.sha256 === file.sha256 && kept.name === file.name) return id;
  }
  latestId += 1;
  pictures.set(latestId, file);
  return latestId;
}

export function pictureFile(id: number): PictureFile | undefined {
  return pictures.get(id);
}

/** A picture of this content that was opened here, or none. */
export function pictureWith(sha256: string): number {
  if (sha256 === "") return NO_PICTURE;
  return [...pictures].findLast(([, file]) => file.sha256 === sha256)?.[0] ?? NO_PICTURE;
}

/** A picture file with the hash of its bytes; `bytes` are those of the blob where they are at hand. */
export async function asPictureFile(name: string, blob: Blob, bytes?: ArrayBuffer): Promise<PictureFile> {
  // Only a page that is served securely has the hash.
  const sha256 = isSecureContext ? await sha256Of(bytes ?? (await blob.arrayBuffer())) : "";
  return { name, blob, sha256 };
}

/** The hash of some bytes, hexadecimal. */
async function sha256Of(bytes: ArrayBuffer): Promise<string> {
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** The name without its ending, for naming a job after its picture. */
export function stem(name: string): string {
  return name.replace(/\.[^.]+$/, "") || name;
}

/** A name that any disk takes. */
export function fileName(text: string): string {
  const safe = text
    .trim()
    .replace(/[\\/:*?"<>|\p{Cc}]+/gu, "-")
    .replace(/^\.+/, "");
  return safe.slice(0, 80) || "canvas";
}
