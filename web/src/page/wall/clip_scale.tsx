// The scale of the gamut map with its threshold: colours that fall from pale to dark, and figures to read them by.
import { AmountSlider } from "../controls/amount";
import { clipQuery } from "../state/colour/clip";
import { lookQuery } from "../state/colour/look";
import { liveThreshold, threshold } from "../state/colour/viewing";
import { deShown } from "../state/colour/words";
import { setColour } from "../state/work/edit";
import { trimmed } from "../../units";
import { job } from "../state/work/work";
import type { Look } from "../../stage/types";
import { say, sayParts } from "../../speech/on_page";

const TICKS = [0, 1 / 3, 2 / 3, 1];

export function ClipScale({ look }: { readonly look: Look }) {
  const value = job.value?.colour.clip_threshold_de;
  if (value === undefined) return null;
  const full = look.scaleFullDe;
  // Known while the figures are asked for; of the threshold that is set, not of one that is being drawn.
  const parts = liveThreshold.value === undefined ? clipQuery.fresh.value?.reply.parts : undefined;
  const isNothingOut = parts?.every((part) => part.share === 0) ?? false;
  const share = Math.min(1, threshold.value / full);
  return (
    <div class="clip-scale" id="clip-scale" style={{ "--scale": gradient(look.scale), "--from": share }}>
      <p class="clip-scale-says">
        {sayParts("{words} more than {threshold}{words2}", {
          ...wordsAround({ isNothingOut, isAnew: lookQuery.pending.value }),
          threshold: <strong>{deShown(threshold.value)}</strong>,
        })}
      </p>
      <div class="clip-scale-track">
        <AmountSlider
          field="colour.clip_threshold_de"
          label={say("Threshold of the gamut map")}
          value={value}
          set={(clip_threshold_de) => setColour({ clip_threshold_de })}
          live={liveThreshold}
          from={0}
          to={full}
          by={0.1}
          shown={deShown}
        />
      </div>
      <p class="clip-scale-ticks" aria-hidden="true">
        {TICKS.map((tick) => (
          <span key={tick} style={{ "--at": tick }}>
            {trimmed(full * tick, 1)}
            {tick === 1 && "+"}
          </span>
        ))}
      </p>
    </div>
  );
}

interface MapState {
  /** The figures say that no colour is out of gamut. */
  readonly isNothingOut: boolean;
  /** The map is that of the job before; its tables are being worked out again. */
  readonly isAnew: boolean;
}

/** What stands before and behind the threshold. */
export function wordsAround({ isNothingOut, isAnew }: MapState): { readonly words: string; readonly words2: string } {
  if (isAnew) return { words: say("Off by"), words2: say("; being worked out again") };
  if (isNothingOut) return { words: say("Nothing is out of gamut by"), words2: "" };
  return { words: say("Off by"), words2: say(" (grey: prints true)") };
}

/** The scale's own colours, sixteen of them, in order. */
export function gradient(scale: Uint8Array): string {
  const last = scale.length / 3 - 1;
  const stops = Array.from({ length: 16 }, (_, stop) => {
    const at = 3 * Math.round((stop / 15) * last);
    return `rgb(${scale[at] ?? 0} ${scale[at + 1] ?? 0} ${scale[at + 2] ?? 0})`;
  });
  return `linear-gradient(to right, ${stops.join(", ")})`;
}
