// Opening a bundle: a job with its picture and profile in one file.
import { bytesOf } from "../../../contract/buffers";
import type { OpenBundleReply } from "../../../contract/types";
import { keepProfileFile } from "../colour/open_profile";
import { getCore } from "../core/connection";
import { bytesIn } from "../page/read_file";
import type { Part } from "../keeping/parts";
import { openedJob } from "./picture_job";
import { asPictureFile, keepPicture } from "./pictures";
import { firstWork, type Work } from "./work";

/** A bundle as it was opened. */
export interface OpenedBundle {
  readonly work: Work;
  /** A photograph of the wall, with what is marked on it as text. */
  readonly wall?: Part;
}

/** The work in a bundle; its picture and its profile are at hand from here on. */
export async function openedBundle(file: File): Promise<OpenedBundle> {
  const now = await firstWork();
  const buffer = await bytesIn(file);
  const { reply, buffers } = await getCore().call("open_bundle", {}, { buffer });
  const [picture, profile] = [bundledFile(reply, buffers, "picture"), bundledFile(reply, buffers, "profile")];
  // A profile of this name and other content may be open; then it has another name here.
  const job =
    profile === undefined
      ? reply.job
      : { ...reply.job, colour: { ...reply.job.colour, profile: await keepProfileFile(profile.name, profile.blob) } };
  const [photo, marks] = [bundledFile(reply, buffers, "wall"), bundledFile(reply, buffers, "wall-marks")];
  const wall = photo && { ...photo, ...(marks === undefined ? {} : { data: await marks.blob.text() }) };
  const work =
    picture === undefined
      ? openedJob(job, now)
      : { job, picture: keepPicture(await asPictureFile(picture.name, picture.blob)), demo: false };
  return { work, ...(wall === undefined ? {} : { wall }) };
}

function bundledFile(reply: OpenBundleReply, buffers: readonly ArrayBuffer[], role: string) {
  const found = reply.files.find((file) => file.role === role);
  if (found === undefined) return undefined;
  return { name: found.file, blob: new Blob(found.parts.map((part) => bytesOf(part, buffers))) };
}
