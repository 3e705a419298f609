/** Opening the client's photograph in the browser itself: upright, not too large, and the paper's colour in it. */
import { paperPlaces, paperWhite, type RoomLight } from "../photo/light";
import { filedFocalPx } from "../photo/exif";
import { planeFromCorners } from "../photo/marked_wall";
import { type Corners, mapped, type Point, type Triple } from "../photo/plane";
import type { Photo } from "../photo/state";
import { toLinear } from "../stage/room/theme";
import { paper } from "../stage/still/still";
import { say } from "../speech/say";

/** Pixels of the longer side that are kept: more than any screen shows. */
const LONGEST_PX = 4000;
/** Bytes at a file's begin that hold its EXIF block: segments of 64 KiB, of which it is one of the first. */
const HEAD_BYTES = 1024 * 1024;

/** A photograph of the client's own. */
export interface OwnPhoto extends Photo {
  /** By its file, in the pixels that are kept. */
  readonly focalPx?: number;
}

/** Read a photograph; rejects with a sentence where the browser reads none of it. */
export async function openPhoto(file: Blob, name: string): Promise<OwnPhoto> {
  let whole: ImageBitmap;
  try {
    whole = await createImageBitmap(file, { imageOrientation: "from-image" });
  } catch {
    const heic = /\.hei[cf]$/i.test(name) ? say(" It is a HEIC file: save it as JPEG first.") : "";
    throw new Error(say("{name} is no photograph that this browser can read.", { name }) + heic);
  }
  const share = LONGEST_PX / Math.max(whole.width, whole.height);
  const filedPx = filedFocalPx(await file.slice(0, HEAD_BYTES).arrayBuffer(), [whole.width, whole.height]);
  const lens = filedPx === undefined ? {} : { focalPx: filedPx * Math.min(1, share) };
  if (share >= 1) return { image: whole, px: [whole.width, whole.height], ...lens };
  const size = { width: Math.round(whole.width * share), height: Math.round(whole.height * share) };
  const image = await createImageBitmap(whole, {
    resizeWidth: size.width,
    resizeHeight: size.height,
    resizeQuality: "high",
  });
  whole.close();
  return { image, px: [size.width, size.height], ...lens };
}

/** The paper's own colour in the photograph, linear sRGB. */
export function whiteOf({ image, px }: Photo, size: Point, corners: Corners): RoomLight["white"] {
  const plane = planeFromCorners(size, corners);
  const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => y)];
  const [left, top] = [Math.floor(Math.min(...xs)), Math.floor(Math.min(...ys))];
  const width = Math.max(1, Math.ceil(Math.max(...xs)) - left);
  const height = Math.max(1, Math.ceil(Math.max(...ys)) - top);
  const surface = paper(width, height);
  surface.drawImage(image, -left, -top);
  const { data } = surface.getImageData(0, 0, width, height);
  const places = paperPlaces(size).flatMap((place): Triple[] => {
    const [x, y] = mapped(plane, place);
    if (!(x >= 0 && y >= 0 && x < px[0] && y < px[1])) return [];
    const at = 4 * ((Math.floor(y) - top) * width + Math.floor(x) - left);
    const linear = (channel: number): number => toLinear((data[at + channel] ?? 0) / 255);
    return [[linear(0), linear(1), linear(2)]];
  });
  return paperWhite(places);
}
