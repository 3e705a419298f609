// The work at the start: that of the last visit, or the demo.
import demoText from "../../../../../demo_data/demo_job.json?raw";
import demoPicture from "../../../../../demo_data/estuary.jpg?url";
import type { Job } from "../../../contract/types";
import { CoreError, crashError } from "../../../worker/errors";
import { showDemoView } from "../first_view/first_view";
import { forgetCore, getCore } from "../core/connection";
import { jobToOpen, openKept, openStorage, startKeeping } from "../keeping/jobs";
import { readOnly, storage } from "../keeping/mode";
import { announce, loading } from "../page/status";
import { demoJob } from "./beside_job";
import { asPictureFile, keepPicture } from "./pictures";
import { add, restoreWork } from "./run";
import { history } from "./work";
import { say } from "../../../speech/on_page";

/** Start the core and show the first work. Resolves when its canvas was made, or could not be made. */
export async function boot(): Promise<void> {
  getCore();
  try {
    await openStorage();
    const id = await jobToOpen();
    if (id !== undefined && (await openKept(id))) {
      announce(readOnly.value ? OPEN_ELSEWHERE : say("Your work from the last visit is open."));
    } else {
      await showDemo();
      if (id !== undefined) announce(NOT_OPENED);
    }
    if (storage.value === "none") announce(NOTHING_KEPT);
    startKeeping();
  } catch (failure) {
    if (!(failure instanceof CoreError)) console.error(failure);
    const got = failure instanceof CoreError ? failure.got : String(failure);
    const remedy = failure instanceof CoreError ? failure.remedy : say("load the page again");
    loading.value = { state: "failed", got, remedy };
  }
}

const OPEN_ELSEWHERE = say(
  "This job is open in another tab, so it can only be looked at here. Open a copy to change it in this tab.",
);
const NOT_OPENED = say(
  "Your work from the last visit could not be opened, so the page shows the demo. It is kept under Jobs as it was.",
);
const NOTHING_KEPT = say(
  "This browser gives the page no storage, so nothing is kept when you close it. Save the bundle before you do.",
);

/** Start the core once more after it could not start, or fell too often. */
export async function tryAgain(): Promise<void> {
  loading.value = { state: "loading", done: 0, label: say("Starting") };
  forgetCore();
  if (history.value === undefined) await boot();
  else await restoreWork();
}

async function checked(text: string): Promise<Job> {
  return (await getCore().call("check", { text })).reply.job;
}

/** The demo job with the picture that is painted for it; the picture comes while Python still loads. */
async function showDemo(): Promise<void> {
  void showDemoView();
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
  const response = await fetch(address).catch(() => undefined);
  if (response?.ok === true) return response.blob();
  throw crashError(say("the demo picture could not be fetched"), say("check the connection and try again"));
}
