// The room around the piece: wall, light, and the object beside it; settings of the page, not of the job.
import { effect, signal } from "@preact/signals";
import type { Beside, LightFrom, Surroundings, Wall } from "../../../contract/types";
import { DEFAULT_SURROUNDINGS } from "../../../stage/room/theme";
import type { DescribedOption, Option } from "./names";
import { keep, kept } from "./settings";
import { say } from "../../../speech/on_page";

const KEY = "tuckfold-surroundings";

export const WALLS: readonly Option<Wall>[] = [
  { value: "plaster", word: say("Plaster") },
  { value: "chalk", word: say("Chalk") },
  { value: "sand", word: say("Sand") },
  { value: "sage", word: say("Sage") },
  { value: "slate", word: say("Slate") },
];
export const LIGHTS: readonly Option<LightFrom>[] = [
  { value: "left", word: say("Left") },
  { value: "upper-left", word: say("Upper left") },
  { value: "above", word: say("Above") },
  { value: "upper-right", word: say("Upper right") },
  { value: "right", word: say("Right") },
];
export const BESIDES: readonly DescribedOption<Beside>[] = [
  { value: "nothing", word: say("Nothing"), meaning: say("the piece alone") },
  { value: "door", word: say("A door"), meaning: say("its leaf 2000 mm high and 800 mm wide") },
  { value: "chair", word: say("A chair"), meaning: say("its seat 450 mm above the floor") },
  { value: "person", word: say("A person"), meaning: say("1700 mm tall") },
];

export const COOLEST = 6500;
export const WARMEST = 2700;
export const surroundings = signal<Surroundings>(asSurroundings(kept(KEY)));

/** Change some of it. */
export function surround(change: Partial<Surroundings>): void {
  surroundings.value = { ...surroundings.value, ...change };
}

/** Keep them for the next visit. */
export function keepSurroundings(): void {
  effect(() => keep(KEY, JSON.stringify(surroundings.value)));
}

/** The stored surroundings; each value that is not valid has its default. */
export function asSurroundings(text: string | null): Surroundings {
  const given = fields(text);
  const one = <T extends string>(options: readonly Option<T>[], name: string, fallback: T): T =>
    options.find(({ value }) => value === given.get(name))?.value ?? fallback;
  const kelvin = given.get("light_kelvin");
  return {
    wall: one(WALLS, "wall", DEFAULT_SURROUNDINGS.wall),
    light_from: one(LIGHTS, "light_from", DEFAULT_SURROUNDINGS.light_from),
    light_kelvin:
      typeof kelvin === "number" && Number.isInteger(kelvin) && kelvin >= WARMEST && kelvin <= COOLEST
        ? kelvin
        : DEFAULT_SURROUNDINGS.light_kelvin,
    beside: one(BESIDES, "beside", DEFAULT_SURROUNDINGS.beside),
    flat_light: given.get("flat_light") === true,
  };
}

function fields(text: string | null): ReadonlyMap<string, unknown> {
  if (text === null) return new Map();
  try {
    const read: unknown = JSON.parse(text);
    return new Map(typeof read === "object" && read !== null ? Object.entries(read) : []);
  } catch (failure) {
    if (failure instanceof SyntaxError) return new Map();
    throw failure;
  }
}
