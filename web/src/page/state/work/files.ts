// Files that the user opens and saves: pictures, job files, bundles, profiles, and the core's files.
import { openProfileFile } from "../colour/open_profile";
import { getCore } from "../core/connection";
import { openNew } from "../keeping/jobs";
import { keepPictureBytes } from "../keeping/save";
import { clearFieldErrors, fileFailure, setFieldError } from "../page/fields";
import { bytesIn, textOf } from "../page/read_file";
import { announce, announcement } from "../page/status";
import { openWallPhoto } from "../photo/open_wall";
import { asWall } from "../photo/stored_wall";
import { demoJob } from "./beside_job";
import { openedBundle } from "./bundles";
import { isBundleFile, isJobFile, isProfileFile, leftSentence, oneOfEach } from "./file_kinds";
import { isFaceOpen, openedJob, type Start, withOffered, withPicture } from "./picture_job";
import { asPictureFile, fileName, keepPicture } from "./pictures";
import { add } from "./run";
import { busy, firstWork, job, waiting, type Work } from "./work";
import { say } from "../../../speech/on_page";

/** The picture that was chosen last: one that takes longer to be read does not come after it. */
let latestPicture = 0;

/** Open files that come together, dropped or pasted: of each kind one, and say which ones are left. */
export async function openFiles(files: readonly File[]): Promise<void> {
  const { open, left } = oneOfEach(files);
  for (const file of open) await openFile(file);
  if (left.length === 0) return;
  const sentence = leftSentence(left.map(({ name }) => name));
  // What was said of those that were opened holds too.
  announce([announcement.peek(), sentence].filter((text) => text !== "").join(" "));
}

/** Open a picture, a job file, a bundle or a canvas profile. */
export async function openFile(file: File): Promise<void> {
  if (isJobFile(file)) await openJobFile(file);
  else if (isBundleFile(file)) await openBundleFile(file);
  else if (isProfileFile(file)) await openProfileFile(file);
  else await openPictureFile(file);
}

async function openPictureFile(file: File): Promise<void> {
  clearFieldErrors("picture.file");
  const name = file.name || "pasted.png";
  const mine = (latestPicture += 1);
  busy.value = say("Reading {file}", { file: name });
  try {
    // A copy: the file itself may change or go away on the disk while the page is open.
    const bytes = await bytesIn(file);
    const blob = new Blob([bytes], { type: file.type });
    const [kept, start] = await Promise.all([asPictureFile(name, blob, bytes), startOf(await firstWork())]);
    if (mine !== latestPicture) return;
    const picture = keepPicture(kept);
    keepPictureBytes(picture);
    await add({
      kind: "picture",
      label: say("opening {file}", { file: name }),
      change: (now) => withPicture(now, kept, picture, start),
      proposes: (now) => isFaceOpen(now, start),
    });
  } catch (failure) {
    if (mine === latestPicture) showFailure("picture.file", failure);
  } finally {
    if (mine === latestPicture && waiting.peek() === 0) busy.value = "";
  }
}

/** What is the person's own on the demo is known by comparing it with the demo's job and a job with nothing set. */
async function startOf(now: Work): Promise<Start | undefined> {
  const demo = demoJob.value;
  if (!now.demo || demo === undefined) return undefined;
  return { fresh: (await getCore().call("hello", {})).reply.job, demo };
}

/** Use the picture that is offered in place of the job's own. */
export function takeOfferedPicture(): Promise<void> {
  clearFieldErrors("picture.file");
  return add({ kind: "picture", label: say("using another picture"), change: withOffered });
}

async function openJobFile(file: File): Promise<void> {
  clearFieldErrors("job");
  try {
    const text = await textOf(file);
    const now = await firstWork();
    const { reply } = await getCore().call("check", { text });
    await openNew(openedJob(reply.job, now), say("opening {file}", { file: file.name }));
  } catch (failure) {
    showFailure("job", failure);
  }
}

async function openBundleFile(file: File): Promise<void> {
  clearFieldErrors("job");
  try {
    const { work, wall } = await openedBundle(file);
    const isShown = await openNew(work, say("opening {file}", { file: file.name }));
    if (isShown && wall !== undefined) await openWallPhoto(wall, asWall(wall));
  } catch (failure) {
    showFailure("job", failure);
  }
}

function showFailure(place: string, failure: unknown): void {
  setFieldError(place, fileFailure(failure));
}

/** Save the job as a file; it holds no pixels. */
export function saveJob(): void {
  const now = job.value;
  if (now === undefined) return;
  const text = `${JSON.stringify(now, null, 2)}\n`;
  download(new Blob([text], { type: "application/json" }), `${fileName(now.name || "canvas")}.json`);
}

/** Hand a file to the browser's own downloads. */
export function download(blob: Blob, name: string): void {
  const url = URL.createObjectURL(blob);
  const link = document.createElement("a");
  link.href = url;
  link.download = name;
  link.click();
  // The browser reads the address after this turn; a minute is ample even for a slow disk.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}
