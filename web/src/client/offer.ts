/** The data that the page carries for its viewer, as `pycore/client/offer_data.py` writes them. */

import { isRecord } from "../contract/record";
import type { Surroundings } from "../contract/types";
import type { RoomLight } from "../photo/light";
import type { Camera, Point } from "../photo/plane";
import type { StageSizes } from "../stage/types";
import type { Language } from "../speech/say";

export interface OfferedFold {
  /** Base64 of (vertices, 3) little-endian floats, mm. */
  readonly positions: string;
  /** Base64 of (vertices, 2) little-endian floats. */
  readonly uv: string;
  /** Base64 of (triangles, 3) little-endian 32-bit indices. */
  readonly triangles: string;
}

export interface OfferedPanel {
  readonly centreMm: readonly [number, number];
  /** Its rows, in shares of the texture's height. */
  readonly top: number;
  readonly bottom: number;
}

export interface OfferedVariant {
  /** Empty where it is the only one. */
  readonly letter: string;
  readonly label: string;
  /** The answer's first lines, if it is chosen. */
  readonly answer: readonly string[];
  readonly texture: number;
  readonly fold: number;
  readonly sizes: StageSizes;
  readonly panels: readonly OfferedPanel[];
}

/** The client's wall, as the printmaker has photographed and measured it. */
export interface OfferedWall {
  /** Data address of a JPEG. */
  readonly photo: string;
  readonly px: Point;
  readonly camera: Camera;
  readonly light: RoomLight;
  readonly fromDeg: number;
  readonly atMm: Point;
  /** The client may move the piece. */
  readonly isFree: boolean;
  readonly floorMm?: number;
  readonly roomLight: number;
  readonly shadow: number;
  readonly withinMm: Point;
}

export interface Offer {
  /** The page's language where it is not English, with what the viewer says in it. */
  readonly language?: Language;
  readonly words?: Readonly<Record<string, string>>;
  readonly wall?: OfferedWall;
  /** Data addresses of JPEGs. */
  readonly textures: readonly string[];
  readonly folds: readonly OfferedFold[];
  readonly surroundings: Surroundings;
  readonly variants: readonly OfferedVariant[];
}

/** Read the offer; throws where the file was damaged on its way. */
export function readOffer(text: string): Offer {
  const offer: unknown = JSON.parse(text);
  if (!isOffer(offer)) throw new TypeError("the page's data are not whole");
  return offer;
}

function isOffer(value: unknown): value is Offer {
  if (!isRecord(value)) return false;
  const { textures, folds, surroundings, variants, wall, language = "en", words = {} } = value;
  if ((language !== "en" && language !== "de") || !isRecord(words)) return false;
  if (!Object.values(words).every((one) => typeof one === "string")) return false;
  if (!Array.isArray(textures) || !Array.isArray(folds) || !Array.isArray(variants)) return false;
  const places = { texture: textures.length, fold: folds.length };
  return (
    isRecord(surroundings) &&
    (wall === undefined || isWall(wall)) &&
    textures.every((one) => typeof one === "string") &&
    folds.every(
      (one) => isRecord(one) && ["positions", "uv", "triangles"].every((key) => typeof one[key] === "string"),
    ) &&
    variants.length > 0 &&
    variants.every((one) => isVariant(one, places))
  );
}

function isWall(value: unknown): boolean {
  if (!isRecord(value) || !isRecord(value["light"])) return false;
  const { photo, px, camera, atMm, withinMm, fromDeg, roomLight, shadow, isFree } = value;
  const { white, fall, middleMm, mostFactor } = value["light"];
  return (
    typeof photo === "string" &&
    typeof isFree === "boolean" &&
    Array.isArray(camera) &&
    camera.length === 3 &&
    camera.every((row) => isNumbers(row, 4)) &&
    isNumbers(white, 3) &&
    [px, atMm, withinMm, fall, middleMm].every((one) => isNumbers(one, 2)) &&
    [fromDeg, roomLight, shadow, mostFactor, value["floorMm"] ?? 0].every((one) => typeof one === "number")
  );
}

function isNumbers(value: unknown, count: number): boolean {
  return Array.isArray(value) && value.length === count && value.every((one) => typeof one === "number");
}

function isVariant(value: unknown, places: { readonly texture: number; readonly fold: number }): boolean {
  if (!isRecord(value) || !isRecord(value["sizes"])) return false;
  const { letter, label, answer, texture, fold, panels } = value;
  return (
    typeof letter === "string" &&
    typeof label === "string" &&
    Array.isArray(answer) &&
    answer.every((line) => typeof line === "string") &&
    isPlace(texture, places.texture) &&
    isPlace(fold, places.fold) &&
    Object.values(value["sizes"]).every((size) => typeof size === "number") &&
    Array.isArray(panels) &&
    panels.length > 0 &&
    panels.every(isPanel)
  );
}

function isPanel(value: unknown): boolean {
  if (!isRecord(value) || !Array.isArray(value["centreMm"])) return false;
  const centre: readonly unknown[] = value["centreMm"];
  return [...centre, value["top"], value["bottom"]].every((one) => typeof one === "number");
}

function isPlace(value: unknown, count: number): boolean {
  return typeof value === "number" && Number.isInteger(value) && value >= 0 && value < count;
}
