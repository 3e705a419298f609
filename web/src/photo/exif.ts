/**
 * The focal length that a JPEG's file tells, where there is no core; the numbers are those of `pycore/wall/exif.py`.
 * Nothing else of the EXIF block is read, and what is damaged counts as absent.
 */
import type { Point } from "./plane";

/** Published: EXIF 2.32 (JEITA CP-3451), the tags' numbers. */
const EXIF_IFD = 0x8769;
const [FOCAL_MM, FOCAL_35_MM] = [0x920a, 0xa405];
const [PLANE_X, PLANE_UNIT] = [0xa20e, 0xa210];
const [WIDTH_PX, HEIGHT_PX] = [0xa002, 0xa003];
/** The unit of the focal plane's resolution: inch, cm, mm (the last one is common practice). */
const UNITS_MM: ReadonlyMap<number, number> = new Map([
  [2, 25.4],
  [3, 10],
  [4, 1],
]);
/** Lenses outside are mistakes of the file. */
const [LEAST_MM, MOST_MM] = [8, 1200];
const FULL_FRAME_DIAGONAL_MM = Math.hypot(36, 24);

/** Published: JPEG (ISO/IEC 10918-1), the markers; EXIF 2.32, the name that its segment begins with. */
const [MARKER, START, APP1, SCAN] = [0xff, 0xd8, 0xe1, 0xda];
const NAME = "Exif\0\0";

/** Published: TIFF 6.0, section 2: the field types that these tags have, and their bytes. */
const [SHORT, LONG, RATIONAL] = [3, 4, 5];
/** More entries than any camera writes into one directory. */
const MOST_ENTRIES = 1000;

/** The focal length in pixels of a photograph of so many pixels; undefined where the file tells none. */
export function filedFocalPx(file: ArrayBuffer, [width, height]: Point): number | undefined {
  const tags = exifTags(new DataView(file));
  const diagonal = Math.hypot(width, height);
  const number = (tag: number): number | undefined => {
    const found = tags.get(tag);
    return found !== undefined && Number.isFinite(found) && found > 0 ? found : undefined;
  };
  const isLens = (mm: number): boolean => mm >= LEAST_MM && mm <= MOST_MM;
  const equalMm = number(FOCAL_35_MM);
  if (equalMm !== undefined && isLens(equalMm)) return (equalMm / FULL_FRAME_DIAGONAL_MM) * diagonal;
  const [focalMm, perUnit] = [number(FOCAL_MM), number(PLANE_X)];
  const unitMm = UNITS_MM.get(number(PLANE_UNIT) ?? 2);
  if (focalMm === undefined || perUnit === undefined || unitMm === undefined) return undefined;
  const [wide, high] = [number(WIDTH_PX), number(HEIGHT_PX)];
  const reduced = wide === undefined || high === undefined ? 1 : Math.max(width, height) / Math.max(wide, high);
  const found = ((focalMm * perUnit) / unitMm) * reduced;
  return isLens((found / diagonal) * FULL_FRAME_DIAGONAL_MM) ? found : undefined;
}

/** The numbers of the EXIF directory; none where the file is no JPEG or has no such block. */
function exifTags(view: DataView): ReadonlyMap<number, number> {
  try {
    const block = exifBlock(view);
    if (block === undefined) return new Map();
    const order = block.getUint16(0);
    if ((order !== 0x4949 && order !== 0x4d4d) || block.getUint16(2, order === 0x4949) !== 42) return new Map();
    const isLittle = order === 0x4949;
    const place = directory(block, block.getUint32(4, isLittle), isLittle).get(EXIF_IFD);
    return place === undefined ? new Map() : directory(block, place, isLittle);
  } catch (failure) {
    // A place beyond the block's end: the file is cut or damaged.
    if (failure instanceof RangeError) return new Map();
    throw failure;
  }
}

/** The segment that holds the TIFF structure. */
function exifBlock(view: DataView): DataView | undefined {
  if (view.byteLength < 4 || view.getUint8(0) !== MARKER || view.getUint8(1) !== START) return undefined;
  for (let at = 2; at + 4 <= view.byteLength;) {
    const [lead, kind, length] = [view.getUint8(at), view.getUint8(at + 1), view.getUint16(at + 2)];
    if (lead !== MARKER || kind === SCAN || length < 2) return undefined;
    const begin = at + 4;
    const isNamed = Array.from(NAME, (letter, i) => view.getUint8(begin + i) === letter.charCodeAt(0)).every(Boolean);
    if (kind === APP1 && isNamed) {
      return new DataView(view.buffer, begin + NAME.length, length - 2 - NAME.length);
    }
    at += 2 + length;
  }
  return undefined;
}

/** The first number of each entry that is one. */
function directory(block: DataView, place: number, isLittle: boolean): Map<number, number> {
  const found = new Map<number, number>();
  const count = block.getUint16(place, isLittle);
  if (count > MOST_ENTRIES) return found;
  for (let i = 0; i < count; i += 1) {
    const at = place + 2 + 12 * i;
    const [tag, type] = [block.getUint16(at, isLittle), block.getUint16(at + 2, isLittle)];
    if (block.getUint32(at + 4, isLittle) !== 1) continue;
    if (type === SHORT) found.set(tag, block.getUint16(at + 8, isLittle));
    else if (type === LONG) found.set(tag, block.getUint32(at + 8, isLittle));
    else if (type === RATIONAL) {
      const value = block.getUint32(at + 8, isLittle);
      found.set(tag, block.getUint32(value, isLittle) / block.getUint32(value + 4, isLittle));
    }
  }
  return found;
}
