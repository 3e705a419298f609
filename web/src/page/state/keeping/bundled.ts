// A kept job as a bundle: the job with its files in one archive.
import type { Job, Role } from "../../../contract/types";
import { getCore } from "../core/connection";

export interface BundleFile {
  readonly role: Role;
  readonly name: string;
  readonly blob: Blob;
}

/** The photograph of a wall, and what is marked on it: two files of a bundle. */
export function wallFiles(wall: { readonly name: string; readonly blob: Blob; readonly data?: string }): BundleFile[] {
  const { name, blob, data } = wall;
  const marks = data === undefined ? [] : [{ role: "wall-marks" as const, name: "wall.json", blob: new Blob([data]) }];
  return [{ role: "wall", name, blob }, ...marks];
}

/** The archive that the core makes of a job and its files. */
export async function bundleOf(job: Job, files: readonly BundleFile[]) {
  const buffer = await new Blob(files.map(({ blob }) => blob)).arrayBuffer();
  const listed = files.map(({ role, name, blob }) => ({ role, file: name, bytes: blob.size }));
  return getCore().call("save_bundle", { job, files: listed }, { buffer });
}
