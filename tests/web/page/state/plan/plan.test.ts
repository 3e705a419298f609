import { expect, test } from "vitest";
import type { PlacedPiece, Plan, PlannedCut } from "../../../../../web/src/contract/types";
import { planOptions, readChoices, USUAL_CHOICES } from "../../../../../web/src/page/state/plan/options";
import { pieceNamed, pinAt, withoutPin, withPin } from "../../../../../web/src/page/state/plan/pins";
import { cutText, pieceLabel, pieceText, planRows, planSentence } from "../../../../../web/src/page/state/plan/words";

const piece: PlacedPiece = {
  name: "Low tide, 2 of 3",
  job: "Low tide",
  panel: 2,
  copy_number: 1,
  x_mm: 10,
  y_mm: 0,
  width_mm: 290.9,
  height_mm: 390.9,
  turned: true,
  pinned: false,
};

const cut: PlannedCut = {
  number: 1,
  way: "down",
  start_mm: [300.9, 0],
  end_mm: [300.9, 390.9],
  trims: true,
};

const plan: Plan = {
  sheets: [
    {
      number: 1,
      stock: "1118 mm roll",
      is_roll: true,
      width_mm: 1118,
      height_mm: 390.9,
      margin_mm: [3, 3, 3, 3],
      pieces: [piece],
      cuts: [cut],
      used_m2: 0.114,
      waste_m2: 0.323,
    },
  ],
  figures: {
    pieces: 1,
    sheets: 1,
    roll_length_mm: 390.9,
    stock_m2: 0.437,
    used_m2: 0.114,
    waste_m2: 0.323,
    waste_share: 0.739,
    rows_m2: 0.437,
    least_m2: 0.3,
    cuts: 1,
    cost: 8.7405,
  },
  notes: [],
};

test("a plan is told in a sentence, with its cost to two decimals", () => {
  expect(planSentence(plan, "mm")).toBe("1 canvas on 390.9 mm of the roll, 1 cut.");
  expect(planRows(plan).find(({ name }) => name === "cost")?.text).toBe("8.74");
  const { cost: _, ...unpriced } = plan.figures;
  expect(planRows({ ...plan, figures: unpriced }).map(({ name }) => name)).not.toContain("cost");
});

test("a cut and a piece are told by where they lie", () => {
  expect(cutText(cut, "mm")).toBe("Down, 300.9 mm from the left, from 0 mm to 390.9 mm; the waste comes off");
  expect(pieceText(piece, "mm")).toBe(
    "Low tide, 2 of 3, 290.9 × 390.9 mm, turned, 10 mm from the left, 0 mm from the top",
  );
  expect(pieceLabel(piece)).toBe("2 of 3");
  expect(pieceLabel({ ...piece, name: "Low tide" })).toBe("Low tide");
});

test("a piece is pinned where it lies or a little off, never above or left of the sheet", () => {
  expect(pieceNamed(plan, "Low tide, 2 of 3")?.sheet).toBe(1);
  expect(pieceNamed(plan, "none")).toBeUndefined();
  const pin = pinAt([], piece, 1, { x_mm: 12.34567, y_mm: -3 });
  expect(pin).toEqual({
    piece: piece.name,
    sheet: 1,
    x_mm: 12.346,
    y_mm: 0,
    turned: true,
  });
  // What was asked for last counts on, though no plan shows it yet.
  expect(pinAt([pin], piece, 1, { y_mm: 7 })).toEqual({ ...pin, y_mm: 7 });
  const moved = { ...pin, x_mm: 50 };
  expect(withPin([pin], moved)).toEqual([moved]);
  expect(withoutPin([pin], piece.name)).toEqual([]);
});

test("choices that were kept come back, and what is damaged has its usual value", () => {
  const kept = { ...USUAL_CHOICES, gap_mm: 4, price: 18, never_turned: true };
  expect(readChoices(JSON.stringify(kept))).toEqual(kept);
  expect(readChoices('{"gap_mm": "wide", "price": -3, "copies": 9}')).toEqual(USUAL_CHOICES);
  expect(readChoices("not JSON")).toEqual(USUAL_CHOICES);
  expect(readChoices(null)).toEqual(USUAL_CHOICES);
});

test("an absent price is left out, since nothing is null at the bridge", () => {
  expect(planOptions(USUAL_CHOICES, [])).toEqual({
    stocks: [],
    gap_mm: 0,
    knife_mm: 0,
    turning: "where-equal",
    pins: [],
  });
  expect(planOptions({ ...USUAL_CHOICES, price: 18, never_turned: true }, []).turning).toBe("never");
});
