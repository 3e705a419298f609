// The work at the start: that of the last visit, or the demo.
import demoText from "../../../../../demo_data/demo_job.json?raw";
import demoPicture from "../../../../../demo_data/estuary.jpg?url";
import type { Job } from "../../../contract/types";
import { CoreError } from "../../../worker/client";
import { getCore } from "../core/connection";
import { keepProfile } from "../colour/profiles";
import { clientWords, demoJob } from "./beside_job";
import { type Kept, keepWork, keptProfile, keptWork } from "./persist";
import { isOf } from "./picture_job";
import { asPictureFile, keepPicture, NO_PICTURE } from "./pictures";
import { add } from "./run";
import { loading, announce } from "../page/status";
import { history } from "./work";
import { say } from "../../../speech/on_page";

/** Start the core and show the first work. Resolves when its canvas was made, or could not be made. */
export async function boot(): Promise<void> {
  getCore();
  try {
    const [kept, profile] = await Promise.all([keptWork(), keptProfile()]).catch(() => []);
    if (kept !== undefined && profile !== undefined) keepProfile(profile);
    if (kept !== undefined && (await showKept(kept))) {
      announce(say("Your work from the last visit is open."));
    } else {
      await showDemo();
      if (kept !== undefined)
        announce(say("Your work from the last visit could not be opened, so the page shows the demo."));
    }
    keepWork();
  } catch (failure) {
    if (!(failure instanceof CoreError)) console.error(failure);
    const got = failure instanceof Error ? failure.message : String(failure);
    const remedy = failure instanceof CoreError ? failure.remedy : say("load the page again");
    loading.value = { state: "failed", got, remedy };
  }
}

async function checked(text: string): Promise<Job> {
  return (await getCore().call("check", { text })).reply.job;
}

async function showKept({ job: text, picture: file, proposed, words }: Kept): Promise<boolean> {
  try {
    const job = await checked(text);
    const kept = file && (await asPictureFile(file.name, file.blob));
    // Whatever lay beside the job, only its own picture comes back.
    const picture = kept !== undefined && isOf(job.picture, kept) ? keepPicture(kept) : NO_PICTURE;
    const work = { job, picture, demo: false, ...(proposed === undefined ? {} : { proposed }) };
    await add({ kind: "load", work, label: "the last visit" });
    clientWords.value = words;
  } catch (failure) {
    if (!(failure instanceof CoreError)) throw failure;
  }
  return history.value !== undefined;
}

/** The demo job with the picture that is painted for it; the picture comes while Python still loads. */
async function showDemo(): Promise<void> {
  const [job, blob] = await Promise.all([checked(demoText), fetched(demoPicture)]);
  const file = await asPictureFile(job.picture.file, blob);
  const work = {
    job: { ...job, picture: { ...job.picture, sha256: file.sha256 } },
    picture: keepPicture(file),
    demo: true,
  };
  await add({ kind: "load", work, label: "the demo" });
  demoJob.value = history.value?.present.state.job;
}

async function fetched(address: string): Promise<Blob> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`the demo picture could not be fetched (${response.status})`);
  return response.blob();
}
