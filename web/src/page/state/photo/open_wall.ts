// Opening the photograph of a wall, looking for its references, and letting go of it.
import { batch, effect, signal } from "@preact/signals";
import { bytesOf } from "../../../contract/buffers";
import type { Note, Progress } from "../../../contract/types";
import { roughCorners } from "../../../photo/marked_wall";
import type { Corners } from "../../../photo/plane";
import { getCore, onForgotten, onRestart } from "../core/connection";
import { READ_ONLY, readOnly } from "../keeping/mode";
import { clearFieldErrors, failureText, setFieldError } from "../page/fields";
import { bytesIn } from "../page/read_file";
import { scene, wallState } from "../page/view";
import { middleOf, type MarkedReference } from "./reference_size";
import {
  changeWall,
  isRough,
  newWall,
  tool,
  type WallPhotoFile,
  wallImage,
  type WallWork,
  wallWork,
} from "./wall_work";
import { say } from "../../../speech/on_page";

/** Places of errors about the wall. */
export const PHOTO = "wall.photo";
export const CORNERS = "corners";
export const REFERENCE = "reference";
export const PLACE = "wall.at";
export const SIZE = "wall.face";
const ALL = [PHOTO, CORNERS, REFERENCE, PLACE, SIZE];

/** What is going on; empty when there is nothing. */
export const wallBusy = signal("");
/** How far the search for a reference is. */
export const wallSearch = signal<number | undefined>(undefined);
/** What the core said of the photograph when it was opened. */
export const photoNotes = signal<readonly Note[]>([]);

/** The photograph that the core has open. */
let inCore: WallPhotoFile | undefined;
onRestart(() => (inCore = undefined));
onForgotten(() => (inCore = undefined));

/** Counts what changes which photograph is open. */
let turn = 0;
/** The turn of what is open: what comes later of an earlier one is let go. A photograph that is not read opens nothing. */
let openTurn = 0;

/** The searches that are going on. */
const searches = new Set<{ readonly number: number; readonly stop: AbortController }>();

/** End the searches for a reference, or for all where another photograph, or none, takes the place of theirs. */
function endSearches(number?: number): void {
  for (const one of searches) if (number === undefined || one.number === number) one.stop.abort();
}

/** Open the wall's photograph in the core, unless it is open. */
export async function openWallInCore(): Promise<void> {
  const photo = wallWork.peek()?.photo;
  if (photo === undefined || photo === inCore) return;
  const params = { file: photo.name, ...lensOf(photo) };
  await getCore().call("open_wall", params, { buffer: await photo.blob.arrayBuffer() });
  inCore = photo;
}

/** The focal length of a kept copy, which tells it no more itself. */
function lensOf(photo: WallPhotoFile | undefined): { readonly focal_px?: number } {
  return photo?.focalPx === undefined ? {} : { focal_px: photo.focalPx };
}

/**
 * Open a photograph, with what was marked on it before. A file that is none gives an error, and the wall stays as it
 * was; marks of a photograph of another size are left out.
 */
export async function openWallPhoto(
  file: File | { readonly name: string; readonly blob: Blob },
  former?: WallWork,
): Promise<void> {
  const mine = (turn += 1);
  clearFieldErrors(PHOTO);
  wallBusy.value = say("Reading {file}", { file: file.name });
  try {
    const buffer = await ("blob" in file ? file.blob.arrayBuffer() : bytesIn(file));
    const params = { file: file.name, ...lensOf(former?.photo) };
    const { reply, buffers } = await getCore().call("open_wall", params, { buffer });
    const blob = new Blob(
      reply.parts.map((part) => bytesOf(part, buffers)),
      { type: "image/jpeg" },
    );
    const photo: WallPhotoFile = {
      name: reply.file,
      blob,
      px: reply.photo_px,
      ...(reply.focal_px === undefined ? {} : { focalPx: reply.focal_px }),
    };
    inCore = photo;
    const image = await createImageBitmap(blob);
    if (isLate(mine, image)) return;
    openTurn = mine;
    photoNotes.value = reply.notes;
    const fits = former?.photo.px.every((side, i) => side === photo.px[i]) ?? false;
    const next = former !== undefined && fits ? { ...former, photo } : newWall(photo);
    // What was chosen after it was not read: that goes on being told.
    show(next, image, { keeps: mine === turn ? undefined : PHOTO });
    await findMissing();
  } catch (failure) {
    if (mine > openTurn) setFieldError(PHOTO, failureText(failure));
  } finally {
    if (mine === turn) wallBusy.value = "";
  }
}

/** Whether another photograph, or none, has taken the place meanwhile; the image is then let go. */
function isLate(mine: number, image: ImageBitmap): boolean {
  if (mine >= openTurn) return false;
  image.close();
  return true;
}

/** Open a photograph that a person chose or dropped; where another tab writes the job, say so instead. */
export async function chooseWallPhoto(file: File): Promise<void> {
  if (readOnly.peek()) setFieldError(PHOTO, { field: PHOTO, ...READ_ONLY });
  else await openWallPhoto(file);
}

/** Take up the wall of the last visit, and the search that its end cut short. */
export async function restoreWall(former: WallWork): Promise<void> {
  const mine = (openTurn = turn += 1);
  wallBusy.value = "";
  try {
    const image = await createImageBitmap(former.photo.blob);
    if (isLate(mine, image)) return;
    photoNotes.value = [];
    show(former, image, { atOnce: false });
    await findMissing();
  } catch (failure) {
    if (mine === openTurn) setFieldError(PHOTO, failureText(failure));
  }
}

/** Take up a wall; `keeps` names the place of an error that stays, and without `atOnce` another scene may be seen. */
function show(
  next: WallWork,
  image: ImageBitmap,
  { atOnce = true, keeps }: { readonly atOnce?: boolean; readonly keeps?: string | undefined },
): void {
  endSearches();
  batch(() => {
    clearFieldErrors(...ALL.filter((place) => place !== keeps));
    wallImage.value?.close();
    wallImage.value = image;
    wallWork.value = next;
    if (atOnce) scene.value = "photo";
  });
}

/** Let go of the photograph and all that is marked on it. */
export function closeWall(): void {
  openTurn = turn += 1;
  endSearches();
  batch(() => {
    wallBusy.value = "";
    clearFieldErrors(...ALL);
    wallWork.value = undefined;
    wallImage.value?.close();
    wallImage.value = undefined;
    photoNotes.value = [];
    tool.value = "piece";
    if (scene.value === "photo") scene.value = wallState.value === "none" ? "sheet" : "wall";
  });
}

/** Change one of the references. A piece that hangs in the middle of the first one stays there. */
export function changeReference(number: number, change: Partial<MarkedReference>): void {
  const { references = [], at } = wallWork.peek() ?? {};
  const former = references[number];
  if (former === undefined) return;
  const changed = { ...former, ...change };
  const follows = number === 0 && middleOf(former).every((mm, axis) => mm === at?.[axis]);
  changeWall({
    references: references.map((one, i) => (i === number ? changed : one)),
    ...(follows ? { at: middleOf(changed) } : {}),
  });
}

/** Look for a reference; where nothing is sure, its corners wait in the middle for a hand. */
export async function findReference(number: number): Promise<void> {
  const now = wallWork.peek();
  const reference = now?.references[number];
  if (now === undefined || reference === undefined) return;
  clearFieldErrors(CORNERS, REFERENCE);
  endSearches(number);
  const search = { number, stop: new AbortController() };
  const { signal: stopped } = search.stop;
  searches.add(search);
  wallBusy.value = say("Looking for the reference");
  try {
    await openWallInCore();
    const onProgress = ({ done }: Progress) => (wallSearch.value = done);
    const asked = { reference: { size: reference.size } };
    const { reply } = await getCore().call("find_reference", asked, { onProgress, signal: stopped });
    if (stopped.aborted || wallWork.peek()?.photo !== now.photo) return;
    take(number, reply.corners, reply.size_mm);
  } catch (failure) {
    if (stopped.aborted || wallWork.peek()?.photo !== now.photo) return;
    const wrong = failureText(failure);
    setFieldError(wrong.field === REFERENCE ? REFERENCE : CORNERS, wrong);
    if (wrong.field === REFERENCE) return;
    batch(() => {
      if (reference.corners === undefined) changeReference(number, { corners: roughCorners(now.photo.px) });
      tool.value = "corners";
    });
  } finally {
    searches.delete(search);
    if (searches.size === 0)
      batch(() => {
        wallBusy.value = "";
        wallSearch.value = undefined;
      });
  }
}

/** Look for each reference without corners; where another tab writes the job, that tab does. */
async function findMissing(): Promise<void> {
  const now = wallWork.peek();
  if (readOnly.peek()) return;
  for (const [number, { corners }] of (now?.references ?? []).entries()) {
    if (corners === undefined && wallWork.peek()?.photo === now?.photo) await findReference(number);
  }
}

/** Move a reference's corners, which a hand has marked, to the edges that lie near. */
export async function snapReference(number: number): Promise<void> {
  const reference = wallWork.peek()?.references[number];
  if (reference?.corners === undefined) return;
  clearFieldErrors(CORNERS, REFERENCE);
  try {
    await openWallInCore();
    const { size, corners } = reference;
    const { reply } = await getCore().call("find_reference", { reference: { size, corners: sent(corners) } });
    if (reply.snapped) {
      changeReference(number, { corners: reply.corners });
      return;
    }
    const message = say("No edges are seen within reach of these corners.");
    setFieldError(CORNERS, { field: CORNERS, message, remedy: say("mark them more exactly by hand") });
  } catch (failure) {
    setFieldError(CORNERS, failureText(failure));
  }
}

/** The first reference's middle is where the piece hangs at first. */
function take(number: number, corners: Corners, size_mm: readonly [number, number]): void {
  batch(() => {
    const now = wallWork.peek();
    const former = now?.references[number]?.corners;
    const isNew = now === undefined || former === undefined || isRough(former, now.photo.px);
    changeReference(number, { corners });
    if (number === 0 && isNew) changeWall({ at: [size_mm[0] / 2, size_mm[1] / 2] });
    tool.value = "piece";
  });
}

/** Corners as the contract takes them. */
export function sent([a, b, c, d]: Corners): [Sent, Sent, Sent, Sent] {
  return [
    [a[0], a[1]],
    [b[0], b[1]],
    [c[0], c[1]],
    [d[0], d[1]],
  ];
}
type Sent = [number, number];

/** Tests read from outside whether the wall waits for the core. */
export function showWallBusy(): void {
  effect(() => {
    document.documentElement.dataset["wall"] = wallBusy.value === "" ? "known" : "asking";
  });
}
