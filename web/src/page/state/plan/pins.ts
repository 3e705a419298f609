// Pieces pinned by hand, as pure functions of the plan that is shown.
import type { Pin, PlacedPiece, Plan } from "../../../contract/types";

/** The piece of this name, and the number of its sheet. */
export function pieceNamed(plan: Plan, name: string): { piece: PlacedPiece; sheet: number } | undefined {
  for (const sheet of plan.sheets) {
    const piece = sheet.pieces.find((one) => one.name === name);
    if (piece !== undefined) return { piece, sheet: sheet.number };
  }
  return undefined;
}

/** The pin that holds a piece where it lies, or a little off. A pin that no plan shows yet counts on. */
export function pinAt(
  pins: readonly Pin[],
  piece: PlacedPiece,
  sheet: number,
  change: Partial<Omit<Pin, "piece">> = {},
): Pin {
  const { name, x_mm, y_mm, turned } = piece;
  const held = pins.find((one) => one.piece === name);
  const pin = { piece: name, sheet, x_mm, y_mm, turned, ...held, ...change };
  // A place above or left of the sheet is none.
  return { ...pin, x_mm: tidy(pin.x_mm), y_mm: tidy(pin.y_mm) };
}

/** The pins with one more, or with another in the place of that piece's. */
export function withPin(pins: readonly Pin[], pin: Pin): readonly Pin[] {
  return [...pins.filter((one) => one.piece !== pin.piece), pin];
}

export function withoutPin(pins: readonly Pin[], name: string): readonly Pin[] {
  return pins.filter((one) => one.piece !== name);
}

/** To a hundredth of a millimetre, and not off the sheet. */
function tidy(mm: number): number {
  return Math.max(0, Math.round(mm * 1000) / 1000);
}
