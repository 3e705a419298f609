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
 * The name under which a file is kept: its own, with a number where that is another's already. Pure.
 */
export function freeName(name: string, isUsed: (name: string) => boolean): string {
  const [, stem = name, ending = ""] = /^(.*?)(\.[^.]*)?$/s.exec(name) ?? [];
  let free = name;
  for (let count = 2; free === ILLUSTRATIVE || isUsed(free); count += 1) free = `${stem} (${count})${ending}`;
  return free;
}
