// Going from a sheet to a roll and back: each keeps the measures that it had.
import type { Job, Sheet } from "../../../contract/types";
import { setSheet } from "../work/edit";
import { ROLLS } from "./sizes";

type Size = Pick<Sheet, "width_mm" | "height_mm">;

/** A sheet with a height, or a roll without one. */
export type Loaded = "sheet" | "roll";

/** The job's default sheet, 13 x 19 inch. */
const USUAL_SHEET: Size = { width_mm: 329, height_mm: 483 };

/** The measures that sheet and roll had when the other one took their place. */
export class SheetMemory {
  readonly #last = new Map<Loaded, Size>();

  /**
   * The change that loads the other kind, with the measures it had before.
   *
   * A first roll is the narrowest usual one that is as wide as the sheet: the printer takes that.
   */
  load(kind: Loaded, { sheet }: Job): (job: Job) => Job {
    const { width_mm, height_mm } = sheet;
    const from: Loaded = height_mm === undefined ? "roll" : "sheet";
    if (from === kind) return (job) => job;
    this.#last.set(from, { width_mm, ...(height_mm === undefined ? {} : { height_mm }) });
    const next = this.#last.get(kind) ?? (kind === "roll" ? firstRoll(width_mm) : USUAL_SHEET);
    return setSheet(next.width_mm, next.height_mm);
  }
}

/** What a size may lack of a named one that is the same: 24 in are sold as 610 mm. */
const SAME_MM = 0.5;

function firstRoll(width_mm: number): Size {
  return { width_mm: ROLLS.find((roll) => roll.width_mm >= width_mm - SAME_MM)?.width_mm ?? width_mm };
}
