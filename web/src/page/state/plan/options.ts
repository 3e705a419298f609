// What is chosen for the cutting plan: copies, gap, knife, price, turning. The browser keeps it, apart from the job.
import { effect, signal } from "@preact/signals";
import type { Pin, PlanOptions } from "../../../contract/types";
import { keep, kept } from "../page/settings";

export interface PlanChoices {
  readonly copies: number;
  readonly gap_mm: number;
  readonly knife_mm: number;
  /** Of a square metre, in the user's own money. */
  readonly price: number | undefined;
  readonly never_turned: boolean;
}

export const USUAL_CHOICES: PlanChoices = {
  copies: 1,
  gap_mm: 0,
  knife_mm: 0,
  price: undefined,
  never_turned: false,
};

const KEY = "tuckfold-plan";

export const planChoices = signal<PlanChoices>(readChoices(kept(KEY)));

/** Keep the choices for the next visit; copies belong to one order and are not kept. */
export function keepPlanChoices(): void {
  effect(() => keep(KEY, JSON.stringify({ ...planChoices.value, copies: 1 })));
}

export function choose(change: Partial<PlanChoices>): void {
  planChoices.value = { ...planChoices.value, ...change };
}

/** Choices as they were kept; what is not as it should be has its usual value. */
export function readChoices(text: string | null): PlanChoices {
  const tree = parsed(text);
  const { gap_mm, knife_mm } = USUAL_CHOICES;
  return {
    copies: 1,
    gap_mm: numberIn(tree, "gap_mm") ?? gap_mm,
    knife_mm: numberIn(tree, "knife_mm") ?? knife_mm,
    price: numberIn(tree, "price"),
    never_turned: tree.get("never_turned") === true,
  };
}

/** The core's options for these choices and pins. */
export function planOptions(choices: PlanChoices, pins: readonly Pin[]): PlanOptions {
  const { gap_mm, knife_mm, price, never_turned } = choices;
  return {
    stocks: [],
    gap_mm,
    knife_mm,
    turning: never_turned ? "never" : "where-equal",
    ...(price === undefined ? {} : { price_per_m2: price }),
    pins: [...pins],
  };
}

function parsed(text: string | null): ReadonlyMap<string, unknown> {
  try {
    const tree: unknown = JSON.parse(text ?? "{}");
    return new Map(typeof tree === "object" && tree !== null ? Object.entries(tree) : []);
  } catch {
    return new Map();
  }
}

function numberIn(tree: ReadonlyMap<string, unknown>, name: string): number | undefined {
  const value = tree.get(name);
  return typeof value === "number" && Number.isFinite(value) && value >= 0 ? value : undefined;
}
