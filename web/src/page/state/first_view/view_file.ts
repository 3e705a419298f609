// A canvas as it is shown, in one file: the reply of `show` as text, the buffers of its fold, and the flat canvas as a
// JPEG file. `web/tools/demo_view.py` writes the demo's.
import { decodeReply } from "../../../contract/decode";
import type { Buffer as Sent, FoldReply, Job, ShowReply } from "../../../contract/types";
import { canvasOf, canvasWith, jpegOf } from "../page/jpeg";
import { received } from "../work/receive";
import type { Shown } from "../work/work";

/** Of the length of the text, an unsigned number, little-endian; and of each number in a fold's buffers. */
const NUMBER_BYTES = 4;
const JPEG_QUALITY = 0.88;

/** A job and its canvas as it was shown. */
export interface ShownJob {
  readonly job: Job;
  readonly shown: Shown;
}

/** Read such a file; rejects where it is none. */
export async function readView(content: ArrayBuffer): Promise<ShownJob> {
  const textEnd = NUMBER_BYTES + new DataView(content).getUint32(0, true);
  const text = new TextDecoder().decode(content.slice(NUMBER_BYTES, textEnd));
  const reply = decodeReply("show", text);
  if (reply.texture === undefined || reply.fold === undefined) throw new Error("the file lacks the canvas");
  const buffers: ArrayBuffer[] = [];
  let begin = textEnd;
  for (const { place, shape } of foldBuffers(reply.fold)) {
    const end = begin + shape.reduce((product, size) => product * size, NUMBER_BYTES);
    buffers[place] = content.slice(begin, end);
    begin = end;
  }
  buffers[reply.texture.pixels.place] = await pixelsOf(new Blob([content.slice(begin)]));
  return { job: reply.job, shown: received(reply, buffers, undefined) };
}

/** Write such a file; undefined where the canvas is not there, or only the tables of a look bring it to the screen. */
export async function writeView(job: Job, { sent, fold, texture, pictureEncoded }: Shown): Promise<Blob | undefined> {
  if (sent.fold === undefined || sent.texture === undefined || fold === undefined || texture === undefined) {
    return undefined;
  }
  if (pictureEncoded || sent.layout.use === undefined) return undefined;
  const image = new ImageData(texture.widthPx, texture.heightPx);
  image.data.set(texture.pixels);
  const flat = await jpegOf(canvasWith(image), JPEG_QUALITY);
  if (flat === undefined) return undefined;
  const raw = [fold.positions, fold.uv, fold.triangles, fold.outlines].map(bytesIn);
  const { positions, uv, triangles, outlines } = sent.fold;
  const reply: ShowReply = {
    ...sent,
    job,
    fold: {
      ...sent.fold,
      positions: { ...positions, place: 0 },
      uv: { ...uv, place: 1 },
      triangles: { ...triangles, place: 2 },
      outlines: { ...outlines, place: 3 },
    },
    texture: { ...sent.texture, pixels: { ...sent.texture.pixels, place: raw.length } },
  };
  const text = new TextEncoder().encode(JSON.stringify(reply));
  const length = new DataView(new ArrayBuffer(NUMBER_BYTES));
  length.setUint32(0, text.length, true);
  return new Blob([length, text, ...raw, flat]);
}

/** In the order in which their bytes follow one another. */
function foldBuffers({ positions, uv, triangles, outlines }: FoldReply): Sent[] {
  return [positions, uv, triangles, outlines];
}

async function pixelsOf(file: Blob): Promise<ArrayBuffer> {
  const image = await createImageBitmap(file, { colorSpaceConversion: "none" });
  const pen = canvasOf(image.width, image.height).getContext("2d", { willReadFrequently: true });
  if (pen === null) throw new Error("this browser has no canvas to draw on");
  pen.drawImage(image, 0, 0);
  const { data } = pen.getImageData(0, 0, image.width, image.height);
  image.close();
  return data.buffer;
}

/** A copy, in memory that no other thread can reach. */
function bytesIn(numbers: Float32Array | Uint32Array): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(new Uint8Array(numbers.buffer, numbers.byteOffset, numbers.byteLength));
}
