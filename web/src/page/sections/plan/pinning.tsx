// A chosen piece by numbers: where it is pinned, turned or not, and letting it go.
import { pressable } from "../../controls/pressable";
import type { Plan } from "../../../contract/types";
import { More } from "../../controls/section";
import { chosenPiece, pins, setPins } from "../../state/plan/cutting";
import { pieceNamed, pinAt, withoutPin, withPin } from "../../state/plan/pins";
import { PlanLength } from "./plan_length";
import { say } from "../../../speech/on_page";

export function Pinning({ plan }: { readonly plan: Plan }) {
  const names = plan.sheets.flatMap((sheet) => sheet.pieces.map((piece) => piece.name));
  const found = pieceNamed(plan, chosenPiece.value ?? "") ?? pieceNamed(plan, names[0] ?? "");
  if (found === undefined) return null;
  const { piece, sheet } = found;
  const at = pinAt(pins.value, piece, sheet);
  const pin = (change: Parameters<typeof pinAt>[3]): void =>
    setPins(withPin(pins.value, pinAt(pins.value, piece, sheet, change)));
  return (
    <More summary={say("Place a piece by hand")}>
      <p class="consequence" id="cutting-keys">
        {say(
          "Drag a piece, or move it by the arrow keys: it is pinned there, and the others go round it. T turns it, Delete lets it go.",
        )}
      </p>
      <div class="field">
        <label class="field-label" for="cutting-piece">
          {say("Piece")}
        </label>
        <select
          id="cutting-piece"
          value={piece.name}
          onChange={(event) => (chosenPiece.value = event.currentTarget.value)}
        >
          {names.map((name) => (
            <option key={name}>{name}</option>
          ))}
        </select>
      </div>
      <div class="pair">
        <PlanLength field="plan.x_mm" label={say("From the left")} value={at.x_mm} commit={(x_mm) => pin({ x_mm })} />
        <PlanLength field="plan.y_mm" label={say("From the top")} value={at.y_mm} commit={(y_mm) => pin({ y_mm })} />
      </div>
      <div class="row">
        <label class="tick">
          <input
            type="checkbox"
            id="cutting-turned"
            checked={at.turned}
            onChange={(event) => pin({ turned: event.currentTarget.checked })}
          />
          <span>{say("Turned")}</span>
        </label>
        <button
          type="button"
          class="button"
          id="cutting-let-go"
          {...pressable(piece.pinned, () => setPins(withoutPin(pins.value, piece.name)))}
        >
          {say("Let it go")}
        </button>
        <button
          type="button"
          class="button"
          id="cutting-let-all-go"
          {...pressable(pins.value.length > 0, () => setPins([]))}
        >
          {say("Let all go")}
        </button>
      </div>
    </More>
  );
}
