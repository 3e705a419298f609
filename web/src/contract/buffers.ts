// Reading the flat buffers that travel with a reply, each checked against the reply's description.
import { ContractError } from "./decode";
import type { Buffer as Sent } from "./types";

/** Pixels or file bytes; no copy is made. */
export function bytesOf(sent: Sent, buffers: readonly ArrayBuffer[]): Uint8Array<ArrayBuffer> {
  return new Uint8Array(checkedBuffer(sent, buffers, "uint8", Uint8Array.BYTES_PER_ELEMENT));
}

/** Coordinates or fractions; no copy is made. */
export function floatsOf(sent: Sent, buffers: readonly ArrayBuffer[]): Float32Array<ArrayBuffer> {
  return new Float32Array(checkedBuffer(sent, buffers, "float32", Float32Array.BYTES_PER_ELEMENT));
}

/** The bits of half floats; no copy is made. */
export function halvesOf(sent: Sent, buffers: readonly ArrayBuffer[]): Uint16Array<ArrayBuffer> {
  return new Uint16Array(checkedBuffer(sent, buffers, "uint16", Uint16Array.BYTES_PER_ELEMENT));
}

/** Indices; no copy is made. */
export function indicesOf(sent: Sent, buffers: readonly ArrayBuffer[]): Uint32Array<ArrayBuffer> {
  return new Uint32Array(checkedBuffer(sent, buffers, "uint32", Uint32Array.BYTES_PER_ELEMENT));
}

/** The colour-encoded pixels of a (height, width, 4) buffer, ready for a canvas; no copy is made. */
export function imageOf(sent: Sent, buffers: readonly ArrayBuffer[]): ImageData {
  const [height, width, channels] = sent.shape;
  if (height === undefined || width === undefined || channels !== 4) {
    throw new ContractError(`buffer ${sent.place} has the shape ${sent.shape.join(" x ")}, not that of an image`);
  }
  const bytes = checkedBuffer(sent, buffers, "uint8", Uint8Array.BYTES_PER_ELEMENT);
  return new ImageData(new Uint8ClampedArray(bytes), width, height);
}

function checkedBuffer(
  sent: Sent,
  buffers: readonly ArrayBuffer[],
  dtype: Sent["dtype"],
  itemBytes: number,
): ArrayBuffer {
  const buffer = buffers[sent.place];
  if (buffer === undefined) throw new ContractError(`buffer ${sent.place} did not come`);
  if (sent.dtype !== dtype) throw new ContractError(`buffer ${sent.place} holds ${sent.dtype}, not ${dtype}`);
  const needed = sent.shape.reduce((product, size) => product * size, itemBytes);
  if (buffer.byteLength !== needed) {
    throw new ContractError(`buffer ${sent.place} has ${buffer.byteLength} bytes, not ${needed}`);
  }
  return buffer;
}
