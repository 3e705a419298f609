// The canvas profiles opened since the page was loaded, by the name that jobs call them, so that undo and a core
// that was started again find them.
import { signal } from "@preact/signals";
import type { ProfileReply } from "../../../contract/types";
import { getCore, onForgotten, onRestart } from "../core/connection";

/** The invented canvas that stands in where no profile was opened. */
export const ILLUSTRATIVE = "illustrative-matte";

export interface ProfileFile {
  readonly name: string;
  readonly blob: Blob;
}

const files = new Map<string, ProfileFile>();
const inCore = new Set<string>();

/** The core's replies about profiles, by name. */
export const profileReplies = signal<Readonly<Record<string, ProfileReply>>>({});
/** Rises with each profile that is kept: a name may have found its file. */
export const profilesKept = signal(0);

onRestart(() => inCore.clear());
onForgotten(() => inCore.clear());

/** Keep a profile's bytes under the name that jobs call it. */
export function keepProfile(file: ProfileFile): void {
  files.set(file.name, file);
  profilesKept.value += 1;
}

export function profileFile(name: string): ProfileFile | undefined {
  return files.get(name);
}

/** Record that the core has opened a profile, with its reply. */
export function recordOpened(reply: ProfileReply): void {
  inCore.add(reply.file);
  profileReplies.value = { ...profileReplies.value, [reply.file]: reply };
}

/** Open the profile that a job names in the core, unless it is open; rejects where it was never opened here. */
export async function openProfileInCore(name: string): Promise<void> {
  if (inCore.has(name)) return;
  const buffer = await files.get(name)?.blob.arrayBuffer();
  const { reply } = await getCore().call("profile", { file: name }, { buffer });
  recordOpened(reply);
}

/**
 * The name under which a profile's file is kept here: its own, with a number where another file has that already, as
 * undo may bring the other one back.
 */
export async function nameFor(name: string, blob: Blob): Promise<string> {
  const [, stem = name, ending = ""] = /^(.*?)(\.[^.]*)?$/s.exec(name) ?? [];
  for (let count = 1; ; count += 1) {
    const free = count === 1 ? name : `${stem} (${count})${ending}`;
    if (free === ILLUSTRATIVE) continue;
    const kept = files.get(free)?.blob;
    if (kept === undefined || (await isEqual(kept, blob))) return free;
  }
}

async function isEqual(one: Blob, other: Blob): Promise<boolean> {
  if (one.size !== other.size) return false;
  const [a, b] = [new Uint8Array(await one.arrayBuffer()), new Uint8Array(await other.arrayBuffer())];
  return a.every((byte, place) => byte === b[place]);
}
