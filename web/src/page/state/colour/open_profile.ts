// Opening a canvas profile: by button, by dropping it on the page, or pasted.
import { signal } from "@preact/signals";
import { ILLUSTRATIVE, keepProfile, nameFor, recordOpened } from "./profiles";
import { getCore } from "../core/connection";
import { setColour } from "../work/edit";
import { clearFieldErrors, entryError, fileFailure, setFieldError } from "../page/fields";
import { bytesIn } from "../page/read_file";
import { propose } from "../work/run";
import { firstWork } from "../work/work";
import { say } from "../../../speech/on_page";

const FIELD = "colour.profile";
/** The largest printer profiles have a few megabytes. */
const LARGEST_BYTES = 64 * 1024 * 1024;

/** A profile is being read. */
export const openingProfile = signal(false);

/** Open a canvas profile. A file that is none gives an error beside the field, and the former profile stays. */
export async function openProfileFile(file: File): Promise<void> {
  clearFieldErrors(FIELD);
  if (file.size > LARGEST_BYTES) {
    const got = say("{file} with {size} MB", { file: file.name, size: Math.round(file.size / 1e6) });
    const remedy = say("open the profile of your canvas on your printer");
    const wrong = entryError(FIELD, say("an ICC profile of at most 64 MB"), got, remedy);
    setFieldError(FIELD, { ...wrong, kept: say("The job is as it was.") });
    return;
  }
  openingProfile.value = true;
  try {
    const change = setColour({ profile: await keepProfileFile(file.name, new Blob([await bytesIn(file)])) });
    await propose({ field: FIELD, label: say("opening the profile {file}", { file: file.name }), change });
  } catch (failure) {
    setFieldError(FIELD, fileFailure(failure));
  } finally {
    openingProfile.value = false;
  }
}

/** Open a profile in the core and keep it; resolves with the name that jobs call it. */
export async function keepProfileFile(file: string, blob: Blob): Promise<string> {
  const bytes = await blob.arrayBuffer();
  const name = await nameFor(file, blob);
  await firstWork();
  const { reply } = await getCore().call("profile", { file: name }, { buffer: bytes.slice(0) });
  recordOpened(reply);
  keepProfile({ name, blob: new Blob([bytes]) });
  return reply.file;
}

/** Back to the invented canvas. */
export function chooseIllustrativeProfile(): void {
  clearFieldErrors(FIELD);
  void propose({ field: FIELD, label: say("the illustrative canvas"), change: setColour({ profile: ILLUSTRATIVE }) });
}
