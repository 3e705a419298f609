// Going from a sheet to a roll and back: each keeps the measures that it had.
import type { Job, Sheet } from "../../../contract/types";
import { setSheet } from "../work/edit";

type Size = Pick<Sheet, "width_mm" | "height_mm">;

/** A sheet with a height, or a roll without one. */
export type Loaded = "sheet" | "roll";

/** The job's default sheet, 13 x 19 inch. */
const USUAL_SHEET: Size = { width_mm: 329, height_mm: 483 };

/** The measures that sheet and roll had when the other one took their place. */
export class SheetMemory {
  readonly #last = new Map<Loaded, Size>();

  /** The change that loads the other kind, with the measures it had before; a first roll is as wide as the sheet. */
  load(kind: Loaded, { sheet }: Job): (job: Job) => Job {
    const { width_mm, height_mm } = sheet;
    const from: Loaded = height_mm === undefined ? "roll" : "sheet";
    if (from === kind) return (job) => job;
    this.#last.set(from, { width_mm, ...(height_mm === undefined ? {} : { height_mm }) });
    const next = this.#last.get(kind) ?? (kind === "roll" ? { width_mm } : USUAL_SHEET);
    return setSheet(next.width_mm, next.height_mm);
  }
}
