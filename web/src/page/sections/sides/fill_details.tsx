// The settings of a side fill, and the notice that a continued side is made up or a mirror.
import type { Fill, Job } from "../../../contract/types";
import { lengthShown } from "../../../units";
import { LengthSlider } from "../../controls/slider";
import { unit } from "../../state/page/settings";
import { job } from "../../state/work/work";
import { SideColour } from "./side_colour";
import { say } from "../../../speech/on_page";

interface FillDetailsProps {
  /** `sides`, or one side's own name below it. */
  readonly field: string;
  readonly fill: {
    readonly fill: Fill;
    readonly blur_mm: number;
    readonly band_mm: number;
    readonly colour: string;
  };
  readonly set: (part: { blur_mm: number } | { band_mm: number } | { colour: string }) => (job: Job) => Job;
}

export function FillDetails({ field, fill, set }: FillDetailsProps) {
  const depth = job.value?.bars.depth_mm ?? 0;
  const mirrored = fill.fill === "mirror" || fill.fill === "fade";
  const coloured = fill.fill === "plain" || fill.fill === "fade";
  const banded = fill.fill === "drawn-out" || (coloured && fill.colour === "edge");
  return (
    <>
      {mirrored && (
        <LengthSlider
          field={`${field}.blur_mm`}
          label={say("Blur towards the wall")}
          value={fill.blur_mm}
          set={(blur_mm) => set({ blur_mm })}
          from={0}
          to={20}
          by={0.5}
          consequence={
            fill.blur_mm === 0
              ? say("Sharp all the way to the wall.")
              : say("Sharp at the front edge, blurred by {blur_mm} at the back edge, {depth} further.", {
                  blur_mm: lengthShown(fill.blur_mm, unit.value),
                  depth: lengthShown(depth, unit.value),
                })
          }
        />
      )}
      {fill.fill === "continued" && <ContinuedSide />}
      {coloured && <SideColour field={`${field}.colour`} colour={fill.colour} set={(colour) => set({ colour })} />}
      {banded && (
        <LengthSlider
          field={`${field}.band_mm`}
          label={say("Band")}
          value={fill.band_mm}
          set={(band_mm) => set({ band_mm })}
          from={0}
          to={20}
          by={0.5}
          consequence={say("Colours are averaged over {band_mm} beside the front edge.", {
            band_mm: lengthShown(fill.band_mm, unit.value),
          })}
        />
      )}
    </>
  );
}

function ContinuedSide() {
  return (
    <p class="consequence">
      {say(
        "Made up: the lines that run into the front edge go on, in colours of the strip beside it. Nobody photographed or painted this; tell your client. A side that would look no better so is a mirror.",
      )}
    </p>
  );
}
