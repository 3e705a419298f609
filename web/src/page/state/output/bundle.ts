// Saving a bundle: the job with its picture and profile in one file.
import { signal } from "@preact/signals";
import { ILLUSTRATIVE, profileFile } from "../colour/profiles";
import { getCore } from "../core/connection";
import { clearFieldErrors, failureText, setFieldError } from "../page/fields";
import { announce } from "../page/status";
import { download } from "../work/files";
import { pictureFile } from "../work/pictures";
import { settledWork } from "../work/run";
import { lacksPicture } from "../work/work";
import { wallWork } from "../photo/wall_work";
import { fileOf, PICTURE_LACKING } from "./making";

/** A bundle is being saved. */
export const savingBundle = signal(false);

/** Save the current job with its picture and profile, and hand the file to the downloads. */
export async function saveBundle(): Promise<void> {
  clearFieldErrors("job");
  savingBundle.value = true;
  try {
    const now = await settledWork();
    if (now === undefined) return;
    const picture = pictureFile(now.picture);
    if (lacksPicture.value || picture === undefined) {
      setFieldError("job", PICTURE_LACKING);
      return;
    }
    const name = now.job.colour.profile;
    const profile = name === ILLUSTRATIVE ? undefined : profileFile(name);
    const wall = wallWork.peek()?.photo;
    const files = [
      { role: "picture" as const, file: picture.name, blob: picture.blob },
      ...(profile === undefined ? [] : [{ role: "profile" as const, file: profile.name, blob: profile.blob }]),
      ...(wall === undefined ? [] : [{ role: "wall" as const, file: wall.name, blob: wall.blob }]),
    ];
    const buffer = await new Blob(files.map(({ blob }) => blob)).arrayBuffer();
    const listed = files.map(({ role, file, blob }) => ({ role, file, bytes: blob.size }));
    const { reply, buffers } = await getCore().call("save_bundle", { job: now.job, files: listed }, { buffer });
    download(fileOf(reply.parts, buffers, "application/zip"), reply.report.file);
    announce(`${reply.report.file} was saved and opened again: it holds ${held(reply.report.files)}.`);
  } catch (failure) {
    setFieldError("job", failureText(failure));
  } finally {
    savingBundle.value = false;
  }
}

function held(files: readonly { readonly role: string }[]): string {
  return ["the job", ...files.map(({ role }) => (role === "wall" ? "the photograph of the wall" : `the ${role}`))].join(
    " and ",
  );
}
