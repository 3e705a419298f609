// The sheet of the plan that is drawn, and the places of its canvases.
import { computed, signal } from "@preact/signals";
import type { Layout, SheetPlan } from "../../../contract/types";
import { shown } from "../work/work";

/** Counted from 0; as it was asked for, though the plan may have fewer by now. */
export const sheetAsked = signal(0);

/** How many sheets there are to look at. */
export const sheetCount = computed(() => shown.value?.layout.plan?.sheets.length ?? 1);

export const sheetShown = computed(() => Math.min(sheetAsked.value, sheetCount.value - 1));

export interface SheetPlacement extends Pick<SheetPlan, "turned" | "length_mm"> {
  readonly canvases: SheetPlan["sheets"][number];
}

/** The canvases of one sheet of the plan; the canvas alone where there is no plan. */
export function sheetPlacement({ plan, sheet }: Layout, number: number): SheetPlacement {
  const canvases = plan?.sheets[number];
  if (plan === undefined || canvases === undefined) {
    return { ...sheet, canvases: [{ panel: 1, position_mm: sheet.position_mm }] };
  }
  return { turned: plan.turned, length_mm: plan.length_mm, canvases };
}
