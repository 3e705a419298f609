// The canvas profiles opened since the page was loaded, by the name that jobs call them, so that undo and a core
// that was started again find them.
import { signal } from "@preact/signals";
import type { ProfileReply } from "../../../contract/types";
import { onRestart, theCore } from "../core/connection";

/** The invented canvas that stands in where no profile was opened. */
export const ILLUSTRATIVE = "illustrative-matte";

export interface ProfileFile {
  readonly name: string;
  readonly blob: Blob;
}

const files = new Map<string, ProfileFile>();
const inCore = new Set<string>();

/** What each profile is, as the core has described it. */
export const described = signal<Readonly<Record<string, ProfileReply>>>({});
/** Rises with each profile that is kept: a name may have found its file. */
export const profilesKept = signal(0);

onRestart(() => inCore.clear());

/** Keep a profile's bytes under the name that jobs call it. */
export function keepProfile(file: ProfileFile): void {
  files.set(file.name, file);
  profilesKept.value += 1;
}

export function profileFile(name: string): ProfileFile | undefined {
  return files.get(name);
}

/** Note what the core says of a profile that it has just opened. */
export function noteOpened(reply: ProfileReply): void {
  inCore.add(reply.file);
  described.value = { ...described.value, [reply.file]: reply };
}

/** See that the core holds the profile that a job names; rejects where it was never opened here. */
export async function openProfileInCore(name: string): Promise<void> {
  if (inCore.has(name)) return;
  const buffer = await files.get(name)?.blob.arrayBuffer();
  const { reply } = await theCore().call("profile", { file: name }, { buffer });
  noteOpened(reply);
}

/**
 * The name under which a file is kept: its own, with a number where that is another's already. Pure.
 */
export function freeName(name: string, taken: (name: string) => boolean): string {
  const [, stem = name, ending = ""] = /^(.*?)(\.[^.]*)?$/s.exec(name) ?? [];
  let free = name;
  for (let count = 2; free === ILLUSTRATIVE || taken(free); count += 1) free = `${stem} (${count})${ending}`;
  return free;
}
