// The measured wall and the canvases that hang on it, asked from the core whenever what they depend on changes.
import { computed, effect, signal, untracked } from "@preact/signals";
import { bytesOf } from "../../../contract/buffers";
import { dependsOn } from "../../../contract/dependence";
import type { Job, MeasureWallParams, MeasureWallReply, PanelPlace, WallCanvasReply } from "../../../contract/types";
import type { Look, RoomLight } from "../../../photo/light";
import type { Camera, Point } from "../../../photo/plane";
import type { StagePiece, StageTexture } from "../../../stage/types";
import { openProfileInCore, profilesKept } from "../colour/profiles";
import { compared } from "../compare/comparison";
import { getCore } from "../core/connection";
import { queryQueue } from "../core/queries";
import { Query } from "../core/query";
import { clearFieldErrors, setFieldError } from "../page/fields";
import { scene } from "../page/view";
import { piecesOf } from "../work/receive";
import { callAbout } from "../work/run";
import { job, lacksPicture, shown, waiting, work } from "../work/work";
import { CORNERS, openWallInCore, PLACE, REFERENCE, sent, SIZE } from "./open_wall";
import { changeWall, isRough, wallLook, type WallPhotoFile, type WallWork, wallWork } from "./wall_work";

interface Measured {
  readonly reply: MeasureWallReply;
  /** Where the piece hung. */
  readonly at: Point;
}

const measureQuery = new Query<Measured>("wall", queryQueue);
const canvasQuery = new Query<readonly StageTexture[]>("wall canvases", queryQueue);

/** Its parameters for the core; undefined until every reference has its corners, found or marked by a hand. */
export function placedWall(now: WallWork, of: Job): MeasureWallParams | undefined {
  const references = now.references.flatMap(({ size, corners }) =>
    corners === undefined || isRough(corners, now.photo.px) ? [] : [{ size, corners: sent(corners) }],
  );
  const [first, ...rest] = references;
  if (first === undefined || references.length < now.references.length) return undefined;
  const { amount, shadow } = wallLook.peek();
  return { job: of, references: [first, ...rest], at_mm: [now.at[0], now.at[1]], room_light: amount, shadow };
}

/** The latest measured wall, also while another place is being measured; nothing where the marks are refused. */
export const measured = computed<MeasureWallReply | undefined>(() => {
  const refused = measureQuery.failure.value;
  if (wallWork.value === undefined || (refused !== undefined && refused.field !== PLACE)) return undefined;
  return measureQuery.known.value?.value.reply;
});

/** What the photograph's view needs of it. */
export const seenWall = computed<{ readonly camera: Camera; readonly light: RoomLight } | undefined>(() => {
  const now = measured.value;
  if (now === undefined) return undefined;
  const { white, middle_mm, fall, most_factor } = now.light;
  return { camera: now.camera, light: { white, middleMm: middle_mm, fall, mostFactor: most_factor } };
});

export const seenLook = computed<Look>(() => ({
  ...wallLook.value,
  fromDeg: measured.value?.report.light_from_deg ?? 0,
}));

/**
 * What hangs in each pane, the variants of a comparison or the job alone: its sizes are known before the wall's canvases
 * are made, which happens only while the photograph is looked at.
 */
export const wallPieces = computed<readonly (readonly StagePiece[])[]>(() => {
  const [now, on, beside] = [job.value, shown.value, compared.value];
  if (beside !== undefined) return beside.panes.map(({ pieces }) => pieces);
  if (now === undefined || on?.fold === undefined || lacksPicture.value) return [];
  return [piecesOf(now, on.panels, { fold: on.fold })];
});

/** The same in the wall's canvases, as soon as these are made. */
export const wallPanes = computed<readonly (readonly StagePiece[])[]>(() => {
  const textures = canvasQuery.known.value?.value ?? [];
  const [panes, variants, own] = [wallPieces.value, compared.value?.variants, shown.value?.panels ?? []];
  if (textures.length !== panes.length) return [];
  return panes.map((pieces, i) => {
    const totalPx = rowsOf(variants === undefined ? own : (variants[i]?.panels ?? []));
    return pieces.map((piece) => dressed(piece, textures[i], totalPx));
  });
});

/** A piece in the canvas that the core made for the wall; `totalPx` are the rows of all panels as they were counted. */
function dressed(piece: StagePiece, texture: StageTexture | undefined, totalPx: number): StagePiece {
  if (texture === undefined) return piece;
  const { rows, texture: _former, ...rest } = piece;
  if (rows === undefined) return { ...rest, texture };
  const by = texture.heightPx / totalPx;
  return { ...rest, texture, rows: { topPx: rows.topPx * by, bottomPx: rows.bottomPx * by } };
}

function rowsOf(panels: readonly PanelPlace[]): number {
  return panels.at(-1)?.bottom_px ?? 1;
}

/** Whether the view waits for an answer. */
export const wallPending = computed(() => measureQuery.pending.value || canvasQuery.pending.value);
export const canvasFailure = computed(() => canvasQuery.failure.value);

/** Rises with the pointer held on something: nothing is measured until it lets go. */
export const wallHeld = signal(false);

/** Ask from now on, whenever the photograph is looked at. */
export function startWallQueries(): void {
  let photo: WallPhotoFile | undefined;
  effect(() => {
    const [now, of] = [wallWork.value, job.value];
    // What was measured on another photograph is not so on this one.
    if (now?.photo !== photo) measureQuery.forget();
    photo = now?.photo;
    if (now === undefined || of === undefined || wallHeld.value || waiting.value > 0) return;
    const params = placedWall(now, of);
    if (params === undefined) return;
    const key = JSON.stringify([now.photo.name, now.photo.px, params.references, now.at, dependsOn(of, "layout")]);
    measureQuery.request(
      key,
      async (stopped) => {
        await openWallInCore();
        const { reply } = await getCore().call("measure_wall", params, { signal: stopped });
        return { reply, at: now.at };
      },
      true,
    );
  });
  effect(() => {
    const wrong = measureQuery.failure.value;
    untracked(() => {
      if (wrong === undefined) return;
      setFieldError([REFERENCE, PLACE, SIZE].includes(wrong.field) ? wrong.field : CORNERS, wrong);
      if (wrong.field === PLACE) takeBackPlace();
    });
  });
  effect(() => {
    if (measureQuery.fresh.value !== undefined) untracked(() => clearFieldErrors(CORNERS, REFERENCE, SIZE));
  });
  effect(() => {
    const [now, beside] = [work.value, compared.value];
    if (wallWork.value === undefined || scene.value !== "photo" || now === undefined || lacksPicture.value) return;
    if (waiting.value > 0) {
      // The change of the job must not wait, and may bring another picture.
      if (canvasQuery.pending.peek()) canvasQuery.stop();
      return;
    }
    const jobs = beside?.variants.map((one) => one.job) ?? [now.job];
    const key = JSON.stringify([now.picture, profilesKept.value, jobs.map(canvasKey)]);
    canvasQuery.request(
      key,
      async (stopped, onProgress) => {
        const made: StageTexture[] = [];
        for (const one of jobs) {
          await openProfileInCore(one.colour.profile);
          const options = { signal: stopped, onProgress };
          const { reply, buffers } = await callAbout(now.picture, "wall_canvas", { job: one }, options);
          made.push(textureOf(reply, buffers));
        }
        return made;
      },
      true,
    );
  });
  effect(() => {
    document.documentElement.dataset["wallPending"] = String(wallPending.value);
  });
}

function canvasKey(of: Job): unknown {
  return [dependsOn(of, "texture"), dependsOn(of, "look")];
}

function textureOf({ texture }: WallCanvasReply, buffers: readonly ArrayBuffer[]): StageTexture {
  const [heightPx = 0, widthPx = 0] = texture.pixels.shape;
  return { pixels: bytesOf(texture.pixels, buffers), widthPx, heightPx };
}

/** A place that the core refused is given up for the last that it measured. */
function takeBackPlace(): void {
  const good = measureQuery.known.peek();
  if (good !== undefined) changeWall({ at: good.value.at });
}
