// A grown side: that it is invented, and another one at a click.
import { setSides } from "../state/edit";
import { otherSeed } from "../state/grown";
import { propose } from "../state/run";
import { job } from "../state/work";

export function GrownSide() {
  const sides = job.value?.sides;
  if (sides === undefined) return null;
  const seed = otherSeed(sides.seed);
  return (
    <div class="grown-side">
      <p class="consequence">
        Invented picture: pieces of the strip beside the arris are laid anew, as they are or reflected. Nothing here was
        photographed or painted so; say it to your client.
      </p>
      <button
        type="button"
        class="button"
        onClick={() => void propose({ field: "sides.seed", label: "growing others", change: setSides({ seed }) })}
      >
        Grow others
      </button>
      <p class="aside">Number {sides.seed}: it grows the same sides again, on the screen and in print.</p>
    </div>
  );
}
