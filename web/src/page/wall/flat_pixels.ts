// The flat canvas as the colour view shows it, for a drawing without the graphics processor.
import { lookPixels } from "../../stage/look_pixels";
import type { StageTexture } from "../../stage/types";
import { clipped, lit } from "../state/colour_clip";
import { drawnView, look } from "../state/colour_look";
import { threshold } from "../state/colour_view";

type Pixels = Uint8ClampedArray<ArrayBuffer>;

/** Reads what the view depends on now, and gives the pixels when they are asked for. */
export function flatPixels(texture: StageTexture): () => Pixels {
  const [tables, view, group] = [look.value, drawnView.value, lit.value?.number ?? 0];
  const from = view === "clip" ? threshold.value : 0;
  const labels = group === 0 ? undefined : clipped.value?.labels;
  return () => {
    const plain = view === "filed" && tables?.filed === undefined && group === 0;
    if (tables === undefined || plain) return new Uint8ClampedArray(texture.pixels);
    return lookPixels(texture, tables, view, from, labels, group);
  };
}
