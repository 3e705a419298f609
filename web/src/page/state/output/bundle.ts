// Saving a bundle: the job with its picture and profile in one file.
import { signal } from "@preact/signals";
import { ILLUSTRATIVE, profileFile } from "../colour/profiles";
import { bundleOf, wallFiles } from "../keeping/bundled";
import { bundledJob } from "../keeping/leave";
import { parts } from "../keeping/parts";
import { clearFieldErrors, failureText, setFieldError } from "../page/fields";
import { announce } from "../page/status";
import { download } from "../work/files";
import { pictureFile } from "../work/pictures";
import { settledWork } from "../work/run";
import { lacksPicture } from "../work/work";
import { fileOf, PICTURE_LACKING } from "./making";
import { say } from "../../../speech/on_page";

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
    const wall = parts.value["wall"];
    const files = [
      { role: "picture" as const, ...picture },
      ...(profile === undefined ? [] : [{ role: "profile" as const, ...profile }]),
      ...(wall === undefined ? [] : wallFiles(wall)),
    ];
    const { reply, buffers } = await bundleOf(now.job, files);
    download(fileOf(reply.parts, buffers, "application/zip"), reply.report.file);
    bundledJob.value = now.job;
    announce(
      say("{file} was saved and opened again: it holds {held}.", {
        file: reply.report.file,
        held: held(reply.report.files),
      }),
    );
  } catch (failure) {
    setFieldError("job", failureText(failure));
  } finally {
    savingBundle.value = false;
  }
}

/** What a bundle's files are called; the marks on a wall belong to its photograph. */
const FILE_NAMES: Readonly<Record<string, string>> = {
  picture: say("the picture"),
  profile: say("the profile"),
  wall: say("the photograph of the wall"),
};

function held(files: readonly { readonly role: string }[]): string {
  return [say("the job"), ...files.flatMap(({ role }) => FILE_NAMES[role] ?? [])].join(say(" and "));
}
